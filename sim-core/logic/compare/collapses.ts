/** What loses levels of a bus, found in what is seen alone: stuck lines, shorted pins, a half of the memory in which all words are the same. */
import { bitCount } from '../../units/bit-count.ts';
import { type Compared, MOST_WRONG } from './compared.ts';
import { addressMap, type Disorder, heldLines, type StuckLine, type Words } from './disorder.ts';

/** Stuck address pins beyond so many are not all taken in every combination. */
const MOST_STUCK = 4;

/** Every one that what is seen would bear, single bits aside. */
export const collapsesOf = (c: Compared): readonly Disorder[] => [...stuckData(c), ...shortedData(c), ...addressCollapses(c), ...halves(c)];

/** Of the address pins alone. */
export const addressCollapses = (c: Compared): readonly Disorder[] => [...stuckAddress(c), ...shortedAddress(c)];

/** What is seen without the bits that the disorder, as the last one, makes what they are. */
export function besides(c: Compared, d: Disorder): Compared {
  const { seen } = c;
  const care = seen.care.slice();
  if (d.is === 'half') for (const x of care.keys()) care[x] = ((x >> d.pin) & 1) === Number(d.high) ? 0 : (care[x] as number);
  else if (d.on === 'address') for (const [x, from] of addressMap(d, care.length).entries()) care[x] = x === from ? (care[x] as number) : 0;
  else {
    const lost = d.is === 'stuck' ? heldLines(d.lines)[0] : d.is === 'shorted' ? (1 << d.pins[0]) | (1 << d.pins[1]) : 0;
    for (const x of care.keys()) care[x] = (care[x] as number) & ~lost;
  }
  return { ...c, seen: { words: seen.words, care } };
}

const range = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
const pairsOf = (pins: readonly number[]): (readonly [number, number])[] =>
  pins.flatMap((a, i) => pins.slice(i + 1).map((b) => [a, b] as const));

/** Words that count in both images, where they are asked for. */
function* told({ wanted, seen }: Compared): Generator<readonly [word: number, known: number]> {
  for (let x = 0; x < seen.words.length; x++) {
    const known = (seen.care[x] as number) & ((wanted.care[x] as number) === 0 ? 0 : 0xffff);
    if (known !== 0) yield [seen.words[x] as number, known];
  }
}

/** Data pins with but one level: one by one, all that stick to it more than to the table, and all that never leave it. */
function stuckData(c: Compared): readonly Disorder[] {
  const { data } = c.pins;
  const counts = range(data).map(() => ({ high: 0, all: 0, apart: 0 }));
  for (let x = 0; x < c.seen.words.length; x++) {
    const [word, known, care] = [c.seen.words[x] as number, c.seen.care[x] as number, c.wanted.care[x] as number];
    if (care === 0) continue;
    for (const [pin, n] of counts.entries()) {
      if (!((known >> pin) & 1)) continue;
      n.all += 1;
      n.high += (word >> pin) & 1;
      n.apart += (((word ^ (c.wanted.words[x] as number)) & care) >> pin) & 1;
    }
  }
  const lines = counts.flatMap(({ high, all, apart }, pin) => {
    const rare = Math.min(high, all - high);
    return rare <= MOST_WRONG && all > 3 * rare ? [{ line: { pin, high: 2 * high > all }, rare, apart }] : [];
  });
  const sets = [lines.filter((l) => l.rare < l.apart), lines.filter((l) => l.rare === 0)].filter((s) => s.length > 1);
  return [...lines.map((l) => [l]), ...sets].map((set) => ({ is: 'stuck', on: 'data', lines: set.map((l) => l.line) }));
}

function shortedData(c: Compared): readonly Disorder[] {
  const apart = new Map(pairsOf(range(c.pins.data)).map((pair) => [pair, 0]));
  for (const [word, known] of told(c))
    for (const [pair, n] of apart) {
      const [a, b] = pair;
      if ((known >> a) & (known >> b) & ((word >> a) ^ (word >> b)) & 1) {
        if (n === MOST_WRONG) apart.delete(pair);
        else apart.set(pair, n + 1);
      }
    }
  return [...apart.keys()].flatMap((pins) => (['and', 'or'] as const).map((as): Disorder => ({ is: 'shorted', on: 'data', pins, as })));
}

/** Address pins that make no difference, in every combination of a few of them. */
function stuckAddress(c: Compared): readonly Disorder[] {
  const idle = c.active.filter((pin) => isBlindTo(c.seen, { is: 'stuck', on: 'address', lines: [{ pin, high: false }] }));
  let sets: StuckLine[][] = [[]];
  for (const pin of idle.slice(0, MOST_STUCK)) sets = sets.flatMap((s) => [s, [...s, { pin, high: false }], [...s, { pin, high: true }]]);
  return sets.filter((s) => s.length > 0).map((lines) => ({ is: 'stuck', on: 'address', lines }));
}

const shortedAddress = (c: Compared): readonly Disorder[] =>
  pairsOf(c.active)
    .flatMap((pins) => (['and', 'or'] as const).map((as) => ({ is: 'shorted', on: 'address', pins, as }) as const))
    .filter((d) => isBlindTo(c.seen, d));

/** Is the same seen at addresses that become the same? A wrong bit shows wherever its address is taken for another. */
function isBlindTo({ words, care }: Words, d: Parameters<typeof addressMap>[0]): boolean {
  let wrong = 0;
  for (const [x, from] of addressMap(d, words.length).entries()) {
    wrong += bitCount(((words[x] as number) ^ (words[from] as number)) & (care[x] as number) & (care[from] as number));
    if (wrong > 3 * MOST_WRONG) return false;
  }
  return true;
}

/** Halves of the table, by one address pin, in which all words are alike. */
function halves(c: Compared): readonly Disorder[] {
  const { wanted, seen, pins } = c;
  return c.active.flatMap((pin) =>
    [false, true].flatMap((high): Disorder[] => {
      const [ones, all] = [new Uint32Array(pins.data), new Uint32Array(pins.data)];
      for (let x = 0; x < seen.words.length; x++) {
        if (((x >> pin) & 1) !== Number(high)) continue;
        const known = (wanted.care[x] as number) & (seen.care[x] as number);
        for (let k = 0; k < pins.data; k++) {
          all[k] = (all[k] as number) + ((known >> k) & 1);
          ones[k] = (ones[k] as number) + ((((seen.words[x] as number) & known) >> k) & 1);
        }
      }
      const rare = ones.reduce((sum, n, k) => sum + Math.min(n, (all[k] as number) - n), 0);
      const word = ones.reduce((sum, n, k) => (2 * n > (all[k] as number) ? sum | (1 << k) : sum), 0);
      return rare <= MOST_WRONG ? [{ is: 'half', on: 'address', pin, high, word }] : [];
    }),
  );
}
