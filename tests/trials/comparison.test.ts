/** What was done to an image, named again from its bytes: 27 kinds of disorder on tables drawn by chance and on tables with a structure. */
import { expect, test } from 'vitest';
import { HEX_DIGITS } from '../../sim-core/logic/codes.ts';
import { compareWords } from '../../sim-core/logic/compare/compare.ts';
import { type Disorder, seenThrough } from '../../sim-core/logic/compare/disorder.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { type ChipSize, type Contents, DISORDER_KINDS, type Draw, range, type Spoil } from '../support/disorders.ts';

const FULL = process.env.TRIALS === 'full';
const first = Number(process.env.FROM ?? 1);
const count = Number(process.env.COUNT ?? (FULL ? 12 : 1));
/** KIND='data rotated,shifted': these alone */
const kinds = DISORDER_KINDS.filter(({ kind }) => process.env.KIND?.split(',').includes(kind) ?? true);

interface Wanted extends ChipSize {
  readonly name: string;
  readonly words: Contents;
  readonly care: Contents;
}

/** Tables with a structure: rows by the number of inputs. */
const STRUCTURES: readonly (readonly [
  name: string,
  inputs: (draw: Draw) => number,
  outputs: number,
  word: (row: number, inputs: number) => number,
])[] = [
  ['hexadecimal digits', () => 4, 7, (row) => HEX_DIGITS[row] ?? 0],
  ['digits in two rows', () => 5, 7, (row) => HEX_DIGITS[row >> 1] ?? 0],
  ['product', (draw) => 4 + 2 * draw(3), 8, (row, n) => ((row >> (n / 2)) * (row % 2 ** (n / 2))) & 255],
  ['bar', (draw) => 3 + draw(3), 8, (row) => 2 ** Math.min(8, row) - 1],
  ['Gray code', (draw) => 3 + draw(5), 6, (row) => (row ^ (row >> 1)) & 63],
  ['square', (draw) => 3 + draw(6), 8, (row) => (row * row) & 255],
];

function drawnTable(draw: Draw): Wanted {
  const structure = draw(2) === 1 ? STRUCTURES[draw(STRUCTURES.length)] : undefined;
  const inputs = structure ? structure[1](draw) : 2 + draw(10);
  const outputs = structure ? structure[2] : 1 + draw(8);
  const pins = inputs + (draw(3) === 0 ? draw(12 - inputs) : 0);
  const chip = 2 ** pins;
  const width = outputs + (draw(4) === 0 ? draw(9 - outputs) : 0);
  const mask = 2 ** outputs - 1;
  // don't-care bits, in every fourth table; rows that are not wanted at all, in every fourth
  const [loose, unasked] = [draw(4) === 0, draw(4) === 0];
  const rows = range(2 ** inputs);
  const table = rows.map((row) => (structure ? structure[3](row, inputs) & mask : draw(mask + 1)));
  const given = rows.map(() => (unasked && draw(5) === 0 ? 0 : loose ? mask & ~(draw(mask + 1) & draw(mask + 1)) : mask));
  // what nobody asked for is still erased
  const words = range(chip).map((x) => ((table[x] ?? mask) | ~(given[x] ?? 0)) & (2 ** width - 1));
  return {
    name: `${structure?.[0] ?? 'drawn'} ${inputs}×${outputs} in A0 to A${pins - 1}${loose ? ", don't-cares" : ''}${unasked ? ', rows unasked' : ''}`,
    pins,
    inputs,
    outputs,
    width,
    words,
    care: range(chip).map((x) => given[x] ?? 0),
  };
}

interface Case {
  readonly kind: string;
  readonly about: string;
  readonly result: 'named' | 'several' | 'not named' | 'FALSE';
  /** several were said, and what was done is not among them */
  readonly without: boolean;
  readonly time: number;
}

/** Draws until what was done shows. */
function asked(k: number, seed: number): Case {
  const random = makeRandom(1000 * seed + k);
  const draw: Draw = (n) => Math.floor(random() * n);
  const { kind, make, hides } = DISORDER_KINDS[k]!;
  for (;;) {
    const wanted = drawnTable(draw);
    const spoil = make(wanted, draw);
    if (!spoil) continue;
    const seen = spoil(wanted.words);
    // single bits wrong besides, and bytes that the read-out does not give
    const bits = kind === 'single bits' ? 1 + draw(3) : draw(2) * draw(4);
    const known = seen.map(() => (1 << wanted.width) - 1);
    if (draw(4) === 0) for (const x of known.keys()) if (draw(20) === 0) known[x] = 0;
    const told = range(seen.length).filter((x) => known[x]! & wanted.care[x]!);
    for (let n = 0; n < bits && told.length > 0; n++) {
      const x = told[draw(told.length)]!;
      seen[x] = seen[x]! ^ (1 << draw(wanted.outputs));
    }
    const apart = seen.reduce((n, w, x) => n + Number(((w ^ wanted.words[x]!) & wanted.care[x]! & known[x]!) !== 0), 0);
    const same = (a: Contents, b: Contents) => a.every((w, x) => ((w ^ b[x]!) & wanted.care[x]! & known[x]!) === 0);
    if (hides?.(spoil, wanted.words, same)) continue;
    if (apart === 0 || (kind !== 'single bits' && same(spoil(wanted.words), wanted.words))) continue;
    const begun = process.cpuUsage();
    const of = compareWords(wordsOf(wanted.words, wanted.care), wordsOf(seen, known), wanted.width);
    const time = process.cpuUsage(begun).user / 1000;
    const about = `seed ${seed}, ${kind} on ${wanted.name}, ${bits} bits wrong, ${apart} of ${of.rows} rows differ`;
    const isSame = of.fits.map(({ disorders }) => sameEffect(disorders, spoil, wanted, draw));
    const sole = of.fits.length < 2;
    const isNamed = of.fits.length === 0 ? kind === 'single bits' || of.everywhere !== undefined : isSame[0];
    const result = isNamed && sole ? 'named' : !sole ? 'several' : of.fits.length === 0 ? 'not named' : 'FALSE';
    const says = of.fits
      .slice(0, 4)
      .map(({ disorders, leaves }) => `${JSON.stringify(disorders)} leaves ${leaves.length}`)
      .join(' OR ');
    return {
      kind,
      about: `${about}: ${says}${of.fits.length > 4 ? ` and ${of.fits.length - 4} more` : ''}`,
      result,
      without: !sole && !isSame.includes(true),
      time,
    };
  }
}

const wordsOf = (words: Contents, care: Contents) => ({ words: Uint16Array.from(words), care: Uint16Array.from(care) });

/** Does it do to other bytes what was done? Columns that are alike or have one level in the table are so in those too: nothing shows which is which. */
function sameEffect(disorders: readonly Disorder[], spoil: Spoil, { words, care, width }: Wanted, draw: Draw): boolean {
  const column = (j: number) => words.map((w, x) => ((care[x]! >> j) & 1 ? (w >> j) & 1 : '-')).join('');
  const columns = range(width).map(column);
  const twin = columns.map((c) => columns.indexOf(c));
  const level = columns.map((c) => (c.includes('0') ? (c.includes('1') ? undefined : 0) : 1));
  return range(3).every(() => {
    const other = words.map(() => {
      const drawn = draw(2 ** width);
      return range(width).reduce((w, j) => w + (level[j] ?? (drawn >> twin[j]!) & 1) * 2 ** j, 0);
    });
    const [is, should] = [seenThrough(disorders, wordsOf(other, care)), spoil(other)];
    return should.every((w, x) => ((w ^ is.words[x]!) & is.care[x]!) === 0);
  });
}

test('what was done to an image is named again, or several explanations are said to fit; never a false one', () => {
  const all = kinds.flatMap((kind) => range(count).map((i) => asked(DISORDER_KINDS.indexOf(kind), first + i)));
  if (FULL || process.env.LIST) {
    const line = (name: string, of: readonly Case[]) => {
      const n = (result: Case['result']) => of.filter((c) => c.result === result).length;
      const times = of.map((c) => c.time).sort((a, b) => a - b);
      const figures = [
        of.length,
        n('named'),
        n('several'),
        of.filter((c) => c.without).length,
        n('not named'),
        n('FALSE'),
        Math.round(times[times.length >> 1] ?? 0),
        Math.round(times.at(-1) ?? 0),
      ];
      return `| ${name.padEnd(30)} | ${figures.map((f) => String(f).padStart(8)).join(' | ')} |`;
    };
    console.log(
      `\nseeds ${first} to ${first + count - 1}\n| kind                           |        n |    named |  several | w/o true | notnamed |    false |  median ms |  most ms |`,
    );
    for (const { kind } of kinds)
      console.log(
        line(
          kind,
          all.filter((c) => c.kind === kind),
        ),
      );
    console.log(line('all', all));
    if (process.env.LIST)
      for (const c of all) console.log(`${c.result}${c.without ? ' without it' : ''}, ${Math.round(c.time)} ms: ${c.about}`);
  }
  expect(all.filter((c) => c.result === 'FALSE' || c.result === 'not named').map((c) => c.about)).toEqual([]);
});
