/** Columns that line up, for reading in a terminal. */
import { hex } from '../../sim-core/index.ts';

/** Every column as wide as its widest cell; the last one is not padded. */
export function table(rows: ReadonlyArray<readonly string[]>): string {
  const widths: number[] = [];
  for (const row of rows) for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, cell.length);
  return rows.map((row) => row.map((cell, i) => (i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0))).join('  ')).join('\n');
}

/** Bits of which some are unknown: hexadecimal when all are known, else binary with X. */
export function bits({ value, unknown }: { readonly value: number; readonly unknown: number }, digits: number): string {
  if (unknown === 0) return hex(value, digits);
  return Array.from({ length: 4 * digits }, (_, i) => 4 * digits - 1 - i)
    .map((bit) => ((unknown >> bit) & 1 ? 'X' : String((value >> bit) & 1)))
    .join('');
}
