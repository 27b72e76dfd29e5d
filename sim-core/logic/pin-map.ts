/** Which input is on which address pin and which output on which data pin of one or several memories, and the images that follow. */

import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import { blankImage, type MemoryImage } from './memory-image.ts';
import { rowsOf, type TruthTable, tableOfWords } from './truth-table.ts';

/** One memory's pins. Several memories stand side by side and usually share their address wires. */
export interface ChipPins {
  /** A0 first: index of the input on the pin, or the level the pin is tied to */
  readonly address: readonly (number | 'low' | 'high')[];
  /** D0 first: index of the output on the pin */
  readonly data: readonly (number | 'unused')[];
}

/** Which input is on which address pin and which output on which data pin, memory by memory. */
export interface PinMap {
  readonly chips: readonly ChipPins[];
  /** bit i: output i is wired so that 0 switches it on, so its bit is stored inverted */
  readonly activeLow: number;
  /** what cells and bits hold that the table does not give */
  readonly fill: number;
  /** addresses that tied pins keep out of reach: fill, or the table again, so that a wrong tie has no effect */
  readonly elsewhere: 'fill' | 'repeat';
}

/** One image a memory. A free cell keeps the fill's bit and is not among the given ones. Fails with `table/…`. */
export function imagesOf(table: TruthTable, map: PinMap): Outcome<readonly MemoryImage[]> {
  const wrong = misfit(table.inputs, table.outputs, map);
  if (wrong) return wrong;
  const stored = { values: table.values.map((v) => v ^ map.activeLow), care: table.dontCare.map((f) => ~f) };
  return done(
    map.chips.map((chip) => {
      const image = blankImage(2 ** chip.address.length, map.fill);
      const places = placesOf(chip, map.elsewhere);
      const bits = chip.data.flatMap((output, pin) => (output === 'unused' ? [] : [{ output, pin }]));
      const addresses = addressesOf(chip, rowsOf(table));
      for (let row = 0; row < rowsOf(table); row++) {
        const [value, care] = [stored.values[row] ?? 0, stored.care[row] ?? 0];
        let byte = 0;
        let given = 0;
        for (const { output, pin } of bits) {
          byte |= ((value >> output) & 1) << pin;
          given |= ((care >> output) & 1) << pin;
        }
        const at = addresses[row] ?? 0;
        for (const place of places) {
          image.bytes[at | place] = (byte & given) | (map.fill & ~given);
          image.given[at | place] = given;
        }
      }
      return image;
    }),
  );
}

/** What the memories hold, as a table: what a person reads at the outputs for every row. Fails with `image/wrong-size` or `table/…`. */
export function tableOfImages(
  images: readonly MemoryImage[],
  map: PinMap,
  inputs: readonly string[],
  outputs: readonly string[],
): Outcome<TruthTable> {
  const wrong = misfit(inputs, outputs, map);
  if (wrong) return wrong;
  const small = map.chips.findIndex((chip, i) => images[i]?.bytes.length !== 2 ** chip.address.length);
  if (small >= 0)
    return failed(
      'image/wrong-size',
      `memory ${small + 1}`,
      `Memory ${small + 1} has ${grouped(images[small]?.bytes.length ?? 0)} bytes, and its ${map.chips[small]?.address.length} address pins reach ${grouped(2 ** (map.chips[small]?.address.length ?? 0))}. Choose the image that belongs to it.`,
    );
  const words = new Uint16Array(2 ** inputs.length);
  for (const [i, chip] of map.chips.entries()) {
    const addresses = addressesOf(chip, words.length);
    const bytes = images[i]?.bytes ?? new Uint8Array(0);
    const word = Uint16Array.from({ length: 256 }, (_, byte) =>
      chip.data.reduce<number>((w, output, pin) => (output !== 'unused' && (byte >> pin) & 1 ? w | (1 << output) : w), 0),
    );
    for (let row = 0; row < words.length; row++)
      words[row] = (words[row] as number) | (word[bytes[addresses[row] as number] ?? 0] as number);
  }
  return tableOfWords(
    inputs,
    outputs,
    words.map((w) => w ^ map.activeLow),
  );
}

/** The address that a memory sees in a row. */
export function addressOf(chip: ChipPins, row: number): number {
  let address = 0;
  for (let pin = 0; pin < chip.address.length; pin++) {
    const on = chip.address[pin];
    if (on === 'high' || (typeof on === 'number' && (row >>> on) & 1)) address += 2 ** pin;
  }
  return address;
}

/** The row in which a memory sees this address; undefined: a tied pin keeps it out of reach. */
export function rowOf(chip: ChipPins, address: number): number | undefined {
  let row = 0;
  for (const [pin, on] of chip.address.entries()) {
    const high = Math.floor(address / 2 ** pin) % 2 === 1;
    if (typeof on === 'number') row |= high ? 1 << on : 0;
    else if (high !== (on === 'high')) return undefined;
  }
  return row;
}

/** The same for all rows: each is the address of a row with one input less, and that input's pins. */
function addressesOf(chip: ChipPins, rows: number): Uint32Array {
  const addresses = new Uint32Array(rows);
  addresses[0] = addressOf(chip, 0);
  for (let first = 1; first < rows; first *= 2) {
    const pins = addressOf(chip, first) ^ addressOf(chip, 0);
    for (let row = first; row < Math.min(rows, 2 * first); row++) addresses[row] = (addresses[row - first] as number) | pins;
  }
  return addresses;
}

/** Addresses to OR to a row's own, one for each copy of the table. */
function placesOf(chip: ChipPins, elsewhere: PinMap['elsewhere']): number[] {
  let places = [0];
  // a pin tied high has its bit in the row's own address already; its copies would overlap
  if (elsewhere === 'repeat')
    for (const [pin, on] of chip.address.entries()) if (on === 'low') places = places.flatMap((p) => [p, p + 2 ** pin]);
  return places;
}

/** Why this map cannot carry the table: an input or output that is nowhere, or one that does not exist. */
function misfit(inputs: readonly string[], outputs: readonly string[], map: PinMap): Outcome<never> | undefined {
  if (map.chips.length === 0) return failed('table/no-memory', 'memories', 'No memory is selected. Select at least one.');
  for (const [i, chip] of map.chips.entries()) {
    const place = `memory ${i + 1}`;
    const used = chip.data.some((d) => d !== 'unused');
    const missing = inputs.findIndex((_, input) => !chip.address.includes(input));
    if (used && missing >= 0)
      return failed(
        'table/input-not-wired',
        place,
        `Input ${inputs[missing]} is on no address pin of memory ${i + 1}. Assign it to one of ${chip.address.length}, or remove the input from the table.`,
      );
    const strange = [...chip.address, ...chip.data].find((n) => typeof n === 'number' && n < 0);
    const stranger =
      chip.address.find((n) => typeof n === 'number' && n >= inputs.length) ??
      chip.data.find((n) => typeof n === 'number' && n >= outputs.length) ??
      strange;
    if (stranger !== undefined)
      return failed(
        'table/unknown-column',
        place,
        `A pin of memory ${i + 1} is given to column ${stranger}, which the table does not have. Choose one of its names.`,
      );
  }
  const lost = outputs.findIndex((_, output) => !map.chips.some((chip) => chip.data.includes(output)));
  return lost < 0
    ? undefined
    : failed(
        'table/output-not-wired',
        outputs[lost] ?? '',
        `Output ${outputs[lost]} is on no data pin. Assign it to one, or add a memory.`,
      );
}
