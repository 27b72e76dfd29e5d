/** A chip without its capacitor: one between the nearest free holes of its supply pin's and its ground pin's metal. */
import { nearestPair } from '../board/tie-points.ts';
import { capacitor } from '../parts/capacitor.ts';
import { inFarads, type Ref, say } from '../sentence/wording.ts';
import type { Fix, FixBench } from './fix.ts';
import { between, freeBeside, freeOn, legOf } from './free-holes.ts';

export function decouple(bench: FixBench, chip: Ref, supply: Ref, ground: Ref, farads: number): readonly Fix[] {
  const [plus, minus] = [legOf(bench, supply), legOf(bench, ground)];
  if (!plus || !minus) return [];
  const pair = nearestPair(freeBeside(bench, plus), freeOn(bench, bench.circuit.netOf(minus)));
  const change = pair && between(bench, capacitor.id, { farads }, pair);
  return change ? [{ says: say`Add ${inFarads(farads)} at ${chip}`, change }] : [];
}
