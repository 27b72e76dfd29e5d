/** Documents and texts that were damaged on their way: every reader reads them or refuses them in one sentence, and none throws. */
import fc from 'fast-check';
import { describe, expect } from 'vitest';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import type { Outcome } from '../../shared/outcome.ts';
import { readPlan } from '../../shared/read-plan.ts';
import {
  layOut,
  partLookup,
  readBenchText,
  readCsvImage,
  readIntelHex,
  readSRecord,
  readTableText,
  ruledBy,
  writeBenchText,
} from '../../sim-core/index.ts';
import { expectOneSentence } from '../support/one-sentence.ts';
import { ledPlan, ramPlan } from '../support/plans.ts';
import { type Result, trial } from '../support/trial.ts';

const PLANS = [ledPlan(330), ramPlan(true), ...DEMO_PLANS.slice(0, 3).map((d) => d.plan)];
const SIGNS = '{}[]",:;=()\\ \n\r\t\0#+-@.0159AFXxé−𝄞\ufeff\ud800'.split('');
const VALUES = [null, true, -1, 1e300, 0.5, '', '__proto__', 'constructor', 'a12', 'x'.repeat(300), [], [[[]]], {}, { at: 1 }];

interface Slip {
  readonly does: 'cut' | 'insert' | 'replace' | 'double' | 'swap';
  /** as a part of the text's length */
  readonly at: number;
  readonly length: number;
  readonly sign: string;
}

const slip: fc.Arbitrary<Slip> = fc.record({
  does: fc.constantFrom('cut', 'insert', 'replace', 'double', 'swap'),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.oneof(fc.constant(1), fc.integer({ min: 1, max: 60 })),
  sign: fc.oneof(fc.constantFrom(...SIGNS), fc.string({ maxLength: 8 })),
});

function slipped(text: string, { does, at, length, sign }: Slip): string {
  const from = Math.floor(at * text.length);
  const [before, piece, behind] = [text.slice(0, from), text.slice(from, from + length), text.slice(from + length)];
  const now = { cut: '', insert: sign + piece, replace: sign, double: piece + piece, swap: [...piece].reverse().join('') }[does];
  return before + now + behind;
}

/** One of the texts with one to five slips. */
const mutated = (texts: readonly string[]): fc.Arbitrary<string> =>
  fc.tuple(fc.constantFrom(...texts), fc.array(slip, { minLength: 1, maxLength: 5 })).map(([text, slips]) => slips.reduce(slipped, text));

/** The document with a value of another sort at some place of it. */
function withAnother(value: unknown, path: readonly number[], other: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined || typeof value !== 'object' || value === null) return other;
  const entries = Object.entries(value);
  if (entries.length === 0) return other;
  const [name, inner] = entries[step % entries.length] ?? ['', undefined];
  const changed = withAnother(inner, rest, other);
  if (Array.isArray(value)) return value.map((v, i) => (String(i) === name ? changed : v));
  return { ...value, [name]: changed };
}

const changed = fc
  .tuple(fc.constantFrom(...PLANS), fc.array(fc.nat({ max: 40 }), { minLength: 1, maxLength: 5 }), fc.constantFrom(...VALUES))
  .map(([plan, path, other]) => JSON.stringify(withAnother(plan, path, other)));

function judged(read: Outcome<unknown>): Result {
  if (!read.ok) expectOneSentence(read.failure);
  return { kind: read.ok ? 'read' : read.failure.code };
}

/** A plan that was read is laid on its boards too. */
function judgedPlan(text: string): Result {
  const read = readPlan(text);
  return judged(read.ok ? layOut(read.value, partLookup.shapeOf) : read);
}

const size = 2048;
const RECORDS = [
  ':10000000000102030405060708090A0B0C0D0E0F78\n:00000001FF\n',
  'S1130000000102030405060708090A0B0C0D0E0F74\nS5030001FB\nS9030000FC\n',
];
const TABLES = [
  'A,B,,F\n0,0,,1\n0,1,,X\n1,0,,0\n1,1,,1\n',
  'A1..A0\t\tF\n0\t\t1\n1\t\t0\n2\t\tX\n3\t\t0\n',
  'address,byte\n0x0000,0xFF\n1,17\n',
];
const RULES = ['F = A and not B\n"G x" = (A or B) xor F\ndontcare F when A and B', 'T = {A, B}\nF = T > 2\nG = if A then B else 0'];

describe('mutated', () => {
  const asked = { sample: 60, full: 20_000 };
  trial('plans as JSON', { cases: mutated(PLANS.map((p) => JSON.stringify(p))), ...asked }, judgedPlan);
  trial('plans with another value', { cases: changed, ...asked }, judgedPlan);
  trial('benches in the text notation', { cases: mutated(PLANS.map(writeBenchText)), ...asked }, (text) =>
    judged(readBenchText(text, (plan) => readPlan(JSON.stringify(plan)))),
  );
  trial('rules', { cases: mutated(RULES), ...asked }, (text) => judged(ruledBy(['A', 'B'], ['F', 'G x'], text)));
  trial('tables and images', { cases: mutated([...RECORDS, ...TABLES]), ...asked }, (text) => {
    const all = [readTableText(text), readCsvImage(text, { size }), readIntelHex(text, { size }), readSRecord(text, { size })].map(judged);
    expect(all).toHaveLength(4);
    return { kind: `${all.filter((r) => r.kind === 'read').length} of 4 read` };
  });
});
