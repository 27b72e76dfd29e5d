/**
 * A bipolar transistor as two junctions that steer each other's current: J. J. Ebers, J. L. Moll 1954, Proc. IRE 42(12), injection form.
 * I_C = αF·I_F − I_R, I_E = αR·I_R − I_F, I_B = −I_C − I_E, currents into the device; beyond `breakdown` between collector and emitter what an input clamp
 * carries beyond its knee. Not modelled: Early effect, charge storage, breakdown of the base's junctions.
 */
import type { Skew } from '../solve/equations.ts';
import { type Coil, coilPlaces } from './coil.ts';
import { CLAMP_KNEE, type CurrentAndSlope, clampLaw, junctionLaw, type ReadyJunction } from './device-models.ts';

export interface TransistorModel {
  /** base–emitter and base–collector junctions; αF·Is of the first equals αR·Is of the second */
  readonly forward: ReadyJunction;
  readonly reverse: ReadyJunction;
  readonly alphaF: number;
  readonly alphaR: number;
  /** from collector to emitter [V]; Infinity: never */
  readonly breakdown: number;
}

/** One of them in a network; nodes by number, ground included. */
export interface Transistor {
  readonly collector: number;
  readonly base: number;
  readonly emitter: number;
  readonly model: TransistorModel;
}

/** Three by three a transistor, rows and columns in the order C, B, E; then the coils. */
export function skewOf(transistors: readonly Transistor[], coils: readonly Coil[]): Skew {
  const nodes = transistors.map((t) => [t.collector, t.base, t.emitter] as const);
  const inner = coilPlaces(coils);
  const rows = [...nodes.flatMap((three) => three.flatMap((row) => three.map(() => row))), ...inner.rows];
  return {
    rows: Int32Array.from(rows),
    columns: Int32Array.from([...nodes.flatMap((three) => three.flatMap(() => three)), ...inner.columns]),
    values: new Float64Array(rows.length),
  };
}

/** What flows from collector to emitter once the two are too far apart. */
function avalanche({ collector, emitter, model }: Transistor, x: Float64Array, now: CurrentAndSlope): void {
  clampLaw((x[collector] as number) - (x[emitter] as number) - model.breakdown + CLAMP_KNEE, now);
}

/** Collector and base current into the device at node voltages x. */
export function transistorCurrents(t: Transistor, x: Float64Array, now: CurrentAndSlope): { collector: number; base: number } {
  const { forward, reverse, alphaF, alphaR } = t.model;
  junctionLaw((x[t.base] as number) - (x[t.emitter] as number), forward, now);
  const f = now.i;
  junctionLaw((x[t.base] as number) - (x[t.collector] as number), reverse, now);
  const r = now.i;
  avalanche(t, x, now);
  return { collector: alphaF * f - r + now.i, base: (1 - alphaF) * f + (1 - alphaR) * r };
}

/** Adds all currents to the residual and, if given, writes all slopes into the skew entries. */
export function stampTransistors(
  transistors: readonly Transistor[],
  x: Float64Array,
  residual: Float64Array,
  magnitude: Float64Array,
  skew: Skew | null,
  now: CurrentAndSlope,
): void {
  for (let k = 0; k < transistors.length; k++) {
    const t = transistors[k] as Transistor;
    const { collector: c, base: b, emitter: e } = t;
    const { forward, reverse, alphaF, alphaR } = t.model;
    junctionLaw((x[b] as number) - (x[e] as number), forward, now);
    const f = now.i;
    const gf = now.g;
    junctionLaw((x[b] as number) - (x[c] as number), reverse, now);
    const r = now.i;
    const gr = now.g;
    avalanche(t, x, now);
    const ga = now.g;
    const flows = Math.abs(f) + Math.abs(r) + now.i;
    residual[c] = (residual[c] as number) + alphaF * f - r + now.i;
    residual[b] = (residual[b] as number) + (1 - alphaF) * f + (1 - alphaR) * r;
    residual[e] = (residual[e] as number) + alphaR * r - f - now.i;
    for (const node of [c, b, e]) magnitude[node] = (magnitude[node] as number) + flows;
    skew?.values.set(
      [
        gr + ga,
        alphaF * gf - gr,
        -alphaF * gf - ga,
        -(1 - alphaR) * gr,
        (1 - alphaF) * gf + (1 - alphaR) * gr,
        -(1 - alphaF) * gf,
        -alphaR * gr - ga,
        alphaR * gr - gf,
        gf + ga,
      ],
      9 * k,
    );
  }
}
