/** Where every element's current is a straight line over its voltage, so that the equations of a network are linear. */
import { CLAMP_KNEE, type Supply, supplyIsStraight } from './device-models.ts';
import type { ParallelGroup } from './parallel-reduction.ts';
import { OFF } from './primitives.ts';
import type { ElementTable } from './stamp.ts';

/** The least and the most that a voltage from node a to node b [V] is on some way; ground is past the last node. */
export interface Way {
  least(a: number, b: number): number;
  most(a: number, b: number): number;
}

export function clampsAreStraight({ a, b }: ParallelGroup, way: Way): boolean {
  for (let k = 0; k < a.length; k++) if (way.most(a[k] as number, b[k] as number) > CLAMP_KNEE) return false;
  return true;
}

/** One that is off is a resistor. */
export function suppliesAreStraight({ a, b }: ElementTable, laws: readonly Supply[], on: readonly boolean[], way: Way): boolean {
  for (let k = 0; k < a.length; k++)
    if (on[k] === true && !supplyIsStraight(way.least(a[k] as number, b[k] as number), laws[k] as Supply)) return false;
  return true;
}

export function outputsAreOff(pull: Uint8Array): boolean {
  for (let k = 0; k < pull.length; k++) if (pull[k] !== OFF) return false;
  return true;
}
