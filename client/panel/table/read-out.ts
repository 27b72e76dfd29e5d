/** A file of bytes that was laid beside the table: what it is compared with, and what can become of it. */
import type { Plan, PlanWanted } from '../../../shared/plan.ts';
import {
  addressOf,
  type Change,
  done,
  enumeration,
  type FileRead,
  failed,
  hexAddress,
  hexByte,
  type MemoryImage,
  type MemoryPins,
  mergeImages,
  type Outcome,
  rowsOfBytes,
  storedImage,
  storedTable,
  storeImage,
  type Unasked,
  wantedImages,
  wantedOfTable,
} from '../../../sim-core/index.ts';

export interface Memory {
  readonly id: string;
  readonly address: readonly string[];
  readonly data: readonly string[];
}

/** Something that a file is compared with. */
export interface Against {
  readonly id: 'wanted' | 'held' | 'file';
  readonly image: MemoryImage;
  /** 'what the table wants' */
  readonly called: string;
}

/** What the table asks of this memory; undefined where it asks nothing of it. */
export function asked(plan: Plan, pins: readonly MemoryPins[], memory: Memory, unasked: Unasked = 'left out'): Against | undefined {
  const at = pins.findIndex((p) => p.memory === memory.id);
  const wanted = plan.wanted && at >= 0 ? wantedImages(plan.wanted, pins, unasked) : undefined;
  const image = wanted?.ok ? wanted.value[at] : undefined;
  if (!image) return undefined;
  return { id: 'wanted', image, called: 'what the table wants' };
}

/** All that a file can be laid beside: the table, the memory, and the file that was opened before it. */
export function readOutBeside(
  plan: Plan,
  pins: readonly MemoryPins[],
  memory: Memory,
  before: { readonly name: string; readonly image: MemoryImage } | undefined,
): readonly Against[] {
  const wanted = asked(plan, pins, memory);
  return [
    ...(wanted ? [wanted] : []),
    { id: 'held', image: held(plan, memory), called: `what ${memory.id} holds now` },
    ...(before ? [{ id: 'file' as const, image: before.image, called: before.name }] : []),
  ];
}

export const held = (plan: Plan, memory: Memory): MemoryImage => storedImage(plan.memories, sites(memory));
const sites = ({ id, address }: Memory) => ({ memory: id, address: address.map(() => 'low' as const) });

/** The file's bytes and nothing else. */
export const putting = (plan: Plan, { id }: Memory, { bytes }: MemoryImage): Change =>
  storeImage(plan, id, { bytes, given: new Uint8Array(bytes.length).fill(0xff) });

/** What the file gives beside what is there; refused where both give a byte and they differ, unless one of them is to count. */
export function merging(plan: Plan, memory: Memory, { image }: FileRead, counts: 'neither' | 'memory' | 'file'): Outcome<Change> {
  const there = held(plan, memory);
  // an erased byte is one that was not given
  const mine = { bytes: there.bytes, given: there.bytes.map((b) => (b === 0xff ? 0 : 0xff)) };
  const clash = clashes(mine, image);
  if (counts === 'neither' && clash[0] !== undefined) return sayClash(memory, mine, image, clash);
  const merged = counts === 'memory' ? mergeImages(image, mine, 'second') : mergeImages(mine, image, 'second');
  return merged.ok ? done(putting(plan, memory, merged.value)) : merged;
}

const clashes = (one: MemoryImage, other: MemoryImage): number[] =>
  [...one.bytes.keys()].filter((a) => (((one.bytes[a] ?? 0) ^ (other.bytes[a] ?? 0)) & (one.given[a] ?? 0) & (other.given[a] ?? 0)) !== 0);

function sayClash({ id }: Memory, mine: MemoryImage, file: MemoryImage, clash: readonly number[]): Outcome<never> {
  const [at = 0] = clash;
  const more = clash.length - 1;
  const address = hexAddress(at, mine.bytes.length);
  const also = more === 0 ? '' : `, and they differ at ${more === 1 ? 'one more address' : `${more} more addresses`}`;
  return failed(
    'image/bytes-differ',
    address,
    `At ${address} ${id} holds ${hexByte(mine.bytes[at] ?? 0)} and the file gives ${hexByte(file.bytes[at] ?? 0)}${also}. Say which of the two to keep.`,
  );
}

/**
 * The table that wants what this image holds: bits that it does not give are free, and what other memories are asked for stays. Undefined where its columns
 * do not all lie on memories.
 */
export function wantingWhat(
  wanted: PlanWanted,
  plan: Plan,
  pins: readonly MemoryPins[],
  id: string,
  { bytes, given }: MemoryImage,
): PlanWanted | undefined {
  const { [id]: _, ...others } = plan.memories;
  const chip = pins.find((p) => p.memory === id);
  const rows = rowsOfBytes(bytes);
  const table = storedTable(wanted, rows ? { ...others, [id]: rows } : others, pins);
  if (!chip || !table) return undefined;
  const lines = chip.data.flatMap((output, pin) => (output === 'unused' ? [] : [{ bit: 1 << output, pin }]));
  const own = lines.reduce((mask, { bit }) => mask | bit, 0);
  const dontCare = table.dontCare.map((_, row) => {
    const known = given[addressOf(chip, row)] ?? 0;
    return lines.reduce((mask, { bit, pin }) => ((known >> pin) & 1 ? mask : mask | bit), (wanted.dontCare?.[row] ?? 0) & ~own);
  });
  const values = table.values.map((v, row) => ((v & own) | ((wanted.rows[row] ?? 0) & ~own)) & ~(dontCare[row] ?? 0));
  const { expressions: __, ...bare } = wanted;
  return { ...wantedOfTable(bare, { ...table, values, dontCare }), rules: [] };
}

/** 'A5 to A10 are tied low. D7 is not used.'; empty where every pin carries a column of the table. */
export function sayOtherPins({ address, data }: Memory, pins: MemoryPins): string {
  const on = (level: 'low' | 'high') => runs(address.filter((_, i) => pins.address[i] === level));
  const unused = runs(data.filter((_, i) => pins.data[i] === 'unused'));
  const said = (names: string, one: string, many: string) => (names === '' ? [] : [`${names} ${/ to | and |,/.test(names) ? many : one}.`]);
  return [
    ...said(on('low'), 'is tied low', 'are tied low'),
    ...said(on('high'), 'is tied high', 'are tied high'),
    ...said(unused, 'carries no output', 'carry no output'),
  ].join(' ');
}

/** 'A5 to A10 and A12' */
function runs(names: readonly string[]): string {
  const numbered = names.map((name) => ({ name, n: Number(/\d+$/.exec(name)?.[0] ?? -2) }));
  const said: string[] = [];
  for (let i = 0; i < numbered.length; ) {
    let k = i;
    while (numbered[k + 1]?.n === (numbered[k]?.n ?? 0) + 1) k++;
    const [from, to] = [numbered[i]?.name ?? '', numbered[k]?.name ?? ''];
    if (k > i + 1) said.push(`${from} to ${to}`);
    else said.push(...(k > i ? [from, to] : [from]));
    i = k + 1;
  }
  return enumeration(said);
}
