/**
 * A fixed resistor and a junction with nothing else on the node between them are, exactly, one junction with a larger series resistance:
 * one unknown less, and Newton's method finds the current of the pair in fewer steps.
 */
import { type CurrentAndSlope, junctionLaw, type ReadyJunction, readyJunction } from './device-models.ts';

type Ends = readonly [a: number, b: number];

export interface SeriesBranch {
  /** which of the junctions */
  readonly junction: number;
  /** the node that need not be solved for */
  readonly middle: number;
  /** current flows from here, to here */
  readonly from: number;
  readonly to: number;
  readonly law: ReadyJunction;
  readonly ohms: number;
  /** the resistor comes after the junction */
  readonly last: boolean;
}

/** all: the ends of every primitive; resistors: those whose value never changes, by their ends and ohms. Nodes from `ground` on are held. */
export function findSeriesBranches(
  all: readonly Ends[],
  resistors: readonly { readonly ends: Ends; readonly ohms: number }[],
  junctions: readonly { readonly ends: Ends; readonly law: ReadyJunction }[],
  ground: number,
): SeriesBranch[] {
  const degree = new Int32Array(ground + 1);
  for (const [a, b] of all) {
    degree[a] = (degree[a] as number) + 1;
    degree[b] = (degree[b] as number) + 1;
  }
  const at = new Map<number, (typeof resistors)[number]>();
  for (const r of resistors) if (r.ends[0] !== r.ends[1]) for (const end of r.ends) if (end !== ground && degree[end] === 2) at.set(end, r);
  const used = new Set<(typeof resistors)[number]>();
  const folds: SeriesBranch[] = [];
  for (const [junction, { ends, law }] of junctions.entries()) {
    const [a, b] = ends;
    if (a === b) continue;
    for (const middle of [b, a]) {
      const resistor = at.get(middle);
      if (!resistor || used.has(resistor)) continue;
      const far = resistor.ends[0] === middle ? resistor.ends[1] : resistor.ends[0];
      const last = middle === b;
      const [from, to] = last ? [a, far] : [far, b];
      if (from === to) continue;
      used.add(resistor);
      const { ohms } = resistor;
      folds.push({ junction, middle, from, to, ohms, last, law: readyJunction({ is: law.is, nvt: law.nvt, rs: law.rs + ohms }) });
      break;
    }
  }
  return folds;
}

/** Fills in at x the middle of each fold from its ends. */
export function completeFolds(folds: readonly SeriesBranch[], x: Float64Array, now: CurrentAndSlope): void {
  for (const f of folds) {
    junctionLaw((x[f.from] as number) - (x[f.to] as number), f.law, now);
    x[f.middle] = f.last ? (x[f.to] as number) + now.i * f.ohms : (x[f.from] as number) - now.i * f.ohms;
  }
}
