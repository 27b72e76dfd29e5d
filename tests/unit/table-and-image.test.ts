/** From a table to images and back through any pin map; tables in and out of spreadsheets. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Outcome } from '../../shared/outcome.ts';
import { readTableText, writeTableText } from '../../sim-core/formats/table-text.ts';
import { addressOf, imagesOf, type PinMap, tableOfImages } from '../../sim-core/logic/pin-map.ts';
import { tableOfRules } from '../../sim-core/logic/rules-table.ts';
import { rowsOf, type TruthTable, tableOfWords, wrongBits } from '../../sim-core/logic/truth-table.ts';
import { straightPins } from '../support/straight-pins.ts';

const value = <T>(made: Outcome<T>): T => {
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
};
const refusal = (made: Outcome<unknown>): string => (made.ok ? '' : made.failure.says);
const names = (letter: string, n: number) => Array.from({ length: n }, (_, i) => `${letter}${i}`);

const anyTable = fc.tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 16 })).chain(([n, m]) => {
  const words = fc.array(fc.nat(2 ** m - 1), { minLength: 2 ** n, maxLength: 2 ** n });
  return fc.tuple(words, words).map(([v, f]) => value(tableOfWords(names('A', n), names('F', m), v, f)));
});

/** Any wiring that carries the table: pins in any order, tied pins, a second memory for what is over. */
const withMap = anyTable.chain((table) =>
  fc
    .record({
      extra: fc.nat(3),
      order: fc.infiniteStream(fc.nat()),
      activeLow: fc.nat(0xffff),
      fill: fc.nat(255),
      elsewhere: fc.constantFrom('fill' as const, 'repeat' as const),
      tied: fc.infiniteStream(fc.constantFrom('low' as const, 'high' as const)),
    })
    .map(({ extra, order, tied, ...rest }) => {
      const shuffled = <T>(list: readonly T[]): T[] => {
        const left = [...list];
        return list.map(() => left.splice(order.next().value % left.length, 1)[0]!);
      };
      const outputs = shuffled(table.outputs.map((_, o) => o));
      const chips = [outputs.slice(0, 8), outputs.slice(8)]
        .filter((o) => o.length > 0)
        .map((o) => ({
          address: shuffled([...table.inputs.map((_, i) => i), ...Array.from({ length: extra }, () => tied.next().value)]),
          data: shuffled([...o, ...Array.from({ length: 8 - o.length }, () => 'unused' as const)]),
        }));
      const map: PinMap = {
        chips,
        activeLow: rest.activeLow & (2 ** table.outputs.length - 1),
        fill: rest.fill,
        elsewhere: rest.elsewhere,
      };
      return { table, map };
    }),
);

describe('a pin map', () => {
  test('of any wiring carries any table into images and back', () => {
    fc.assert(
      fc.property(withMap, ({ table, map }) => {
        const images = value(imagesOf(table, map));
        const back = value(tableOfImages(images, map, table.inputs, table.outputs));
        for (let r = 0; r < rowsOf(table); r++) expect(wrongBits(table, r, back.values[r]!)).toBe(0);
      }),
      { numRuns: 300 },
    );
  });

  test('gives only what matters; don’t-cares, unused pins and addresses out of reach hold the fill', () => {
    const table = value(tableOfRules(['A', 'B'], ['F', 'G'], 'F = A AND B\nG = A\nG dontcare when B'));
    const map = { ...straightPins(table, 3), fill: 0xf0 };
    const [image] = value(imagesOf(table, map));
    expect([...image!.bytes]).toEqual([0xf0, 0xf2, 0xf0, 0xf1, 0xf0, 0xf0, 0xf0, 0xf0]);
    expect([...image!.given]).toEqual([3, 3, 1, 1, 0, 0, 0, 0]);
    const [low] = value(imagesOf(table, { ...map, activeLow: 1, elsewhere: 'repeat' }));
    expect([...low!.bytes]).toEqual([0xf1, 0xf3, 0xf1, 0xf0, 0xf1, 0xf3, 0xf1, 0xf0]);
    expect(addressOf({ address: ['high', 1, 0], data: [] }, 2)).toBe(3);
  });

  test('that leaves something out is refused', () => {
    const table = value(tableOfRules(['A', 'B'], ['F', 'G'], 'F = A\nG = B'));
    const pins = straightPins(table, 4);
    const with_ = (change: Partial<PinMap['chips'][number]>) =>
      refusal(imagesOf(table, { ...pins, chips: [{ ...pins.chips[0]!, ...change }] }));
    expect(with_({ address: [0, 'low', 'low'] })).toBe(
      'Input B is on no address pin of memory 1. Assign it to one of 3, or remove the input from the table.',
    );
    expect(with_({ data: [0, 'unused'] })).toBe('Output G is on no data pin. Assign it to one, or add a memory.');
    expect(with_({ data: [0, 1, 7] })).toBe(
      'A pin of memory 1 is given to column 7, which the table does not have. Choose one of its names.',
    );
    expect(refusal(tableOfImages([], pins, table.inputs, table.outputs))).toBe(
      'Memory 1 has 0 bytes, and its 4 address pins reach 16. Choose the image that belongs to it.',
    );
  });
});

describe('a table as a spreadsheet', () => {
  test('goes out and comes back the same, with commas and with tabs', () => {
    fc.assert(
      fc.property(anyTable, fc.constantFrom(',' as const, '\t' as const), (table, mark) => {
        expect(value(readTableText(writeTableText(table, mark)))).toEqual(table);
      }),
      { numRuns: 100 },
    );
  });

  test('has no cell that a spreadsheet would run, and names that look like formulas come back the same', () => {
    const name = fc.stringMatching(/^'?'?[=+@-][A-Z(]{1,3}[0-9,']?$/);
    fc.assert(
      fc.property(
        fc.uniqueArray(name, { minLength: 2, maxLength: 2 }),
        fc.constantFrom(',' as const, '\t' as const),
        ([input, output], mark) => {
          const table = value(tableOfWords([input!], [output!], [0, 1]));
          const text = writeTableText(table, mark);
          expect(text).not.toMatch(/(^|[,\t\n]"?)[=+@-][^,\t\n]/);
          expect(value(readTableText(text))).toEqual(table);
        },
      ),
      { numRuns: 200 },
    );
  });

  const XOR = 'B,A,,F\n0,0,,0\n0,1,,1\n1,0,,1\n1,1,,0\n';
  const shape = (t: TruthTable) => [t.inputs, t.outputs, [...t.values], [...t.dontCare]];

  test('needs no empty column where the lines are all rows', () => {
    expect(shape(value(readTableText(XOR.replaceAll(',,', ','))))).toEqual([['A', 'B'], ['F'], [0, 1, 1, 0], [0, 0, 0, 0]]);
  });

  test('may leave rows out, name both values with X and take numbers for a group', () => {
    expect(shape(value(readTableText('A1..A0\t\tG F\tH\n0\t\t1\t0\n3\t\tX\t1\n')))).toEqual([
      ['A0', 'A1'],
      ['H', 'G F'],
      [2, 0, 0, 1],
      [0, 3, 3, 2],
    ]);
    expect(shape(value(readTableText('B,A,,F\nX,1,,1\nX,0,,0')))).toEqual([['A', 'B'], ['F'], [0, 1, 0, 1], [0, 0, 0, 0]]);
  });

  test('may come with blank lines, any ends of lines, quotation marks, and TRUE and FALSE as spreadsheets reckon them', () => {
    const wanted = shape(value(readTableText(XOR)));
    for (const text of [
      `\n\n${XOR}\n\n`,
      `\ufeff${XOR.replaceAll('\n', '\r\n')}\r\n`,
      XOR.replaceAll('\n', '\r'),
      XOR.replaceAll(',', ';'),
      XOR.replaceAll(/[^,\n]+/g, '"$&"'),
      XOR.replaceAll('1', 'TRUE').replaceAll('0', 'false'),
    ])
      expect(shape(value(readTableText(text)))).toEqual(wanted);
  });

  test('is pasted into a table by its names', () => {
    const table = value(tableOfRules(['A', 'B'], ['F', 'G'], 'F = A\nG = B'));
    const pasted = value(readTableText('G;B;A\n1;0;1', table));
    expect(shape(pasted)).toEqual([
      ['A', 'B'],
      ['F', 'G'],
      [0, 3, 2, 3],
      [0, 0, 0, 0],
    ]);
  });

  test('names the line in which its names are wrong, by number and code', () => {
    const failure = (text: string, known?: TruthTable) => {
      const read = readTableText(text, known);
      return read.ok ? read : [read.failure.code, read.failure.at];
    };
    expect(failure('\n\nA')).toEqual(['table/empty', 'line 1']);
    expect(failure('\n\nA\n0')).toEqual(['table/empty', 'line 3']);
    expect(failure('\n0,1\n1,0')).toEqual(['table/empty', 'line 2']);
    const known = value(tableOfRules(['A', 'B'], ['F'], 'F = A'));
    expect(failure('A,B,G\n0,0,1', known)).toEqual(['table/unknown-column', 'line 1']);
    expect(failure('A,F\n0,1', known)).toEqual(['table/missing-column', 'line 1']);
    const says = (text: string) => {
      const read = readTableText(text, known);
      return read.ok ? 'read' : read.failure.says;
    };
    expect(says('F,\n1,')).toMatch(/^line 1: the column of input A is missing/);
    expect(failure('A,B\n0,1', known)).toEqual(['table/no-columns', 'line 1']);
    expect(failure('A,B,F\n0,0,0')).toEqual(['table/no-gap', 'line 1']);
  });

  test('takes a group of inputs in a table that it knows by all of its names', () => {
    const known = value(tableOfRules(['A0', 'A1', 'B'], ['F'], 'F = B'));
    expect(shape(value(readTableText('A1..A0,B,F\n2,1,0', known)))).toEqual([
      ['A0', 'A1', 'B'],
      ['F'],
      [0, 0, 0, 0, 1, 1, 0, 1],
      [0, 0, 0, 0, 0, 0, 0, 0],
    ]);
    const partly = readTableText('A2..A1,B,F\n2,1,0', known);
    expect(partly.ok ? 'read' : partly.failure.code).toBe('table/unknown-column');
  });

  test('may have several outputs without an empty column before them', () => {
    expect(shape(value(readTableText('B,A,G,F\n0,0,0,1\n0,1,1,0\n1,0,1,1\n1,1,0,0\n')))).toEqual([
      ['A', 'B'],
      ['F', 'G'],
      [1, 2, 3, 0],
      [0, 0, 0, 0],
    ]);
  });

  test.each([
    ['B,A,,F\n0,0,,0\n0,0,,1', 'line 3 gives row 0, and so does line 2. Remove one of them.'],
    ['B,A,,F\n0,2,,0', 'line 2: "2" in column A is no level. Write 0, 1, or X for don’t care.'],
    ['A,B,F\n0,0,0', 'line 1: it is unclear where inputs end and outputs begin. Leave one column empty between them.'],
    ['A B F\n0 0 0', 'line 1: "A B F" is one cell. A table begins with a line of names, with tabs, commas or semicolons between.'],
    ['0,0,,0\n0,1,,1', 'line 1 has levels and no names. Put a line of names above it.'],
    ['A,A,,F\n0,0,,0', 'Two inputs are called A: numbers 1 and 2. Rename one.'],
    ['A,,F\n0,,0,1', 'line 2 has 4 cells, and the heading has 3. Add the missing names, or remove cells.'],
    ['A1..A0,,F\n4,,0', 'line 2: "4" in column A1..A0 is no number from 0 to 3. Correct it, or write X for don’t care.'],
    ['', 'There is no table here: give a line of names and a line of 0 and 1 for each row, with tabs or commas between.'],
  ])('%s is refused', (text, sentence) => {
    expect(refusal(readTableText(text))).toBe(sentence);
  });
});
