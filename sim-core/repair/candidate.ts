/** An edit that may be the repair: what it changes, what a hand must touch, and how likely it is before anything is tried. */
import type { Change } from '../document/changes.ts';
import type { FaultBench } from '../faults/fault-bench.ts';
import type { Ref } from '../sentence/wording.ts';

export interface RepairCandidate {
  /** the kind of mistake that it undoes, or what it does: 'add-wire' */
  readonly kind: string;
  readonly change: Change;
  readonly things: readonly Ref[];
  readonly prior: number;
}

export const candidateOf = (kind: string, change: Change, prior: number): RepairCandidate => ({
  kind,
  change,
  things: touchedThings(change),
  prior,
});

/** Things of the plan that a change names, each once: what a hand must touch. */
function touchedThings(change: Change): readonly Ref[] {
  const found = new Map<string, Ref>();
  const note = (ref: Ref) => void found.set(`${ref.kind} ${ref.id}`, ref);
  const go = (c: Change): void => {
    if (c.op === 'all') for (const inner of c.changes) go(inner);
    else if (c.op === 'set') {
      if ('id' in c) note({ kind: 'part', id: c.id });
    } else if (c.op !== 'set-rows' && c.list !== 'meters') {
      const { id } = c.op === 'replace' ? c.before : c.item;
      note({ kind: c.list === 'wires' ? 'wire' : c.list === 'boards' ? 'board' : 'part', id });
    }
  };
  go(change);
  return [...found.values()];
}

/** Strips in which one thing stands alone, and how many stand in each. */
export function crowding({ circuit }: FaultBench): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { strip } of [...circuit.layout.legs, ...circuit.layout.ends]) counts.set(strip, (counts.get(strip) ?? 0) + 1);
  return counts;
}
