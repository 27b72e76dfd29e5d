/** Bytes into a bench's memories at once, as a programmer would put them there, and back out of them. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { type Change, join } from '../document/changes.ts';
import { tableOfWanted } from '../document/edits/wanted.ts';
import { bytesOfRows, ERASED, rowsOfBytes } from '../document/memory-rows.ts';
import { storing } from '../document/memory-writes.ts';
import { type MemoryImage, wholeImage } from '../logic/memory-image.ts';
import { imagesOf, type PinMap, tableOfImages } from '../logic/pin-map.ts';
import type { TruthTable } from '../logic/truth-table.ts';
import type { MemoryPins } from './table-pins.ts';

const pinMapOf = (wanted: PlanWanted, chips: readonly MemoryPins[], unasked: Unasked = 'left out'): PinMap => ({
  chips,
  activeLow: wanted.outputs.reduce((mask, o, i) => (o.activeLow ? mask | (1 << i) : mask), 0),
  fill: unasked === '00' ? 0 : 0xff,
  elsewhere: unasked === 'the table again' ? 'repeat' : 'fill',
});

/** What stands at addresses, and in bits, that the table does not ask for: nothing, a byte, or the table again wherever a tied pin may be loose. */
export type Unasked = 'left out' | 'FF' | '00' | 'the table again';

/** One image a memory, in the order of `chips`: what the table asks to be stored. Fails with `table/…`. */
export function wantedImages(
  wanted: PlanWanted,
  chips: readonly MemoryPins[],
  unasked: Unasked = 'left out',
): Outcome<readonly MemoryImage[]> {
  if (chips.length === 0)
    return failed(
      'table/no-memory',
      'memories',
      'No memory on this bench has all of the inputs and an output of this table on its pins. Give the columns their pins, or build the bench from the table.',
    );
  const table = tableOfWanted(wanted);
  const images = table.ok ? imagesOf(table.value, pinMapOf(wanted, chips, unasked)) : table;
  return images.ok && (unasked === 'FF' || unasked === '00') ? done(images.value.map(({ bytes }) => wholeImage(bytes))) : images;
}

/** What a memory of a plan holds, every bit given. address: its address pins. */
export const storedImage = (
  memories: Plan['memories'],
  { memory, address }: { readonly memory: string; readonly address: readonly unknown[] },
): MemoryImage => wholeImage(bytesOfRows(memories[memory], 2 ** address.length));

/** What a person reads at the outputs for every row; undefined where an output lies on no memory. */
export function storedTable(wanted: PlanWanted, memories: Plan['memories'], chips: readonly MemoryPins[]): TruthTable | undefined {
  const table = tableOfImages(
    chips.map((chip) => storedImage(memories, chip)),
    pinMapOf(wanted, chips),
    wanted.inputs.map((i) => i.name),
    wanted.outputs.map((o) => o.name),
  );
  return table.ok ? table.value : undefined;
}

/** The image's given bits take the place of what is stored; all else stays. */
export function storeImage(plan: Plan, memory: string, image: MemoryImage): Change {
  const before = plan.memories[memory];
  const bytes = bytesOfRows(before, image.bytes.length);
  for (const [at, given] of image.given.entries()) bytes[at] = ((bytes[at] ?? 0) & ~given) | ((image.bytes[at] ?? 0) & given);
  return storing(
    plan,
    memory,
    rowsOfBytes(bytes, before),
    [...image.given.keys()].filter((at) => image.given[at] !== 0),
  );
}

/** The whole table into all its memories: one change. Fails with `table/…`. */
export function storeTable(plan: Plan, chips: readonly MemoryPins[]): Outcome<Change> {
  if (!plan.wanted) return failed('table/none', 'wanted', 'This bench has no table yet. Start one on the page Table.');
  const images = wantedImages(plan.wanted, chips);
  if (!images.ok) return images;
  return done(join(...chips.flatMap((chip, i) => (images.value[i] ? [storeImage(plan, chip.memory, images.value[i])] : []))));
}

/** What the table asks for where a memory is still erased, by memory; those that want nothing there are left out. Fails with `table/…`. */
export function storeErased(plan: Plan, chips: readonly MemoryPins[]): Outcome<ReadonlyMap<string, Change>> {
  if (!plan.wanted) return failed('table/none', 'wanted', 'This bench has no table yet. Start one on the page Table.');
  const images = wantedImages(plan.wanted, chips);
  if (!images.ok) return images;
  return done(
    new Map(
      chips.flatMap(({ memory }, i): (readonly [string, Change])[] => {
        const { bytes = new Uint8Array(), given = bytes } = images.value[i] ?? {};
        const stored = bytesOfRows(plan.memories[memory], bytes.length);
        const lacks = given.map((bits, at) => (stored[at] === ERASED && ((bytes[at] ?? 0) & bits) !== bits ? bits : 0));
        return lacks.some((bits) => bits !== 0) ? [[memory, storeImage(plan, memory, { bytes, given: lacks })]] : [];
      }),
    ),
  );
}
