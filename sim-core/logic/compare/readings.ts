/** What moves words or levels without losing any: exchanged and inverted pins and shifted addresses, one of them or two together. */
import { bitCount } from '../../units/bit-count.ts';
import { addressOrders } from './address-orders.ts';
import { ColumnPairs, dataReadings } from './column-pairs.ts';
import { type Compared, MOST_WRONG } from './compared.ts';
import type { Disorder } from './disorder.ts';

/** With more address pins than so many not every pair of two changes of the address is tried. */
const MANY_PINS = 11;
/** Of an order of pins behind a shift so much of the tree is looked at. */
const BRIEFLY = 2_000;
/** Rows that a change of all addresses is tried at first. */
const FIRST = 24;

/** What may have been done to the image: one change, or two. Not all of them fit all rows. */
export type Guess = readonly Disorder[];

/** A change of all addresses and what it takes each wanted one to. */
interface Move {
  readonly disorders: Guess;
  to(address: number): number;
}

/** Single changes. */
export function* oneChange(c: Compared): Generator<Guess> {
  for (const { order } of addressOrders(c, false).orders) yield permuted(order);
  const rows = rowsOf(c);
  for (const move of moves(c)) if (wrongUnder(c, rows, move) <= MOST_WRONG) yield move.disorders;
  for (const reading of straightReadings(c)) if (reading.length < 2) yield reading;
}

/** Two changes. */
export function* twoChanges(c: Compared): Generator<Guess> {
  for (const reading of straightReadings(c)) if (reading.length === 2) yield reading;
  yield* withData(c);
  for (const mask of masks(c))
    for (const { order } of addressOrders(c, false, { inverted: mask }, BRIEFLY).orders)
      yield [...permuted(order), { is: 'inverted', on: 'address', mask }];
  yield* shiftedAndMore(c);
}

/** An address change with a change of the data pins. */
function* withData(c: Compared): Generator<Guess> {
  const rows = rowsOf(c);
  for (const { order, pairs } of addressOrders(c, true).orders)
    for (const reading of pairs ? dataReadings(pairs, MOST_WRONG) : []) if (reading.length === 1) yield [...permuted(order), ...reading];
  const some = rows.slice(0, FIRST);
  for (const { disorders, to } of moves(c)) {
    const tried = new ColumnPairs(c.pins.data);
    tried.add(c.wanted, c.seen, some, some.map(to), 0, some.length);
    if (tried.least() > MOST_WRONG) continue;
    const pairs = new ColumnPairs(c.pins.data);
    pairs.add(c.wanted, c.seen, rows, rows.map(to), 0, rows.length);
    for (const reading of dataReadings(pairs, MOST_WRONG)) if (reading.length === 1) yield [...disorders, ...reading];
  }
}

/** Two changes of the address, one of them a shift, in both orders. */
function* shiftedAndMore(c: Compared): Generator<Guess> {
  const rows = rowsOf(c);
  const size = c.wanted.words.length;
  const many = c.pins.address > MANY_PINS;
  const isWhole = c.active.length === c.pins.address;
  for (const { by, disorders: shift, to: shifted } of shifts(size, many)) {
    for (const { order } of addressOrders(c, false, { after: by }, BRIEFLY).orders) yield [...permuted(order), ...shift];
    if (isWhole) for (const { order } of addressOrders(c, false, { before: by }, BRIEFLY).orders) yield [...shift, ...permuted(order)];
    for (const mask of fewMasks(c)) {
      const invert: Guess = [{ is: 'inverted', on: 'address', mask }];
      if (wrongUnder(c, rows, { to: (a) => shifted(a ^ mask) }) <= MOST_WRONG) yield [...invert, ...shift];
      if (wrongUnder(c, rows, { to: (a) => shifted(a) ^ mask }) <= MOST_WRONG) yield [...shift, ...invert];
    }
  }
}

const permuted = (order: readonly number[]): Guess => (order.every((to, i) => to === i) ? [] : [{ is: 'permuted', on: 'address', order }]);

function straightReadings(c: Compared): readonly Guess[] {
  const pairs = new ColumnPairs(c.pins.data);
  const rows = rowsOf(c);
  pairs.add(c.wanted, c.seen, rows, rows, 0, rows.length);
  return dataReadings(pairs, MOST_WRONG);
}

/** Addresses that are wanted, those that differ first: most changes fail there. */
function rowsOf({ wanted, seen }: Compared): Uint32Array {
  const asked = [...wanted.care.keys()].filter((a) => wanted.care[a] !== 0);
  const differs = (a: number) =>
    (((wanted.words[a] as number) ^ (seen.words[a] as number)) & (wanted.care[a] as number) & (seen.care[a] as number)) !== 0;
  return Uint32Array.from([...asked.filter(differs), ...asked.filter((a) => !differs(a))]);
}

function wrongUnder({ wanted, seen }: Compared, rows: Uint32Array, { to }: Pick<Move, 'to'>): number {
  let wrong = 0;
  for (let i = 0; i < rows.length && wrong <= MOST_WRONG; i++) {
    const a = rows[i] as number;
    const x = to(a);
    wrong += bitCount(((wanted.words[a] as number) ^ (seen.words[x] as number)) & (wanted.care[a] as number) & (seen.care[x] as number));
  }
  return wrong;
}

/** Every set of inverted address pins and every shift. */
function* moves(c: Compared): Generator<Move> {
  for (let mask = 1; mask < c.wanted.words.length; mask++)
    yield { disorders: [{ is: 'inverted', on: 'address', mask }], to: (a) => a ^ mask };
  yield* shifts(c.wanted.words.length, false);
}

/** By every number of rows, the shorter way round; of many only those next to it. */
export function* shifts(size: number, few: boolean): Generator<Move & { readonly by: number }> {
  for (let by = 1; by < size; by++) {
    if (few && by > 2 && by < size - 2) continue;
    yield { by, disorders: [{ is: 'shifted', on: 'address', by: 2 * by > size ? by - size : by }], to: (a) => (a + by) & (size - 1) };
  }
}

const masks = (c: Compared): readonly number[] =>
  c.pins.address > MANY_PINS ? fewMasks(c) : Array.from({ length: 2 ** c.pins.address - 1 }, (_, i) => i + 1);

/** One address pin, or all. */
const fewMasks = ({ pins: { address } }: Compared): readonly number[] => [
  ...new Set([...Array.from({ length: address }, (_, pin) => 2 ** pin), 2 ** address - 1]),
];
