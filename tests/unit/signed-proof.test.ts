/** A signed proof travels in the plan and belongs to one bench: what no current feels leaves it good, anything else makes it say so. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import {
  apply,
  difference,
  fingerprintOf,
  invert,
  proofHolds,
  readBenchText,
  sayChange,
  setProof,
  signedProof,
  writeBenchText,
} from '../../sim-core/index.ts';
import { sha256 } from '../../sim-core/units/sha-256.ts';

const bench = demoPlan('ferry-ramp')!;
const sign = (plan: Plan, by = 'A. "Tester" # 1'): Plan => apply(plan, setProof(plan, signedProof(plan, { date: '2026-01-31', by })));
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
    expect(signed.proof).toEqual({ date: '2026-01-31', by: 'A. "Tester" # 1', rows: 128, of: fingerprintOf(bench) });
    expect(proofHolds(signed)).toBe(true);
    const read = readPlan(JSON.stringify(signed));
    expect(read.ok && read.value).toEqual(signed);
    const text = readBenchText(writeBenchText(signed));
    expect(text.ok && text.value).toEqual(signed);
    expect(text.ok && proofHolds(text.value)).toBe(true);
    const change = setProof(bench, signed.proof);
    expect(JSON.stringify(apply(signed, invert(change)))).toBe(JSON.stringify(bench));
    expect(sayChange(change)).toBe('sign the proof');
    expect(apply(bench, difference(bench, signed))).toEqual(signed);
  });

  test.each<[string, (p: Plan) => Plan]>([
    ['a title', (p) => ({ ...p, title: 'Another' })],
    ['a note', (p) => ({ ...p, notes: ['seen'] })],
    ["a lead's colour", (p) => ({ ...p, leads: p.leads.map((l) => ({ ...l, colour: 'pink' })) })],
    ['where the supply stands', (p) => part(p, 'PS1', { spot: [-20, 4] })],
    ['where switches stand', (p) => ({ ...p, hands: { ...p.hands, PS1: [true], S1: [true] } })],
    ['the order in which parts and leads are named', (p) => ({ ...p, parts: p.parts.toReversed(), leads: p.leads.toReversed() })],
    ['a meter', (p) => ({ ...p, meters: [{ id: 'M1', measures: 'level', at: 'a3' }] })],
    ['the rules in words', (p) => ({ ...p, wanted: { ...p.wanted!, rules: ['whatever'] } })],
    ['wear of a cell', (p) => ({ ...p, cells: { U1: { writes: { '000': [3, 1] } } } })],
  ])('holds when %s is changed', (_, change) => {
    expect(proofHolds(change(signed))).toBe(true);
  });

  test.each<[string, (p: Plan) => Plan]>([
    ['a byte', (p) => ({ ...p, memories: { ...p.memories, U1: { ...p.memories.U1, '000': 'B8'.repeat(16) } } })],
    ['a bit that nobody can tell', (p) => ({ ...p, cells: { U1: { uncertain: { '000': '01' } } } })],
    ['a lead', (p) => ({ ...p, leads: p.leads.slice(1) })],
    ['a value', (p) => part(p, 'R1', { params: { ohms: 22 } })],
    ['a burnt part', (p) => part(p, 'R1', { damaged: { by: 'power', measured: 1, limit: 0.25 } })],
    ['a row of the table', (p) => ({ ...p, wanted: { ...p.wanted!, rows: [0, ...p.wanted!.rows.slice(1)] } })],
    ['the wiring', (p) => ({ ...p, wiring: 'real' })],
    ['what outputs give', (p) => ({ ...p, outputs: 'guaranteed' })],
    ['a rail that is cut', (p) => ({ ...p, boards: p.boards.map((b) => ({ ...b, splitRails: true })) })],
  ])('holds no longer when %s is changed, and again when it is changed back', (_, change) => {
    const changed = change(signed);
    expect(proofHolds(changed)).toBe(false);
    expect(proofHolds(apply(changed, difference(changed, signed)))).toBe(true);
  });

  test.each([
    ['proof 2026-01-31', /^Line 2: A proof is written as: proof 2026-01-31 rows=32/],
    ['proof yesterday rows=4 of=ab by="A"', /^Line 2: A proof is written as/],
    [`proof 2026-13-31 rows=4 of=${'a'.repeat(64)} by="A"`, /^Line 2: proof\/date /],
  ])('%s is refused with its line', (line, says) => {
    const read = readBenchText(`bench-text 1\n${line}\n`, (p) => readPlan(JSON.stringify(p)));
    expect(read.ok ? 'read' : read.failure.says).toMatch(says);
  });
});
