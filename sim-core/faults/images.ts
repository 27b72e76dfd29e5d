/** What mistakes with a memory's bytes have in common: the addresses of the table's rows, and an image with other bytes there. */
import { sameValue } from '../../shared/same-value.ts';
import { bytesOfRows, rowsOfBytes } from '../document/memory-rows.ts';
import { storing } from '../document/memory-writes.ts';
import { type MemoryPins, tablePins } from '../findings/table-pins.ts';
import { addressOf } from '../logic/pin-map.ts';
import type { FoundFault } from './fault.ts';
import type { FaultBench } from './fault-bench.ts';

/** A memory that holds a part of the wanted table. */
export interface TableMemory extends MemoryPins {
  /** all of it */
  readonly bytes: Uint8Array;
  /** by row of the table */
  readonly addresses: readonly number[];
  /** bits of an address that the table's inputs set, least significant first */
  readonly lines: readonly number[];
  /** bits of a byte that an output of the table is on, least significant first */
  readonly bits: readonly number[];
}

export function tableMemories({ circuit, plan }: FaultBench): readonly TableMemory[] {
  const rows = 2 ** (plan.wanted?.inputs.length ?? 0);
  return tablePins(circuit).map((pins): TableMemory => {
    const at = (list: readonly unknown[]) => list.flatMap((on, i) => (typeof on === 'number' ? [i] : []));
    return {
      ...pins,
      bytes: bytesOfRows(plan.memories[pins.memory], 2 ** pins.address.length),
      addresses: Array.from({ length: rows }, (_, row) => addressOf(pins, row)),
      lines: at(pins.address),
      bits: at(pins.data),
    };
  });
}

/** The memory with other bytes: none if they are what it has. */
export function holding({ plan }: FaultBench, { memory, bytes }: TableMemory, after: Uint8Array, where: string): FoundFault[] {
  if (sameValue([...bytes], [...after])) return [];
  return [
    {
      where: `${memory} ${where}`.trimEnd(),
      things: [{ kind: 'part', id: memory }],
      places: [],
      change: storing(plan, memory, rowsOfBytes(after, plan.memories[memory])),
    },
  ];
}

/** The memory with another byte in each row of the table. */
export function eachRow(bench: FaultBench, memory: TableMemory, byte: (address: number, row: number) => number, where = ''): FoundFault[] {
  const after = memory.bytes.slice();
  for (const [row, address] of memory.addresses.entries()) after[address] = byte(address, row) & 0xff;
  return holding(bench, memory, after, where);
}

/** The memory with one other byte. */
export function oneByte(bench: FaultBench, memory: TableMemory, address: number, byte: number, where: string): FoundFault[] {
  if (memory.bytes[address] === byte) return [];
  const after = memory.bytes.slice();
  after[address] = byte;
  return [
    {
      where: `${memory.memory} ${where}`,
      things: [{ kind: 'part', id: memory.memory }],
      places: [],
      change: storing(bench.plan, memory.memory, rowsOfBytes(after, bench.plan.memories[memory.memory])),
    },
  ];
}

/** The value with its bits at `from` found at `to` instead, place by place; all others stay. */
export function permuted(value: number, from: readonly number[], to: readonly number[]): number {
  let after = value;
  for (const [i, bit] of from.entries()) {
    const goes = to[i] as number;
    after = (after & ~(1 << goes)) | (((value >> bit) & 1) << goes);
  }
  return after;
}

/** Neighbours in a list, swapped: every pair once. */
export const swaps = (list: readonly number[]): readonly (readonly [number, number])[] =>
  list.slice(1).map((bit, i) => [list[i] as number, bit] as const);
