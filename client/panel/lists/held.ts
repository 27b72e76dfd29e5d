/** What holds a net at its voltage, in words. */
import type { NetReading, Readings } from '../../../sim-core/index.ts';

const HELD = {
  driven: 'driven',
  weak: 'pulled by a resistor',
  air: 'floating',
  fight: 'contention',
  unknown: 'undefined',
} as const;

/** With every supply off nothing is driven, and what holds a net says little. A bench without one has none that could be off. */
export const isOff = ({ supplies }: Readings): boolean => supplies.length > 0 && supplies.every((s) => !s.on);

export const heldSays = ({ held }: NetReading, readings: Readings): string => (isOff(readings) ? 'the supply is off' : HELD[held]);
