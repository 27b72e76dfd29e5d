/** A large table on paper: every row is on exactly one page, and as many pages are told as there are. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pagesOf, tablePages, usualForm } from '../../client/sheet/table-pages.ts';
import type { PlanWanted } from '../../shared/plan.ts';

const table = (inputs: number, outputs: number, seed: number): PlanWanted => {
  const names = (letter: string, n: number) => Array.from({ length: n }, (_, i) => ({ name: `${letter}${i}`, pin: `U1.${letter}${i}` }));
  const word = (r: number, salt: number) => (Math.imul(r + salt, 2654435761 ^ seed) >>> 9) & (2 ** outputs - 1);
  const rows = Array.from({ length: 2 ** inputs }, (_, r) => word(r, 1));
  return {
    inputs: names('A', inputs),
    outputs: names('D', outputs),
    rules: [],
    rows,
    dontCare: rows.map((_, r) => word(r, 77) & word(r, 5)),
  };
};
const aTable = fc
  .record({ inputs: fc.integer({ min: 9, max: 13 }), outputs: fc.integer({ min: 1, max: 16 }), seed: fc.integer() })
  .map((t) => table(t.inputs, t.outputs, t.seed));

const linesOf = (pages: ReturnType<typeof tablePages>) => pages.flatMap((p) => p.columns.flatMap((c) => c.split('\n')));

test('in hexadecimal every figure stands for its row, but where bits do not matter', () => {
  fc.assert(
    fc.property(aTable, (wanted) => {
      const pages = tablePages(wanted, 'hex');
      expect(pages.length).toBe(pagesOf(wanted, 'hex'));
      let row = 0;
      for (const line of linesOf(pages)) {
        const [head = '', ...values] = line.split(/ +/);
        expect(Number.parseInt(head, 16)).toBe(row);
        for (const value of values) {
          for (const [i, figure] of [...value].reverse().entries()) {
            const [is, free, used] = [wanted.rows[row]!, wanted.dontCare![row]!, 2 ** wanted.outputs.length - 1].map(
              (v) => (v >> (4 * i)) & 15,
            );
            expect(figure).toBe(free === 0 ? is!.toString(16).toUpperCase() : free === used ? '–' : '*');
          }
          row += 1;
        }
      }
      expect(row).toBe(wanted.rows.length);
    }),
    { numRuns: 12 },
  );
});

test('bit by bit every row stands once, in order, and as wide as its lines are many', () => {
  fc.assert(
    fc.property(aTable, (wanted) => {
      const pages = tablePages(wanted, 'bits');
      expect(pages.length).toBe(pagesOf(wanted, 'bits'));
      const lines = linesOf(pages);
      expect(lines.length).toBe(wanted.rows.length);
      for (const [row, line] of lines.entries()) {
        const [number, ins = '', outs = ''] = line.trim().split(/ +/);
        expect([Number(number), Number.parseInt(ins, 2)]).toEqual([row, row]);
        for (const [i, bit] of [...outs].reverse().entries())
          expect(bit).toBe((wanted.dontCare![row]! >> i) & 1 ? '–' : String((wanted.rows[row]! >> i) & 1));
      }
    }),
    { numRuns: 6 },
  );
});

test('no page has more lines or letters than both papers hold', () => {
  fc.assert(
    fc.property(aTable, fc.constantFrom('hex' as const, 'bits' as const), (wanted, form) => {
      for (const { columns } of tablePages(wanted, form)) {
        const texts = columns.map((c) => c.split('\n'));
        for (const lines of texts) expect(lines.length).toBeLessThanOrEqual(64);
        const wide = texts.map((lines) => Math.max(...lines.map((l) => l.length)));
        expect(wide.reduce((n, w) => n + w, 0) + 3 * (wide.length - 1)).toBeLessThanOrEqual(112);
      }
    }),
    { numRuns: 12 },
  );
});

test('what is printed without being asked: a short table in full, a few pages in hexadecimal, of a very long one the beginning', () => {
  expect([8, 9, 13, 16].map((inputs) => usualForm(table(inputs, 8, 1)))).toEqual(['first', 'hex', 'hex', 'first']);
  expect([9, 11, 13, 16].map((inputs) => pagesOf(table(inputs, 8, 1), 'hex'))).toEqual([1, 1, 4, 32]);
  expect(pagesOf(table(9, 8, 1), 'none')).toBe(0);
});
