/** The LEDs' junctions: diode figures by colour, fitted to their forward voltage at 10 mA. */
import { type Junction, THERMAL_VOLTAGE } from '../../devices/device-models.ts';

export type LedColour = 'red' | 'amber' | 'green' | 'blue' | 'white';

/**
 * Forward voltage at 10 mA [V] (SOURCES.md S40, S13: typical values within its ranges), emission coefficient and series resistance [Ω] assumed
 * (SOURCES.md, closed forms; amber and white chosen alike to red and blue).
 */
const AT_10_MA: Readonly<Record<LedColour, { vf: number; n: number; rs: number }>> = {
  red: { vf: 1.9, n: 2.0, rs: 4 },
  amber: { vf: 2.0, n: 2.0, rs: 5 },
  green: { vf: 2.1, n: 2.2, rs: 6 },
  blue: { vf: 3.1, n: 2.8, rs: 10 },
  white: { vf: 3.1, n: 2.8, rs: 10 },
};

/** Is from vf = n·Vt·ln(I/Is + 1) + I·Rs at 10 mA. */
export function junctionFor(colour: LedColour): Junction {
  const { vf, n, rs } = AT_10_MA[colour];
  const nvt = n * THERMAL_VOLTAGE;
  return { is: 0.01 / Math.expm1((vf - 0.01 * rs) / nvt), nvt, rs };
}
