/** A memory's cells: bytes of which some bits may be unknown, read exactly even when the address is not fully known. */
import type { PlanCells } from '../../../shared/plan.ts';
import { ERASED, everyRow, putRows, rowsOfBytes } from '../../document/memory-rows.ts';
import type { Partly } from '../../units/hex.ts';
import { makeRandom } from '../../units/random.ts';
import { doubt } from './cell-state.ts';

export interface Cells {
  readonly value: Uint8Array;
  /** by address: 1 where a bit is uncertain */
  readonly unknown: Uint8Array;
}

type Image = Readonly<Record<string, string>>;

/** Cells of a fresh memory with the plan's contents in it. beyond: so many bytes more, past the last address, that are not reached like the others. */
export function makeCells(addressBits: number, contents: Image | undefined, erased = ERASED, beyond = 0, state?: PlanCells): Cells {
  const size = (1 << addressBits) + beyond;
  const cells = { value: new Uint8Array(size).fill(erased), unknown: new Uint8Array(size) };
  putIn(cells, contents);
  doubt(cells, state);
  return cells;
}

/** Writes the plan's contents over what is there. */
function putIn({ value }: Cells, contents: Image | undefined): void {
  putRows(contents, value);
}

/** Fills the cells as a supply that comes up leaves them: at random, always the same for one name. contents: what is known to stand there. */
export function fillAtRandom(cells: Cells, name: string, contents?: Image, state?: PlanCells): void {
  let seed = 0;
  for (const c of name) seed = (Math.imul(seed, 31) + c.charCodeAt(0)) | 0;
  const random = makeRandom(seed);
  for (let i = 0; i < cells.value.length; i++) cells.value[i] = Math.floor(256 * random());
  cells.unknown.fill(0);
  putIn(cells, contents);
  doubt(cells, state);
}

/** Calls back with every address that the known bits allow, ascending: 2^k of them for k unknown bits. */
export function eachAddress(a: Partly, visit: (address: number) => void): void {
  for (let low = 0; ; low = (low - a.unknown) & a.unknown) {
    visit(a.value | low);
    if (low === a.unknown) return;
  }
}

/** Bytes of which every bit is known, made once. */
const CERTAIN: readonly Partly[] = Array.from({ length: 256 }, (_, value) => ({ value, unknown: 0 }));

/** What stands at a partly known address: a bit that all candidates agree on is known. */
export function readCells(cells: Cells, a: Partly): Partly {
  if (a.unknown !== 0) return readAll(cells, a);
  const doubt = cells.unknown[a.value] as number;
  if (doubt === 0) return CERTAIN[cells.value[a.value] as number] as Partly;
  return { value: (cells.value[a.value] as number) & ~doubt, unknown: doubt };
}

function readAll(cells: Cells, a: Partly): Partly {
  let all = 0xff;
  let any = 0;
  let unknown = 0;
  eachAddress(a, (address) => {
    const v = cells.value[address] as number;
    all &= v;
    any |= v;
    unknown |= cells.unknown[address] as number;
  });
  unknown |= all ^ any;
  return { value: all & ~unknown & 0xff, unknown };
}

/** Writes a byte. Not sure: the cells, or some bits of the byte, may also have stayed as they were. */
export function writeCells(cells: Cells, address: Partly, data: Partly, sure: boolean): void {
  eachAddress(address, (a) => {
    const before = cells.value[a] as number;
    const doubt = sure ? data.unknown : data.unknown | (before ^ data.value) | (cells.unknown[a] as number);
    cells.value[a] = (sure ? data.value : before) & ~doubt;
    cells.unknown[a] = doubt;
  });
}

interface Written {
  readonly bytes: Uint8Array;
  readonly all: boolean;
  readonly image: Image;
}

/** What was written out last, by memory. */
const written = new WeakMap<Cells, Written>();

/**
 * In plan form: rows of sixteen bytes; an uncertain bit is written as 1. Rows that were never written are left out, unless `all` are wanted. The same object as
 * last time while no byte differs.
 */
export function contentsOf(cells: Cells, all = false): Image {
  const last = written.get(cells);
  if (last?.all === all && isWritten(cells, last.bytes)) return last.image;
  const bytes = cells.value.map((v, i) => v | (cells.unknown[i] as number));
  const image = all ? everyRow(bytes) : (rowsOfBytes(bytes) ?? {});
  written.set(cells, { bytes, all, image });
  return image;
}

function isWritten({ value, unknown }: Cells, bytes: Uint8Array): boolean {
  for (let a = 0; a < bytes.length; a++) if (((value[a] as number) | (unknown[a] as number)) !== bytes[a]) return false;
  return true;
}
