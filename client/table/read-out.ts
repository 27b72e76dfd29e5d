/** A file of bytes that was laid beside the table: what it is compared with, and what can become of it. */
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import {
  type Change,
  type FileRead,
  type MemoryImage,
  type MemoryPins,
  mergeImages,
  type Outcome,
  rowsOfBytes,
  storedImage,
  storedTable,
  storeImage,
  wantedImages,
  wantedOfTable,
} from '../core.ts';

export interface Memory {
  readonly id: string;
  readonly address: readonly string[];
  readonly data: readonly string[];
}

export interface Against {
  readonly image: MemoryImage;
  readonly dataPins: number;
  /** 'what the table wants' */
  readonly called: string;
}

/** With what the table asks of this memory; where it asks nothing of it, with what the memory holds. */
export function against(plan: Plan, pins: readonly MemoryPins[], memory: Memory): Against {
  const at = pins.findIndex((p) => p.memory === memory.id);
  const wanted = plan.wanted && at >= 0 ? wantedImages(plan.wanted, pins) : undefined;
  const image = wanted?.ok ? wanted.value[at] : undefined;
  if (!image) return { image: held(plan, memory), dataPins: memory.data.length, called: `what ${memory.id} holds` };
  const used = pins[at]?.data.findLastIndex((d) => d !== 'unused') ?? -1;
  return { image, dataPins: used + 1, called: 'what the table wants' };
}

export const held = (plan: Plan, memory: Memory): MemoryImage => storedImage(plan.memories, sites(memory));
const sites = ({ id, address }: Memory) => ({ memory: id, address: address.map(() => 'low' as const) });

/** The file's bytes and nothing else. */
export const putting = (plan: Plan, { id }: Memory, { bytes }: MemoryImage): Change =>
  storeImage(plan, id, { bytes, given: new Uint8Array(bytes.length).fill(0xff) });

/** What the file gives beside what is there; refused where both give a byte and they differ, unless the file is to win. */
export function merging(plan: Plan, memory: Memory, { image }: FileRead, wins: 'nobody' | 'second'): Outcome<Change> {
  const there = held(plan, memory);
  // an erased byte is one that nobody has given
  const given = there.bytes.map((b) => (b === 0xff ? 0 : 0xff));
  const merged = mergeImages({ bytes: there.bytes, given }, image, wins);
  return merged.ok ? { ok: true, value: putting(plan, memory, merged.value) } : merged;
}

/** The table that wants what these bytes hold; undefined where its columns do not all lie on memories. */
export function wantingWhat(
  wanted: PlanWanted,
  plan: Plan,
  pins: readonly MemoryPins[],
  id: string,
  bytes: Uint8Array,
): PlanWanted | undefined {
  const { [id]: _, ...others } = plan.memories;
  const rows = rowsOfBytes(bytes);
  const table = storedTable(wanted, rows ? { ...others, [id]: rows } : others, pins);
  const { expressions: __, ...bare } = wanted;
  return table && { ...wantedOfTable(bare, table), rules: [] };
}

/** The row that reads this address of a memory; undefined: none does. */
export function rowAt(pins: MemoryPins | undefined, address: number): number | undefined {
  let row = 0;
  for (const [pin, on] of pins?.address.entries() ?? []) {
    const high = ((address >> pin) & 1) === 1;
    if (typeof on === 'number') row |= high ? 1 << on : 0;
    else if (high !== (on === 'high')) return undefined;
  }
  return pins && row;
}
