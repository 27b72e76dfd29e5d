/** Documents and texts that nobody writes: whatever is read answers in one short sentence, and never throws. */
import { describe, expect, test } from 'vitest';
import { textOfLink } from '../../client/plans/plan-link.ts';
import type { Outcome } from '../../shared/outcome.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { readCellBlock } from '../../sim-core/formats/cell-block.ts';
import { parseQuantity, readBenchText, readCsvImage, readIntelHex, readSRecord, readTableText, ruledBy } from '../../sim-core/index.ts';
import { HOSTILE_BENCH_TEXTS, HOSTILE_DOCUMENTS, HOSTILE_FILES, HOSTILE_RULES } from '../support/hostile-texts.ts';
import { expectOneSentence } from '../support/one-sentence.ts';

function refused(read: Outcome<unknown>): void {
  expect(read.ok).toBe(false);
  if (!read.ok) expectOneSentence(read.failure);
}

test.each(HOSTILE_DOCUMENTS)('%s: no plan', (_, text) => refused(readPlan(text)));

test.each(HOSTILE_BENCH_TEXTS)('%s: no bench in the text notation', (_, text) =>
  refused(readBenchText(text, (plan) => readPlan(JSON.stringify(plan)))),
);

describe.each(HOSTILE_FILES)('%s', (_, text) => {
  const size = 65_536;
  test.each([
    ['table', () => readTableText(text)],
    ['CSV image', () => readCsvImage(text, { size })],
    ['Intel HEX', () => readIntelHex(text, { size })],
    ['S-record', () => readSRecord(text, { size })],
  ] as const)('as %s is read, or refused in a sentence', (_, read) => {
    const outcome = read();
    if (!outcome.ok) expectOneSentence(outcome.failure);
  });

  test('as cells of a spreadsheet is cells or none', () => {
    const cells = readCellBlock(text);
    if (cells) expect(cells.flat().every((c) => c === 0 || c === 1 || c === '-')).toBe(true);
  });
});

test.each(HOSTILE_RULES)('%s: no rule', (_, text) => refused(ruledBy(['A', 'B'], ['F'], text)));

test.each([
  ['digits and a letter', `${'1'.repeat(1_000_000)}x`],
  ['digits and commas', '1,'.repeat(1_000_000)],
  ['spaces', `1${' '.repeat(1_000_000)}x`],
])('%s: no quantity', (_, text) => refused(parseQuantity(text, 'Ω')));

describe('a shared link', () => {
  const packed = async (text: string): Promise<string> => {
    const bytes = await new Response(new Blob([text]).stream().pipeThrough(new CompressionStream('deflate'))).arrayBuffer();
    return `#plan=${Buffer.from(bytes).toString('base64url')}`;
  };

  test.each([
    ['that unpacks to a thousand times its size', () => packed('['.repeat(8_000_000))],
    ['that is too long', async () => `#plan=${'A'.repeat(2_000_000)}`],
    ['of letters that are none of its alphabet', async () => `#plan=${'§'.repeat(20_000)}`],
    ['of nothing but zeros', async () => `#plan=${'A'.repeat(20_000)}`],
  ])('%s is refused', async (_, link) => refused(await textOfLink(await link())));

  test('with a document that is no plan is refused by the reader of plans', async () => {
    const text = await textOfLink(await packed(`["${'\\n'.repeat(2_000_000)}`));
    expect(text.ok).toBe(true);
    if (text.ok) refused(readPlan(text.value));
  });
});

test('a cell of several lines that is no level is quoted in one line', () => refused(readTableText('A,,F\n0,,"1\n2"\n1,,0\n')));
