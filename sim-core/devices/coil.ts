/**
 * A coil: an inductance behind the resistance of its wire, its current kept as the voltage of a node of its own (a gyrator: B. D. H. Tellegen 1948, Philips
 * Research Reports 3, from memory), so that what integrates capacitors integrates it. L·i′ = v − R·i − what its losses take; at rest i = v/R.
 */
import type { Skew } from '../solve/equations.ts';

export interface CoilModel {
  /** of its wire [Ω], > 0 */
  readonly ohms: number;
  /** [H], > 0 */
  readonly henries: number;
  /** losses of its core, as a resistance beside the inductance [Ω]; Infinity: none */
  readonly loss: number;
}

/** One of them in a network: nodes by number, ground included. */
export interface Coil {
  readonly a: number;
  readonly b: number;
  /** its voltage is the inductance's current, 1 V for so many amperes as COIL_SCALE */
  readonly inner: number;
  /** couples the two, and joins the ends beside them [S] */
  readonly gain: number;
  readonly across: number;
  /** of the wire [Ω] */
  readonly ohms: number;
}

/** Amperes of a coil's current for 1 V at its inner node [S]: a relay's and a small motor's come to volts, which is what steps in time are accurate to. Our choice. */
export const COIL_SCALE = 1e-2;

/**
 * What a coil is made of. With i = α·iL + v/(loss + R) and L·iL′ = α·(v − R·iL), α = loss/(loss + R): the losses beside the inductance, the wire before
 * both, and no node between them. across: conductance between its ends; tie and farads: of its inner node to ground.
 */
export function coilLaw({ ohms, henries, loss }: CoilModel) {
  const share = Number.isFinite(loss) ? loss / (loss + ohms) : 1;
  return {
    gain: share * COIL_SCALE,
    across: 1 / (loss + ohms),
    tie: share * ohms * COIL_SCALE ** 2,
    farads: henries * COIL_SCALE ** 2,
  };
}

/** Where their slopes stand in a Jacobian without symmetry: four entries a coil. */
export const coilPlaces = (coils: readonly Coil[]): { rows: number[]; columns: number[] } => ({
  rows: coils.flatMap(({ a, b, inner }) => [a, b, inner, inner]),
  columns: coils.flatMap(({ a, b, inner }) => [inner, inner, a, b]),
});

/** Adds all currents but that of `across`, and if given writes the slopes into the skew entries from `first` on. */
export function stampCoils(
  coils: readonly Coil[],
  x: Float64Array,
  residual: Float64Array,
  magnitude: Float64Array,
  skew: Skew | null,
  first: number,
): void {
  for (let k = 0; k < coils.length; k++) {
    const { a, b, inner, gain } = coils[k] as Coil;
    const i = gain * (x[inner] as number);
    const [va, vb] = [x[a] as number, x[b] as number];
    residual[a] = (residual[a] as number) + i;
    residual[b] = (residual[b] as number) - i;
    residual[inner] = (residual[inner] as number) - gain * (va - vb);
    magnitude[a] = (magnitude[a] as number) + Math.abs(i);
    magnitude[b] = (magnitude[b] as number) + Math.abs(i);
    magnitude[inner] = (magnitude[inner] as number) + gain * (Math.abs(va) + Math.abs(vb));
    skew?.values.set([gain, -gain, -gain, gain], first + 4 * k);
  }
}
