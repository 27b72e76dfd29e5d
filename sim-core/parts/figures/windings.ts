/** What every winding has beside its inductance: the resistance of its wire, a capacitance from turn to turn, and losses; and what these let it reach. */
import type { WindingModel } from '../part.ts';

/** From turn to turn and layer to layer, taken together [F]; from memory: 10 to 100 pF for what fits on a board. */
const FARADS = 50e-12;
/** Losses of wire and iron, as a resistance beside the inductance, in parts of √(L/C); our choice: it rings twice or three times and is done. */
const QUALITY = 2;

/** A winding as a part is made of it. */
export const winding = (ohms: number, henries: number): WindingModel => ({
  ohms,
  henries,
  farads: FARADS,
  loss: QUALITY * Math.sqrt(henries / FARADS),
});

/**
 * Most voltage [V] across a winding whose current [A] has just lost its path: I·√(L/C)·exp(−ζ·arccos ζ/√(1 − ζ²)), ζ = 1/(2·QUALITY), the first crest of a
 * parallel resonant circuit; any text on linear circuits. The wire's resistance is left out: it is far below √(L/C).
 */
export function openVolts(amps: number, henries: number): number {
  const damping = 1 / (2 * QUALITY);
  return amps * Math.sqrt(henries / FARADS) * Math.exp((-damping * Math.acos(damping)) / Math.sqrt(1 - damping ** 2));
}
