/** Texts that no person writes and that once filled a stack, or kept a reader busy for longer than a person waits: by reader. */
import type { Plan } from '../../shared/plan.ts';
import { planWith } from './plans.ts';

/** What it is, and the text. */
export type HostileText = readonly [what: string, text: string];

const MANY = 100_000;
const many = <T>(count: number, make: (i: number) => T): T[] => Array.from({ length: count }, (_, i) => make(i));
const lists = `${'['.repeat(MANY)}${']'.repeat(MANY)}`;
const objects = `${'{"a":'.repeat(MANY)}1${'}'.repeat(MANY)}`;
const resistors = many(MANY, (i) => ({ id: `R${i}`, kind: 'resistor', at: 'a1', to: 'a5', params: { ohms: 330 } }));
const byId = <T>(letter: string, value: T) => Object.fromEntries(many(MANY, (i) => [`${letter}${i}`, value]));

const document = (over: Readonly<Record<string, unknown>>): string => JSON.stringify(planWith(over as Partial<Plan>));
/** A document in which one entry holds this text as its value. */
const holding = (name: string, value: string, over: Readonly<Record<string, unknown>> = {}): string =>
  document({ ...over, [name]: '@' }).replace('"@"', value);

const ENTRIES = 'title boards parts wires memories cells wanted proof meters notes switches wiring other'.split(' ');

/** No document of these is a plan. */
export const HOSTILE_DOCUMENTS: readonly HostileText[] = [
  ['2.4 million escapes in a string that is not closed', `["${'\\n'.repeat(2_400_000)}`],
  ['2.4 million escapes in a list that is not closed', `["${'\\n'.repeat(2_400_000)}"`],
  ['800 000 escapes by number', `["${'\\u0041'.repeat(800_000)}`],
  ['4.8 million letters', `["${'a'.repeat(4_800_000)}`],
  ['4.8 million line ends', `[${'\n'.repeat(4_800_000)}`],
  ['4.8 million digits', `[${'1'.repeat(4_800_000)}`],
  ['2.4 million numbers', `[${'1,'.repeat(2_400_000)}`],
  ['4.8 million brackets', '['.repeat(4_800_000)],
  ['a million brackets, closed', `${'['.repeat(1_000_000)}${']'.repeat(1_000_000)}`],
  ['lists in lists as the format', `{"format":${lists}}`],
  ['objects in objects as the format', `{"format":${objects}}`],
  ['lists in lists as the version', `{"format":"lampwright-plan","version":${lists}}`],
  ['objects in objects as the version', `{"format":"lampwright-plan","version":${objects}}`],
  ['a long format', `{"format":"${'x'.repeat(1_000_000)}"}`],
  ['a long version', `{"format":"lampwright-plan","version":"${'x'.repeat(1_000_000)}"}`],
  ...ENTRIES.map((name): HostileText => [`lists in lists as ${name}`, holding(name, lists)]),
  ...ENTRIES.map((name): HostileText => [`objects in objects as ${name} of a plan of version 1`, holding(name, objects, { version: 1 })]),
  ['100 000 parts', document({ parts: resistors })],
  ['100 000 parts of version 1', document({ version: 1, parts: resistors.map((r, i) => ({ ...r, id: `D${i}`, kind: 'led' })) })],
  ['100 000 parts without anything', document({ parts: many(MANY, () => ({})) })],
  ['100 000 wires', document({ wires: many(MANY, (i) => ({ id: `W${i}`, from: 'a1', to: 'a2', colour: 'red' })) })],
  ['100 000 meters', document({ meters: many(MANY, (i) => ({ id: `M${i}`, measures: 'volts', at: 'a1' })) })],
  ['100 000 notes', document({ notes: many(MANY, () => 'x') })],
  ['100 000 switches', document({ switches: byId('S', [true]) })],
  ['100 000 memories', document({ memories: byId('U', { '0': 'FF' }) })],
  [
    '200 000 pieces of one memory',
    document({ memories: { U1: Object.fromEntries(many(2 * MANY, (i) => [i.toString(16).toUpperCase(), 'FF'])) } }),
  ],
  ['a million rows', document({ wanted: { inputs: [], outputs: [], rules: [], rows: many(1_000_000, () => 1) } })],
  ['100 000 entries that plans do not have', document(byId('k', 1))],
  ['an entry with a long name', document({ ['k'.repeat(1_000_000)]: 1 })],
  ['a long id', document({ parts: [{ id: 'R'.repeat(1_000_000), kind: 'resistor' }] })],
];

const lines = (line: (i: number) => string): string => many(MANY, line).join('\n');
const notation = (text: string): string => `lampwright-text 2\n${text}`;
const ofVersion1 = (text: string): string => `bench-text 1\n${text}`;

/** None of these is a bench in the text notation. */
export const HOSTILE_BENCH_TEXTS: readonly HostileText[] = [
  ['100 000 lines of a kind that is not', notation('bogus\n'.repeat(MANY))],
  ['a long word', notation('b'.repeat(1_000_000))],
  ['a million zeros', '\0'.repeat(1_000_000)],
  ['a million halves of signs', '\ud800'.repeat(1_000_000)],
  ['a long value', notation(`resistor R1 "${'b'.repeat(1_000_000)}" from a1 to a5`)],
  ['2.4 million escapes in quotes that are not closed', notation(`resistor R1 "${'\\n'.repeat(2_400_000)}`)],
  ['2.4 million escapes in quotes', notation(`resistor R1 "${'\\n'.repeat(2_400_000)}" from a1 to a5`)],
  ['2 million pieces with commas', notation(`resistor R1 ${'a,'.repeat(2_000_000)}`)],
  ['2 million commas', notation(`resistor R1 a${','.repeat(2_000_000)}`)],
  ['a million words', notation(`dip-switch S1 at e2 with ${'x '.repeat(1_000_000)}`)],
  ['a million prepositions', notation(`resistor R1 ${'at '.repeat(1_000_000)}`)],
  ['a spot of a million digits', notation(`board-63 B1 at @${'1'.repeat(1_000_000)},${'1'.repeat(1_000_000)}x`)],
  ['a title of 4 million spaces', notation(`title a${' '.repeat(4_000_000)}x`)],
  ['a million comments', notation(`note ${' #'.repeat(1_000_000)}`)],
  ['100 000 parts', notation(lines((i) => `resistor R${i} 330 from a1 to a5`))],
  ['100 000 boards', notation(lines((i) => `board-63 B${i} at @0,0`))],
  ['100 000 wires', notation(lines((i) => `wire W${i} red from a1 to a5`))],
  ['100 000 notes', notation(lines(() => 'note hi'))],
  ['100 000 switches', notation(lines((i) => `switch S${i} set 1`))],
  ['100 000 bytes of one piece', notation(lines((i) => `memory U1 ${i.toString(16)} FF,`))],
  ['100 000 rows', notation(lines((i) => `wanted rows ${i} 1`))],
  ['a million words of version 1', ofVersion1(`R1 resistor ${'a=b '.repeat(1_000_000)}`)],
  ['a million quotation marks of version 1', ofVersion1(`R1 resistor ${'"'.repeat(1_000_000)}`)],
  ['2.4 million escapes of version 1', ofVersion1(`R1 resistor "${'\\n'.repeat(2_400_000)}`)],
  ['100 000 parts of version 1', ofVersion1('R1 bogus a1 x=1\n'.repeat(MANY))],
];

/** Files from elsewhere: tables, cells, images. Some can be read, most cannot. */
export const HOSTILE_FILES: readonly HostileText[] = [
  ['2 million quotation marks', '"'.repeat(2_000_000)],
  ['an odd number of quotation marks', '"'.repeat(2_000_001)],
  ['2 million commas', ','.repeat(2_000_000)],
  ['2 million spaces', ' '.repeat(2_000_000)],
  ['2 million spaces in a cell', `x${' '.repeat(2_000_000)}x`],
  ['2 million line ends', '\n'.repeat(2_000_000)],
  ['a long cell', 'x'.repeat(2_000_000)],
  ['a long number', '1'.repeat(2_000_000)],
  ['a long address', `0${'z'.repeat(2_000_000)}`],
  ['a long byte', `0,${'z'.repeat(2_000_000)}`],
  ['a long level', `a,,b\n${'z'.repeat(1_000_000)},,1\n1,,0`],
  ['a long name', `${'a'.repeat(1_000_000)},,b\n0,,1\n1,,0`],
  ['500 000 lines of two cells', '0,1\n'.repeat(500_000)],
  ['500 000 rows of a table of two', `a,,b\n${'0,,1\n'.repeat(500_000)}`],
  ['a group of a million lines', 'A1000000..A0,,F\n0,,1'],
  ['groups that stand for 2^512 rows', `${many(16, (i) => `A${i}_31..A${i}_0`).join()},,F\n${'X,'.repeat(16)},1`],
  ['inputs that stand for 2^32 rows', `${many(32, (i) => `A${i}`).join()},,F\n${'X,'.repeat(32)},1`],
  ['a group of a long number', `a${'1'.repeat(200_000)}..${'1'.repeat(100)}\n`.repeat(2)],
  ['a long record', `:${'0'.repeat(2_000_000)}`],
  ['a long record of no digits', `:${'z'.repeat(2_000_000)}`],
  ['a long S-record', `S1${'0'.repeat(2_000_000)}`],
  ['a long S-record of no digits', `S1${'z'.repeat(2_000_000)}`],
  ['a million marks of byte order', '\ufeff'.repeat(1_000_000)],
];

/** Rules of a table with the inputs A and B and the output F. */
export const HOSTILE_RULES: readonly HostileText[] = [
  ['a long name', `F = ${'a'.repeat(100_000)}`],
  ['a long name in quotes', `"${'a'.repeat(100_000)}" = A`],
  ['a long number', `F = ${'1'.repeat(100_000)}`],
  ['100 000 signs that mean nothing', '§'.repeat(100_000)],
  ['40 000 names', `F =${' A'.repeat(40_000)}`],
  ['a million terms', `F = A${' or A'.repeat(250_000)}`],
  ['100 000 brackets', `F = ${'('.repeat(100_000)}`],
  ['30 000 times not', `F = ${'not '.repeat(30_000)}A`],
  ['100 000 apostrophes', `F = A${"'".repeat(100_000)}`],
  ['20 000 lines', 'F = A\n'.repeat(20_000)],
  ['20 000 targets', `${many(20_000, (i) => `n${i}`).join()} = A`],
  ['10 000 names of its own', many(10_000, (i) => `n${i} = A`).join('\n')],
  ['a range of 100 million names', 'F = A0..A99999999'],
];
