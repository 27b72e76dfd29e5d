/** Junctions: the LEDs' by colour, the small silicon diode's, and those of the diodes inside driver arrays. */
import { type Junction, THERMAL_VOLTAGE } from '../../devices/device-models.ts';

/** Through this point [V, A], with this emission coefficient and series resistance [Ω]. */
export function junctionThrough(volts: number, amps: number, n: number, rs: number): Junction {
  const nvt = n * THERMAL_VOLTAGE;
  return { is: amps / Math.expm1((volts - amps * rs) / nvt), nvt, rs };
}

/** 0.72 V at 10 mA, 0.6 V at 1 mA, as a small switching diode; from memory. */
export const smallDiode: Junction = junctionThrough(0.72, 10e-3, 1.75, 1);

/** 0.93 V at 1 A, as a rectifier for 1 A; from memory, 1.1 V at most. */
export const rectifierJunction: Junction = junctionThrough(0.93, 1, 1.8, 0.05);

/** 1.7 V at 350 mA, at most 2 V; from memory. */
export const clampDiode: Junction = junctionThrough(1.7, 0.35, 1.75, 2);

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
