/** Silicon junctions: the small diode, and the diodes inside driver arrays. */
import { type Junction, THERMAL_VOLTAGE } from '../../devices/device-models.ts';

/** Through this point [V, A], with this emission coefficient and series resistance [Ω]. */
export function junctionThrough(volts: number, amps: number, n: number, rs: number): Junction {
  const nvt = n * THERMAL_VOLTAGE;
  return { is: amps / Math.expm1((volts - amps * rs) / nvt), nvt, rs };
}

/** 0.72 V at 10 mA, 0.6 V at 1 mA, as a small switching diode; from memory. */
export const smallDiode: Junction = junctionThrough(0.72, 10e-3, 1.75, 1);

/** 1.7 V at 350 mA, at most 2 V; from memory. */
export const clampDiode: Junction = junctionThrough(1.7, 0.35, 1.75, 2);
