/** A proof shared among several workers is the proof: every row once, and the same differences first. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import {
  beginProof,
  joinShares,
  type Proving,
  plain,
  proveTable,
  sayCounts,
  sayDisabled,
  sayRight,
  sayRowOff,
} from '../../sim-core/index.ts';

/** The adding machine with a byte of its memory overwritten: a handful of its 256 sums come out wrong. */
function spoiled(): Plan {
  const plan = demoPlan('adding-machine')!;
  const [id = '', rows = {}] = Object.entries(plan.memories)[0] ?? [];
  const [at = '', bytes = ''] = Object.entries(rows)[0] ?? [];
  return { ...plan, memories: { ...plan.memories, [id]: { ...rows, [at]: `${'55'.repeat(7)}${bytes.slice(14)}` } } };
}

function proven(plan: Plan, part: number, of: number): Proving {
  const proving = beginProof(plan, {}, { part, of });
  if (!proving.ok) throw new Error(proving.failure.says);
  expect(proving.value.go(Number.POSITIVE_INFINITY)).toBe(true);
  return proving.value;
}

describe('a proof in shares', () => {
  test.each([2, 3, 7])('of %i sees what one worker alone sees', (of) => {
    const plan = spoiled();
    const whole = proven(plan, 0, 1);
    const shares = Array.from({ length: of }, (_, part) => proven(plan, part, of));
    const joined = joinShares(shares);
    expect(whole.proof.right).toBeLessThan(256);
    expect(whole.proof.differences.length).toBeGreaterThan(1);
    expect(shares.map((s) => s.seen).reduce((a, b) => a + b)).toBe(256);
    expect(joined.proof).toEqual(whole.proof);
    expect(joined.shown).toEqual(whole.shown);
    expect(joined.unknown).toEqual(whole.unknown);
  });
});

describe('what may have happened to a bench', () => {
  const greenhouse = demoPlan('greenhouse')!;
  const said = (plan: Plan) => {
    const proof = proveTable(plan);
    return proof.ok ? proof.value.explained : [proof.failure.says];
  };

  test('that shows its outputs in another order is said of them by name', () => {
    const ends = ['b21', 'c22'];
    const wires = greenhouse.wires.map((w) => (w.from === 'b21' ? { ...w, from: 'c22' } : w.from === 'c22' ? { ...w, from: 'b21' } : w));
    expect(greenhouse.wires.filter((w) => ends.includes(w.from))).toHaveLength(2);
    expect(said({ ...greenhouse, wires })).toEqual([
      expect.stringMatching(/^Vent and fan swapped: that explains all \d+ of 32 rows that differ\.$/),
      'Nothing else explains them.',
    ]);
  });
  test('whose switches reach each other’s pins is said of the switches by name', () => {
    const [hot, damp] = ['W6', 'W8'].map((id) => greenhouse.wires.find((w) => w.id === id)!);
    const swapped = greenhouse.wires.map((w) => (w === hot ? { ...w, from: damp!.from } : w === damp ? { ...w, from: hot!.from } : w));
    expect(said({ ...greenhouse, wires: swapped })).toEqual([
      expect.stringMatching(/^Hot and damp swapped: that explains all \d+ of 32 rows that differ\.$/),
      'Nothing else explains them.',
    ]);
  });
  test('whose LED is reversed is that it is always dark', () => {
    const parts = greenhouse.parts.map((p) => (p.id === 'LED4' && p.to !== undefined ? { ...p, at: p.to, to: p.at! } : p));
    const all = greenhouse.wanted!.rows.filter((row) => (row >> 3) & 1).length;
    expect(said({ ...greenhouse, parts })).toEqual([
      `Heater always dark: that explains all ${all} of 32 rows that differ.`,
      'Check for a wire or a pin with no contact.',
    ]);
  });
  test('is not asked where all rows are right, or where a single byte is all', () => {
    expect(said(greenhouse)).toBeUndefined();
    const [at = '', bytes = ''] = Object.entries(greenhouse.memories.U1!)[0]!;
    const first = (Number.parseInt(bytes.slice(0, 2), 16) ^ 0x41).toString(16).toUpperCase().padStart(2, '0');
    expect(said({ ...greenhouse, memories: { U1: { ...greenhouse.memories.U1, [at]: first + bytes.slice(2) } } })).toBeUndefined();
  });
});

describe('a proof of a bench whose /OE stands for writing', () => {
  const bench = demoPlan('ferry-ramp')!;
  const blank = demoPlan('greenhouse-blank')!;
  const disabledIn = (plan: Plan) => proven(plan, 0, 1).proof.disabled;
  test('says which switch it is, how it would have to stand, and which memory sleeps', () => {
    const writing = { ...blank, switches: { ...blank.switches, S3: [true] } };
    const disabled = disabledIn(writing);
    expect(disabled).toEqual([{ part: 'S3', pole: 0, closed: false, memory: 'U1' }]);
    expect(plain(sayDisabled(disabled, writing))).toBe('switch /OE (S3 pole 1) is closed, so the outputs of U1 are high-impedance (Z)');
  });
  test('and nothing where it stands for reading, or where no switch is on an enable', () => {
    expect(disabledIn(blank)).toEqual([]);
    expect(disabledIn(bench)).toEqual([]);
  });
  test('and nothing of a switch that is an input of the table: the proof moves it itself', () => {
    const { wanted, ...plan } = { ...blank, switches: { ...blank.switches, S3: [true] } };
    const inputs = [...wanted!.inputs, { name: 'off', pin: 'U1./OE' }];
    const rows = [...wanted!.rows, ...wanted!.rows];
    expect(disabledIn({ ...plan, wanted: { ...wanted!, inputs, rows } })).toEqual([]);
  });
  test('looks on a bench of its own: the bytes that are proven are those of the plan', () => {
    const writing = { ...spoiled(), switches: {} };
    expect(proven(writing, 0, 1).proof.right).toBe(proven(spoiled(), 0, 1).proof.right);
  });
});

test('a row that is not right is told with the highest input and output first, those that err alike together', () => {
  const plan = demoPlan('adding-machine')!;
  expect(sayRowOff({ row: 0b10000001, wrong: 0b01011, unknown: 0b10000, wanted: 0b00010 }, plan)).toBe(
    'row 129 (A3, B0): S1 should be lit and is dark; S3 and S0 should be dark and are lit; S4 is undefined (X)',
  );
  expect(sayRowOff({ row: 0, wrong: 0b111, unknown: 0, wanted: 0b111 }, plan)).toBe(
    'row 0 (no input): S2, S1 and S0 should be lit and are dark',
  );
  expect([sayRight(1, 8), sayRight(0, 65536)]).toEqual(['1 of 8 rows is right', '0 of 65\u202f536 rows are right']);
});

describe('the counts of a proof', () => {
  const plan = demoPlan('ticket-counter')!;
  const countsOf = (bench: Plan) => sayCounts(proven(bench, 0, 1).proof);
  // units or tens above nine: 256 − 100 rows of which nothing is asked
  test('tell rows that ask for nothing from those that are right', () => {
    expect(countsOf(plan)).toBe('100 rows right, 156 not asked');
  });
  test('tell a byte that nobody has written from one that is wrong, also in shares', () => {
    const [units = '', tens = ''] = Object.keys(plan.memories);
    const blank = { ...plan, memories: { ...plan.memories, [units]: {} } };
    expect(countsOf(blank)).toBe('0 rows right, 156 not asked, 100 not yet written');
    const zeros = { '0': '00'.repeat(256) };
    expect(countsOf({ ...plan, memories: { ...plan.memories, [units]: zeros } })).toBe('0 rows right, 100 wrong, 156 not asked');
    // one byte wrong makes a row wrong, whatever the other memory lacks
    expect(countsOf({ ...plan, memories: { [units]: zeros, [tens]: {} } })).toBe('0 rows right, 100 wrong, 156 not asked');
    expect(joinShares([0, 1, 2].map((part) => proven(blank, part, 3))).proof).toEqual(proven(blank, 0, 1).proof);
  });
});
