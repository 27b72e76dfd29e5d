/** What drives a net, in words. */
import type { NetReading, Readings } from '../../../sim-core/index.ts';

const DRIVE_TEXT = {
  driven: 'driven',
  weak: 'pulled by a resistor',
  floating: 'floating',
  contention: 'contention',
  unknown: 'undefined (X)',
} as const;

/** With every supply off nothing is driven, and what drives a net says little. A bench without one has none that could be off. */
export const isOff = ({ supplies }: Readings): boolean => supplies.length > 0 && supplies.every((s) => !s.on);

export const driveText = ({ drive }: NetReading, readings: Readings): string => (isOff(readings) ? 'the supply is off' : DRIVE_TEXT[drive]);
