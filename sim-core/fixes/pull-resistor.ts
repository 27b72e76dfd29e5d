/** A pin that floats, or that is not pulled high enough: a resistor from its row to a rail. */
import { nearestPair } from '../board/tie-points.ts';
import { resistor } from '../parts/resistor.ts';
import { inOhms, type Ref, say } from '../sentence/wording.ts';
import { nextDownIn } from '../units/e-series.ts';
import type { Fix, FixBench } from './fix.ts';
import { between, freeBeside, freeOfSupply, legOf } from './free-holes.ts';

/** most: what the resistor may have at most [Ω] */
export function pull(bench: FixBench, pin: Ref, way: 'up' | 'down', most: number): readonly Fix[] {
  const leg = legOf(bench, pin);
  const pair = leg && nearestPair(freeBeside(bench, leg), freeOfSupply(bench, way === 'up'));
  if (!pair) return [];
  const ohms = nextDownIn('E12', most);
  const change = between(bench, resistor.id, { ohms }, pair);
  return change ? [{ says: say`Pull ${pin} ${way} with ${inOhms(ohms)}`, change }] : [];
}
