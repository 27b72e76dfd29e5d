/** A signed proof travels in the plan and belongs to one bench: what no current feels leaves it good, anything else makes it say so. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { beginProof } from '../../sim-core/findings/table-proof.ts';
import {
  apply,
  difference,
  fingerprintOf,
  invert,
  movedSince,
  plain,
  proofHolds,
  readBenchText,
  sayChange,
  sayMoved,
  setField,
  signedProof,
  writeBenchText,
} from '../../sim-core/index.ts';
import { sha256 } from '../../sim-core/units/sha-256.ts';

const bench = demoPlan('ferry-ramp')!;
const inputsOf = (plan: Plan) => {
  const begun = beginProof(plan);
  if (!begun.ok) throw new Error(begun.failure.says);
  return begun.value.proof.inputs;
};
const sign = (plan: Plan, by = 'A. "Tester" # 1'): Plan =>
  apply(plan, setField(plan, 'proof', signedProof(plan, { date: '2026-01-31', by }, inputsOf(plan))));
const signed = sign(bench);
const part = (plan: Plan, id: string, to: object): Plan => ({ ...plan, parts: plan.parts.map((p) => (p.id === id ? { ...p, ...to } : p)) });

test('the digest is the one that others compute', () => {
  const others = (text: string) => createHash('sha256').update(Buffer.from(text, 'utf16le').swap16()).digest('hex');
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
      expect(sha256(text)).toBe(others(text));
    }),
  );
  for (const length of [0, 27, 28, 31, 32, 100_000]) expect(sha256('ä'.repeat(length))).toBe(others('ä'.repeat(length)));
});

describe('a signed proof', () => {
  test('is in the plan, through its document and its text, and is taken off again to the bit', () => {
    expect(signed.proof).toEqual({
      date: '2026-01-31',
      by: 'A. "Tester" # 1',
      rows: 128,
      fingerprint: fingerprintOf(bench),
      switches: { S1: '-------' },
    });
    expect(proofHolds(signed)).toBe(true);
    const read = readPlan(JSON.stringify(signed));
    expect(read.ok && read.value).toEqual(signed);
    const text = readBenchText(writeBenchText(signed));
    expect(text.ok && text.value).toEqual(signed);
    expect(text.ok && proofHolds(text.value)).toBe(true);
    const change = setField(bench, 'proof', signed.proof);
    expect(JSON.stringify(apply(signed, invert(change)))).toBe(JSON.stringify(bench));
    expect(sayChange(change)).toBe('sign the proof');
    expect(apply(bench, difference(bench, signed))).toEqual(signed);
  });

  test.each<[string, (p: Plan) => Plan]>([
    ['a title', (p) => ({ ...p, title: 'Another' })],
    ['a note', (p) => ({ ...p, notes: ['seen'] })],
    ["a wire's colour", (p) => ({ ...p, wires: p.wires.map((l) => ({ ...l, colour: 'pink' })) })],
    ['where the supply stands', (p) => part(p, 'PS1', { spot: [-20, 4] })],
    ["where the supply's switch and the inputs' switches stand", (p) => ({ ...p, switches: { ...p.switches, PS1: [true], S1: [true] } })],
    ['the order in which parts and wires are named', (p) => ({ ...p, parts: p.parts.toReversed(), wires: p.wires.toReversed() })],
    [
      'the name of a pole that is no input’s',
      (p) => part(p, 'S1', { poleNames: [...(p.parts.find((x) => x.id === 'S1')!.poleNames ?? []), 'spare'] }),
    ],
    ['a meter', (p) => ({ ...p, meters: [{ id: 'M1', measures: 'level', at: 'a3' }] })],
    ['the rules in words', (p) => ({ ...p, wanted: { ...p.wanted!, rules: ['whatever'] } })],
    ['wear of a cell', (p) => ({ ...p, cells: { U1: { writes: { '000': [3, 1] } } } })],
  ])('holds when %s is changed', (_, change) => {
    expect(proofHolds(change(signed))).toBe(true);
  });

  test.each<[string, (p: Plan) => Plan]>([
    ['a byte', (p) => ({ ...p, memories: { ...p.memories, U1: { ...p.memories.U1, '000': 'B8'.repeat(16) } } })],
    ['a bit that nobody can tell', (p) => ({ ...p, cells: { U1: { uncertain: { '000': '01' } } } })],
    ['a wire', (p) => ({ ...p, wires: p.wires.slice(1) })],
    ['a value', (p) => part(p, 'R1', { params: { ohms: 22 } })],
    ['a burnt part', (p) => part(p, 'R1', { damaged: { by: 'power', measured: 1, limit: 0.25 } })],
    ['a row of the table', (p) => ({ ...p, wanted: { ...p.wanted!, rows: [0, ...p.wanted!.rows.slice(1)] } })],
    ['the wiring', (p) => ({ ...p, wiring: 'real' })],
    [
      'which pole has the name of which input',
      (p) => part(p, 'S1', { poleNames: p.wanted!.inputs.map((i, k) => (k < 2 ? p.wanted!.inputs[1 - k]! : i).name) }),
    ],
    ['what outputs give', (p) => ({ ...p, outputs: 'guaranteed' })],
    ['a rail that is cut', (p) => ({ ...p, boards: p.boards.map((b) => ({ ...b, splitRails: true })) })],
  ])('holds no longer when %s is changed, and again when it is changed back', (_, change) => {
    const changed = change(signed);
    expect(proofHolds(changed)).toBe(false);
    expect(proofHolds(apply(changed, difference(changed, signed)))).toBe(true);
  });

  test.each([
    ['proof 2026-01-31', /^Line 2: "by" is missing; write for example: proof 2026-01-31 by/],
    ['proof yesterday rows 4 fingerprint ab by "A"', /^Line 2: "yesterday" is not a date such as 2026-01-31; write for example: proof/],
    [`proof 2026-13-31 rows 4 fingerprint ${'a'.repeat(64)} by "A"`, /^Line 2: proof\/date /],
  ])('%s is refused with its line', (line, says) => {
    const read = readBenchText(`lampwright-text 2\n${line}\n`, (p) => readPlan(JSON.stringify(p)));
    expect(read.ok ? 'read' : read.failure.says).toMatch(says);
  });
});

/** The greenhouse as it is before its bytes are in: S1 sets the inputs, S2 the data, S3 /OE, S4 is the button. */
describe('a signed proof of a bench with switches that set no input', () => {
  const blank = demoPlan('greenhouse-blank')!;
  const whole = sign(blank);
  const throwing = (id: string, poles: boolean[]): Plan => ({ ...whole, switches: { ...whole.switches, [id]: poles } });
  const closed = (id: string, pole: number) => throwing(id, Object.assign([...(whole.switches[id] ?? [])], { [pole]: true }));

  test('keeps how they stood, and not where a supply or a button is', () => {
    expect(whole.proof?.switches).toEqual({ S1: '-----', S2: '00000000', S3: '0' });
    expect(proofHolds(throwing('PS1', [true]))).toBe(true);
    expect(proofHolds(throwing('S1', [true, true]))).toBe(true);
    expect(proofHolds(throwing('S4', [true]))).toBe(true);
  });

  test.each([
    ['S3', 0, 'switch /OE (S3 pole 1) was open and is now closed'],
    ['S2', 6, 'pole 7 of S2 (data) was open and is now closed'],
  ])('holds no longer once %s is thrown, says so, and is good again when it is set back', (id, pole, says) => {
    const thrown = closed(id, pole);
    expect(proofHolds(thrown)).toBe(false);
    const moved = movedSince(thrown.proof!, thrown);
    expect(moved).toEqual([{ part: id, pole, closed: false }]);
    expect(plain(sayMoved(moved, thrown))).toBe(says);
    expect(proofHolds({ ...thrown, switches: whole.switches })).toBe(true);
  });

  test('says nothing of a switch that is on the bench no more', () => {
    const without = { ...closed('S2', 6), parts: whole.parts.filter((p) => p.id !== 'S2') };
    expect(proofHolds(without)).toBe(false);
    expect(movedSince(whole.proof!, without)).toEqual([]);
  });

  test('goes through the text with its switches, and one of before they were kept says nothing of them', () => {
    const text = readBenchText(writeBenchText(whole), (p) => readPlan(JSON.stringify(p)));
    expect(text.ok && text.value).toEqual(whole);
    const { switches: _, ...older } = whole.proof!;
    expect(proofHolds({ ...closed('S3', 0), proof: older })).toBe(true);
  });
});
