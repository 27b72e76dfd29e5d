/**
 * The currents of all elements of one kind into the rows of the two nodes that each joins, and their slopes into the matrix: the solver's inner loop.
 * One small function for each kind, over flat arrays, so that a compiler can keep its laws in registers.
 */
import {
  type Channel,
  CLAMP_KNEE,
  type CurrentAndSlope,
  channelLaw,
  clampLaw,
  junctionLaw,
  type ReadyJunction,
  type Supply,
  supplyLaw,
} from './device-models.ts';
import type { ParallelGroup } from './parallel-reduction.ts';
import { add, addRounding, addSlope, type ElementTable } from './stamp.ts';

/** What is being added up: currents by row, what they were added up from, and slopes by slot if they are wanted. */
export interface Sums {
  residual: Float64Array;
  magnitude: Float64Array;
  jacobian: Float64Array | null;
}

/** From here on [S] the last digit of a voltage is worth more than the test of convergence leaves to the smallest currents. */
const STIFF = 5;

export function addConductances({ a, b, slots }: ElementTable, siemens: Float64Array, x: Float64Array, sums: Sums): void {
  const { residual, magnitude, jacobian } = sums;
  for (let k = 0; k < a.length; k++) {
    const p = a[k] as number;
    const q = b[k] as number;
    const g = siemens[k] as number;
    const i = g * ((x[p] as number) - (x[q] as number));
    if (g > STIFF) addRounding(p, q, g, x, magnitude);
    add(p, q, i, residual, magnitude);
    if (jacobian) addSlope(slots, k, g, jacobian);
  }
}

export function addJunctions(
  { a, b, slots }: ElementTable,
  laws: readonly ReadyJunction[],
  x: Float64Array,
  sums: Sums,
  now: CurrentAndSlope,
): void {
  const { residual, magnitude, jacobian } = sums;
  for (let k = 0; k < a.length; k++) {
    const p = a[k] as number;
    const q = b[k] as number;
    junctionLaw((x[p] as number) - (x[q] as number), laws[k] as ReadyJunction, now);
    add(p, q, now.i, residual, magnitude);
    if (jacobian) addSlope(slots, k, now.g, jacobian);
  }
}

export function addClamps({ a, b, slots, total }: ParallelGroup, x: Float64Array, sums: Sums, now: CurrentAndSlope): void {
  const { residual, magnitude, jacobian } = sums;
  for (let k = 0; k < a.length; k++) {
    const p = a[k] as number;
    const q = b[k] as number;
    const v = (x[p] as number) - (x[q] as number);
    if (v <= CLAMP_KNEE) continue;
    clampLaw(v, now);
    const many = total[k] as number;
    add(p, q, many * now.i, residual, magnitude);
    if (jacobian) addSlope(slots, k, many * now.g, jacobian);
  }
}

/** Those of one side that pull. */
export function addChannels(
  { a, b, slots }: ElementTable,
  laws: readonly Channel[],
  pulls: Uint8Array,
  pull: number,
  x: Float64Array,
  sums: Sums,
  now: CurrentAndSlope,
): void {
  const { residual, magnitude, jacobian } = sums;
  for (let k = 0; k < a.length; k++) {
    if (pulls[k] !== pull) continue;
    const p = a[k] as number;
    const q = b[k] as number;
    channelLaw((x[p] as number) - (x[q] as number), laws[k] as Channel, now);
    add(p, q, now.i, residual, magnitude);
    if (jacobian) addSlope(slots, k, now.g, jacobian);
  }
}

/** Counted as stiff whatever its internal resistance: most have a tenth of an ohm or less. */
export function addSupplies(
  { a, b, slots }: ElementTable,
  laws: readonly Supply[],
  on: readonly boolean[],
  share: number,
  x: Float64Array,
  sums: Sums,
  now: CurrentAndSlope,
): void {
  const { residual, magnitude, jacobian } = sums;
  for (let k = 0; k < a.length; k++) {
    const p = a[k] as number;
    const q = b[k] as number;
    switchedSupplyLaw((x[p] as number) - (x[q] as number), laws[k] as Supply, on[k] === true, share, now);
    addRounding(p, q, now.g, x, magnitude);
    add(p, q, now.i, residual, magnitude);
    if (jacobian) addSlope(slots, k, now.g, jacobian);
  }
}

/** A supply that is off is open, and 1 kΩ across its terminals bleeds what the bench still holds (from memory). share: of its voltage that counts. */
export function switchedSupplyLaw(v: number, s: Supply, on: boolean, share: number, now: CurrentAndSlope): void {
  if (on) supplyLaw(v, share === 1 ? s : { ...s, volts: s.volts * share }, now);
  else {
    now.g = 1e-3;
    now.i = v * 1e-3;
  }
}
