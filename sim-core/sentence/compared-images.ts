/** How what is seen differs from what is wanted, in words: "D0 to D6 reversed", "A2 and A3 swapped", "all bits inverted", "row 2: 7B, should be 73 (D3)". */

import { grouped } from '../../shared/grouped.ts';
import type { Comparison, FittingExplanation, WrongWord } from '../logic/compare/compare.ts';
import { type Bus, type Disorder, type Pins, reversedRun, rotation, type StuckLine } from '../logic/compare/disorder.ts';
import { type ChipPins, rowOf } from '../logic/pin-map.ts';
import { hexAddress, hexByte } from '../units/hex.ts';
import { capitalised, enumeration } from '../units/text-list.ts';

/** Rows named one by one, and explanations said; more are counted. */
const NAMED = 6;
const EXPLAINED = 4;
/** Pins that are moved in a cycle are named one by one up to so many. */
const SHORT_CYCLE = 3;

/** What rows, pins and bytes are called. */
export interface ComparedNames {
  row(address: number): string;
  pin(on: Bus, pin: number): string;
  /** what a data pin switches: "D3 vent" */
  output(pin: number): string;
  word(word: number): string;
  readonly everyWord: string;
  readonly all: Readonly<Record<Bus, string>>;
  /** of a data pin that never changes: low, high */
  readonly always: readonly [string, string];
}

/** Of a memory by itself. */
export const PIN_NAMES: ComparedNames = {
  row: (address) => `row ${address}`,
  pin: (on, pin) => `${on === 'data' ? 'D' : 'A'}${pin}`,
  output: (pin) => `D${pin}`,
  word: hexByte,
  everyWord: 'every byte',
  all: { address: 'all address pins', data: 'all bits' },
  always: ['always 0', 'always 1'],
};

/** Of a memory that holds a table: its rows, what its data pins switch, and addresses that are none of its rows. outputs: the table's columns. */
export const chipNames = (chip: ChipPins, outputs: readonly string[]): ComparedNames => ({
  ...PIN_NAMES,
  row(address) {
    const row = rowOf(chip, address);
    return row === undefined ? `address ${hexAddress(address, 2 ** chip.address.length)}` : `row ${row}`;
  },
  output(pin) {
    const on = chip.data[pin];
    const name = typeof on === 'number' ? outputs[on] : undefined;
    return name === undefined ? `D${pin}` : `D${pin} ${name}`;
  },
});

/** Of LEDs that go through a table. */
export const tableNames = (inputs: readonly string[], outputs: readonly string[]): ComparedNames => ({
  row: (row) => `row ${row}`,
  pin: (on, pin) => (on === 'data' ? outputs : inputs)[pin] ?? '',
  output: (pin) => outputs[pin] ?? '',
  word: (word) => word.toString(2).padStart(outputs.length, '0'),
  everyWord: 'every row of the table',
  all: { address: 'all inputs', data: 'all outputs' },
  always: ['always dark', 'always lit'],
});

/** Sentences, the most important first. */
export function sayComparison(c: Comparison, names: ComparedNames = PIN_NAMES): string[] {
  const { rows, missing, differs } = c;
  const all = `${grouped(rows)} ${rows === 1 ? 'row' : 'rows'}`;
  if (missing === 0) {
    if (differs.length === 0) return [`Both images are the same in all ${all}, don’t-care bits aside.`];
    return saidOf(c, `${grouped(differs.length)} of ${all} ${differs.length === 1 ? 'differs' : 'differ'}`, names);
  }
  const lost = `${missing === 1 ? 'One row that is' : `${grouped(missing)} rows that are`} wanted ${missing === 1 ? 'is' : 'are'} not in the file`;
  if (differs.length === 0) return [`${lost}; the others are as wanted.`];
  return [`${lost}.`, ...saidOf(c, `Of the others ${differs.length === 1 ? 'one differs' : `${grouped(differs.length)} differ`}`, names)];
}

function saidOf(c: Comparison, differing: string, names: ComparedNames): string[] {
  if (c.everywhere !== undefined)
    return [`Every byte is ${names.word(c.everywhere)}${c.everywhere === 0xff ? ', as in an erased memory' : ''}. ${differing}.`];
  const explained = sayExplained(c, names);
  return explained.length > 0 ? explained : [`${differing}. ${sayWords(c.differs, names)}.`];
}

/** What may have happened, alone or as one of several; nothing where it is simpler to name the rows. */
export function sayExplained(c: Comparison, names: ComparedNames = PIN_NAMES): string[] {
  const { fits, differs, rows, only, alikePins, pins } = c;
  const [one] = fits;
  // a single row that differs is named, whatever would explain it
  if (!one || differs.length < 2) return [];
  const count = grouped(differs.length);
  if (fits.length > 1) {
    const said = fits.slice(0, EXPLAINED).map((e) => sayFit(e, pins, names));
    const more = fits.length - said.length;
    return [
      `Several explanations fit the ${count} of ${grouped(rows)} rows that ${differs.length === 1 ? 'differs' : 'differ'}: ${said.join('; or ')}${more > 0 ? `; and ${grouped(more)} more` : ''}.`,
    ];
  }
  const changed = capitalised(sayDisorders(one.disorders, pins, names));
  const { leaves } = one;
  if (leaves.length > 0)
    return [
      `${changed}: that explains the ${count} of ${grouped(rows)} rows that differ, except ${leaves.length === 1 ? 'one' : grouped(leaves.length)}. ${sayWords(leaves, names)}.`,
    ];
  return [
    `${changed}: that explains all ${count} of ${grouped(rows)} rows that ${differs.length === 1 ? 'differs' : 'differ'}.`,
    ...(one.disorders.some((d) => d.is === 'stuck') ? ['Check for a wire or a pin with no contact.'] : []),
    ...(only ? ['Nothing else explains them.'] : []),
    ...alikePins.map((group) => `${enumeration(group.map((p) => names.pin('address', p)))} can be swapped without any effect.`),
  ];
}

function sayFit({ disorders, leaves }: FittingExplanation, pins: Pins, names: ComparedNames): string {
  const rows = leaves.map(({ address }) => names.row(address));
  const bits = enumeration(rows.length > NAMED ? [`${grouped(rows.length)} rows`] : rows);
  if (disorders.length === 0) return `single bits in ${bits}`;
  return `${sayDisorders(disorders, pins, names)}${leaves.length > 0 ? `, except ${bits}` : ''}`;
}

/** Every change in one phrase; empty for no change. */
export const sayDisorders = (disorders: readonly Disorder[], pins: Pins, names: ComparedNames = PIN_NAMES): string =>
  disorders.map((d) => sayDisorder(d, pins, names)).join(', and ');

function sayDisorder(d: Disorder, pins: Pins, names: ComparedNames): string {
  const pin = (i: number) => names.pin(d.on, i);
  switch (d.is) {
    case 'permuted':
      return sayOrder(d.order, pin);
    case 'inverted':
      if (d.mask === 2 ** pins[d.on] - 1) return `${names.all[d.on]} inverted`;
      return `${enumeration(bitsOf(d.mask).map(pin))} inverted`;
    case 'stuck':
      return sayStuck(d, pin, names);
    case 'shorted':
      return `${enumeration(d.pins.map(pin))} shorted, ${d.as === 'and' ? 'low' : 'high'} wins`;
    case 'shifted':
      return `${names.everyWord} ${Math.abs(d.by) === 1 ? 'one row' : `${grouped(Math.abs(d.by))} rows`} too ${d.by > 0 ? 'high' : 'low'}`;
    case 'half':
      return `${names.everyWord} ${names.word(d.word)} where ${pin(d.pin)} is ${d.high ? 'high' : 'low'}`;
  }
}

/** "D0 always 0, and A3 as if always low". */
function sayStuck({ on, lines }: Extract<Disorder, { is: 'stuck' }>, pin: (i: number) => string, { always }: ComparedNames): string {
  const how = (high: boolean) => (on === 'data' ? always[high ? 1 : 0] : `as if always ${high ? 'high' : 'low'}`);
  const said = (of: readonly StuckLine[], high: boolean) =>
    of.length === 0 ? [] : [`${enumeration(of.map((l) => pin(l.pin)))} ${how(high)}`];
  return [false, true]
    .flatMap((high) =>
      said(
        lines.filter((l) => l.high === high),
        high,
      ),
    )
    .join(', and ');
}

/** "D0 to D6 reversed": order[i] is the pin that what belongs to pin i is on. */
export function sayOrder(order: readonly number[], pin: (i: number) => string): string {
  const run = reversedRun(order);
  if (run) return run[1] - run[0] === 1 ? `${pin(run[0])} and ${pin(run[1])} swapped` : `${pin(run[0])} to ${pin(run[1])} reversed`;
  const turned = rotation(order);
  if (turned && turned[1] - turned[0] >= SHORT_CYCLE) {
    const [from, to, by] = turned;
    const up = 2 * by <= to - from + 1;
    const places = up ? by : to - from + 1 - by;
    return `${pin(from)} to ${pin(to)} rotated ${up ? 'up' : 'down'} by ${places === 1 ? 'one pin' : `${places} pins`}`;
  }
  const seen = new Set<number>();
  const cycles: string[] = [];
  for (const start of order.keys()) {
    if (seen.has(start) || order[start] === start) continue;
    const cycle: number[] = [];
    for (let i = start; !seen.has(i); i = order[i] ?? start) {
      seen.add(i);
      cycle.push(i);
    }
    const called = cycle.map(pin);
    cycles.push(
      cycle.length === 2
        ? `${called[0]} and ${called[1]} swapped`
        : called.map((n, i) => `${n} on ${called[(i + 1) % called.length]}`).join(', '),
    );
  }
  return cycles.join(', ');
}

/** "Row 2: 7B, should be 73 (D3)" */
function sayWords(wrong: readonly WrongWord[], names: ComparedNames): string {
  const said = wrong.slice(0, NAMED).map(({ address, bits, is, should }) => {
    const pins = enumeration(bitsOf(bits).map((b) => names.output(b)));
    return `${names.row(address)}: ${names.word(is)}, should be ${names.word(should)} (${pins})`;
  });
  return capitalised(said.join('; ')) + (wrong.length > NAMED ? `; and ${grouped(wrong.length - NAMED)} more rows` : '');
}

const bitsOf = (mask: number): number[] => Array.from({ length: 16 }, (_, b) => b).filter((b) => (mask >> b) & 1);
