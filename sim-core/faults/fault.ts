/** The contract of a mistake that a person makes on a bench: what of the plan it changes, what a hand must touch to undo it, and how often it happens. */
import type { Change } from '../document/changes.ts';
import type { Ref } from '../sentence/wording.ts';
import type { FaultBench } from './fault-bench.ts';

/** One mistake that fits a bench. `invert(change)` is its repair. */
export interface Fault {
  /** 'wire-row-off' */
  readonly kind: string;
  /** the kind and where it is: 'wire-row-off W14.from +1' */
  readonly id: string;
  /** what a hand must touch, the most important first */
  readonly things: readonly Ref[];
  /** where it is and where it should be */
  readonly places: readonly Ref[];
  readonly change: Change;
  /** how often it happens beside all others of this bench: the weight of its kind, shared equally */
  readonly prior: number;
  /** how likely a look at the thing shows it, 0 to 1 */
  readonly visible: number;
}

/** What a kind finds on a bench; `where` tells it from the others of its kind. */
export type FoundFault = Pick<Fault, 'things' | 'places' | 'change'> & { readonly where: string };

/** Weights and chances to be seen are our judgement: common practice, no source. */
export interface FaultKind {
  readonly kind: string;
  /** what it changes: metal and parts, the bytes of a memory, or the supply's settings */
  readonly of: 'wiring' | 'contents' | 'supply';
  readonly weight: number;
  readonly visible: number;
  find(bench: FaultBench): Iterable<FoundFault>;
}

export const defineFault = (kind: FaultKind): FaultKind => kind;

/** All mistakes of these kinds that fit the bench, kind by kind. */
export function faultsOf(bench: FaultBench, kinds: readonly FaultKind[]): readonly Fault[] {
  return kinds.flatMap(({ kind, weight, visible, find }) => {
    const found = [...find(bench)];
    return found.map(({ where, ...of }): Fault => ({ kind, id: `${kind} ${where}`, ...of, prior: weight / found.length, visible }));
  });
}
