/** A memory's bytes as a plan writes them down: rows of hexadecimal digits by address, and nothing where the cells are erased. */
import type { Plan } from '../../shared/plan.ts';
import { hex, hexByte } from '../units/hex.ts';

type Rows = Plan['memories'][string];

/** What a cell that a plan does not name reads, in most memories. */
export const ERASED = 0xff;
/** bytes of one row */
export const ROW = 16;

/** The first `size` bytes. */
export function bytesOfRows(rows: Rows | undefined, size: number): Uint8Array {
  const bytes = new Uint8Array(size).fill(ERASED);
  putRows(rows, bytes);
  return bytes;
}

/** Writes the bytes that the rows name over those that are there; what lies behind them is left out. */
export function putRows(rows: Rows | undefined, into: Uint8Array): void {
  for (const [first, row] of Object.entries(rows ?? {})) {
    const at = Number.parseInt(first, 16);
    for (let i = 0; 2 * i < row.length && at + i < into.length; i++) into[at + i] = 16 * digitAt(row, 2 * i) + digitAt(row, 2 * i + 1);
  }
}

const ends = new WeakMap<Rows, number>();

/** The address behind the last byte that rows name. */
export function endOfRows(rows: Rows): number {
  let end = ends.get(rows);
  if (end === undefined) {
    end = Object.entries(rows).reduce((most, [first, row]) => Math.max(most, Number.parseInt(first, 16) + row.length / 2), 0);
    ends.set(rows, end);
  }
  return end;
}

/** A capital hexadecimal digit. */
function digitAt(row: string, i: number): number {
  const code = row.charCodeAt(i);
  return code < 65 ? code - 48 : code - 55;
}

/** What rows name, by address, as its digits: two a byte, or as many as `digits` says. */
export function digitsByAddress(rows: Rows | undefined, digits = 2): Map<number, string> {
  const found = new Map<number, string>();
  for (const [first, row] of Object.entries(rows ?? {}))
    for (let i = 0; i * digits < row.length; i++) found.set(Number.parseInt(first, 16) + i, row.slice(i * digits, (i + 1) * digits));
  return found;
}

/**
 * Rows for these bytes; what `before` has behind them stays. Of what it names nothing becomes unnamed: some memories do not wake up with FF where a plan
 * says nothing. undefined: nothing is named.
 */
export function rowsOfBytes(bytes: Uint8Array, before: Rows = {}): Rows | undefined {
  const named = new Uint8Array(Math.ceil(bytes.length / ROW));
  for (const [first, row] of Object.entries(before)) {
    const at = Number.parseInt(first, 16);
    named.fill(1, Math.floor(at / ROW), Math.ceil((at + row.length / 2) / ROW));
  }
  const rows = rowsWhere(bytes, (at, row) => named[at / ROW] === 1 || row.some((b) => b !== ERASED));
  for (const [first, row] of Object.entries(before)) {
    const behind = bytes.length - Number.parseInt(first, 16);
    if (2 * behind < row.length) rows[rowAddress(bytes.length - Math.min(0, behind))] = row.slice(2 * Math.max(0, behind));
  }
  return Object.keys(rows).length > 0 ? rows : undefined;
}

/** Rows for all of these bytes, erased ones among them. */
export const everyRow = (bytes: Uint8Array): Rows => rowsWhere(bytes, () => true);

/** Every byte as its digits. */
const BYTES = Array.from({ length: 256 }, (_, byte) => hexByte(byte));

function rowsWhere(bytes: Uint8Array, has: (at: number, row: Uint8Array) => boolean): Rows {
  const rows: Rows = {};
  for (let at = 0; at < bytes.length; at += ROW) {
    const row = bytes.subarray(at, at + ROW);
    if (has(at, row)) rows[rowAddress(at)] = row.reduce((text, byte) => text + BYTES[byte], '');
  }
  return rows;
}

/** What a row is called by that begins at this address. */
export const rowAddress = (at: number): string => hex(at, 3);

/** Do the two say the same of this byte? What is not named is erased. */
export const isByteAlike = (a: ReadonlyMap<number, string>, b: ReadonlyMap<number, string>, address: number): boolean =>
  (a.get(address) ?? hexByte(ERASED)) === (b.get(address) ?? hexByte(ERASED));

/** One byte of them. */
export function byteAt(rows: Rows | undefined, address: number): number {
  for (const [first, row] of Object.entries(rows ?? {})) {
    const at = (address - Number.parseInt(first, 16)) * 2;
    if (at >= 0 && at < row.length) return Number.parseInt(row.slice(at, at + 2), 16);
  }
  return ERASED;
}
