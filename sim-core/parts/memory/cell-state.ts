/** What of a memory's cells its bytes do not tell, as a plan keeps it: uncertain bits, how far programming or erasing has come, how often each was written. */
import type { PlanCells } from '../../../shared/plan.ts';
import { ROW, rowAddress } from '../../document/memory-rows.ts';
import { hex } from '../../units/hex.ts';

/** A memory's cells: bytes, and by address 1 where a bit is uncertain. */
interface Cells {
  readonly value: Uint8Array;
  readonly unknown: Uint8Array;
}

type Rows = NonNullable<PlanCells['uncertain']>;
type Writes = NonNullable<PlanCells['writes']>;

/** Charge of a bit that is programmed for good; 0: erased. Sixteen bits, so that a plan holds it exactly. */
export const FULL = 0xffff;

/** undefined instead of an object with nothing in it. */
const unlessEmpty = <T extends object>(o: T): T | undefined => (Object.keys(o).length > 0 ? o : undefined);

/** Calls back with each byte that the rows name. digits: of one byte. */
function eachByte(rows: Rows, digits: number, size: number, visit: (address: number, text: string) => void): void {
  for (const [first, text] of Object.entries(rows))
    for (let i = 0; (i + 1) * digits <= text.length; i++) {
      const address = Number.parseInt(first, 16) + i;
      if (address < size) visit(address, text.slice(i * digits, (i + 1) * digits));
    }
}

/** Rows that begin at every sixteenth byte at the latest, of the bytes for which there is something to say. */
function rowsOf(size: number, say: (address: number) => string | undefined): Rows | undefined {
  const rows: Rows = {};
  let first = -1;
  for (let a = 0; a < size; a++) {
    const text = say(a);
    if (text === undefined) first = -1;
    else if (first < 0 || a % ROW === 0) {
      first = a;
      rows[rowAddress(a)] = text;
    } else rows[rowAddress(first)] += text;
  }
  return unlessEmpty(rows);
}

/** Bits that a plan's byte shows as 1 and says are uncertain. */
export function doubt({ value, unknown }: Cells, state: PlanCells | undefined): void {
  eachByte(state?.uncertain ?? {}, 2, value.length, (a, text) => {
    const mask = Number.parseInt(text, 16);
    unknown[a] = mask;
    value[a] = (value[a] as number) & ~mask;
  });
}

function isAnySet(bytes: Uint8Array): boolean {
  for (let a = 0; a < bytes.length; a++) if (bytes[a] !== 0) return true;
  return false;
}

export const doubtsOf = ({ unknown }: Cells): Rows | undefined =>
  isAnySet(unknown) ? rowsOf(unknown.length, (a) => (unknown[a] ? hex(unknown[a] as number, 2) : undefined)) : undefined;

/** By address, on top of how often all had been written before. */
export function countWrites(cycles: Uint32Array, writes: Writes | undefined): void {
  for (const [first, [times, cells]] of Object.entries(writes ?? {})) {
    const from = Number.parseInt(first, 16);
    for (let a = from; a < Math.min(from + cells, cycles.length); a++) cycles[a] = (cycles[a] as number) + times;
  }
}

/** Cells side by side that were written equally often stand together. */
export function writesOf(cycles: Uint32Array, before: number): Writes | undefined {
  const writes: Writes = {};
  for (let a = 0; a < cycles.length; ) {
    const times = (cycles[a] as number) - before;
    const first = a;
    while (a < cycles.length && (cycles[a] as number) - before === times) a++;
    if (times > 0) writes[rowAddress(first)] = [times, a - first];
  }
  return unlessEmpty(writes);
}

/** Charges by address and bit; where the plan says nothing, a byte tells its own. programmed: what a programmed bit reads. */
export function chargesIn({ value }: Cells, programmed: 0 | 1, state: PlanCells | undefined): Uint16Array {
  const charge = new Uint16Array(8 * value.length);
  for (let i = 0; i < charge.length; i++) charge[i] = told(value, i, programmed);
  eachByte(state?.charge ?? {}, 32, value.length, (a, text) => {
    for (let bit = 0; bit < 8; bit++) charge[8 * a + bit] = Number.parseInt(text.slice(4 * bit, 4 * bit + 4), 16);
  });
  return charge;
}

export function chargesOf(charge: Uint16Array, { value }: Cells, programmed: 0 | 1): Rows | undefined {
  return rowsOf(value.length, (a) => {
    let tells = true;
    for (let i = 8 * a; i < 8 * a + 8; i++) if (charge[i] !== told(value, i, programmed)) tells = false;
    return tells ? undefined : Array.from(charge.subarray(8 * a, 8 * a + 8), (c) => hex(c, 4)).join('');
  });
}

const told = (value: Uint8Array, i: number, programmed: 0 | 1): number =>
  (((value[i >> 3] as number) >> (i & 7)) & 1) === programmed ? FULL : 0;

/** All of it together; undefined where the bytes tell everything. */
export function stateOf(all: { readonly [K in keyof PlanCells]: PlanCells[K] | undefined }): PlanCells | undefined {
  const { uncertain, charge, writes } = all;
  return unlessEmpty({ ...(uncertain ? { uncertain } : {}), ...(charge ? { charge } : {}), ...(writes ? { writes } : {}) });
}
