/** A band of a reading in words: typical, and least to most. */
import type { ReadingBand } from '../tolerance/reading-band.ts';
import { siFormat } from '../units/quantity.ts';
import { enumeration } from '../units/text-list.ts';

/** '4.98 mA typical, 3.9 mA to 6.1 mA over specimens'; then, where it is so, that a value in between may lie outside. */
export function sayBand({ unit, typical, least, most, movers, turning }: ReadingBand): string {
  const figure = (value: number) => siFormat(Math.abs(value) < NIL ? 0 : value, unit);
  const [low, high] = [figure(least), figure(most)];
  if (low === high && movers.length === 0) return `${low}: no tolerance of a part moves it.`;
  const strongest = movers.some((m) => m.endsWith('.drive'))
    ? ' Outputs go from guaranteed to typical: no data sheet says how strong the strongest is.'
    : '';
  const beyond =
    turning.length > 0 ? ` It turns round within the tolerance of ${enumeration(turning)}, so a value in between may lie outside.` : '';
  return `${figure(typical)} typical, ${low} to ${high} over specimens.${strongest}${beyond}`;
}

/** Smaller readings are 0 [V, A]. */
const NIL = 1e-9;
