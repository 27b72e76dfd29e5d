/** What the diodes from a pin to the supply pins may carry. */
import type { Figure } from '../part.ts';

const clampCurrent = (source: string): Figure => ({ name: 'current through a pin’s diodes, most', value: 20e-3, unit: 'A', source });

export const hcClampCurrent = clampCurrent('SOURCES.md S15, S19');

/** Sheets of other chips name voltages only. */
export const usualClampCurrent = clampCurrent('from memory, as of HC logic; sheets of memories name voltages only');
