/** A memory's cells: bytes of which some bits may be unknown, read exactly even when the address is not fully known. */

/** A number of which the bits set in `unknown` are not known; those bits of `value` are 0. */
export interface Partly {
  readonly value: number;
  readonly unknown: number;
}

export interface Cells {
  readonly value: Uint8Array;
  /** by address: 1 where a bit is uncertain */
  readonly unknown: Uint8Array;
}

const ERASED = 0xff;

/** Cells of a fresh memory with the plan's contents in it. */
export function makeCells(addressBits: number, contents: Readonly<Record<string, string>> | undefined): Cells {
  const size = 1 << addressBits;
  const value = new Uint8Array(size).fill(ERASED);
  for (const [first, bytes] of Object.entries(contents ?? {}))
    for (let i = 0; 2 * i < bytes.length; i++)
      value[(Number.parseInt(first, 16) + i) % size] = Number.parseInt(bytes.slice(2 * i, 2 * i + 2), 16);
  return { value, unknown: new Uint8Array(size) };
}

/** Calls back with every address that the known bits allow, ascending: 2^k of them for k unknown bits. */
export function eachAddress(a: Partly, visit: (address: number) => void): void {
  for (let low = 0; ; low = (low - a.unknown) & a.unknown) {
    visit(a.value | low);
    if (low === a.unknown) return;
  }
}

/** What stands at a partly known address: a bit that all candidates agree on is known. */
export function readCells(cells: Cells, a: Partly): Partly {
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

/** In plan form: rows of sixteen bytes that hold something; an uncertain bit is written as erased. */
export function contentsOf(cells: Cells): Readonly<Record<string, string>> {
  const rows: Record<string, string> = {};
  const hex = (n: number, digits: number) => n.toString(16).toUpperCase().padStart(digits, '0');
  for (let first = 0; first < cells.value.length; first += 16) {
    const bytes = Array.from(cells.value.subarray(first, first + 16), (v, i) => v | (cells.unknown[first + i] as number));
    if (bytes.some((v) => v !== ERASED)) rows[hex(first, 3)] = bytes.map((v) => hex(v, 2)).join('');
  }
  return rows;
}
