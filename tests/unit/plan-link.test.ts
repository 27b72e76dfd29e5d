/** Links that carry a whole plan: every plan comes back unchanged, and what is damaged or too large is refused in words. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isLink, isReadOnlyLink, linkOf, textOfLink } from '../../client/plans/plan-link.ts';
import { QR_MOST, qrPath } from '../../client/plans/qr-path.ts';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { emptyBench } from '../../sim-core/demos/empty-bench.ts';
import { buildCircuit } from '../../sim-core/run/circuit/circuit.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { randomBench } from '../support/random-bench.ts';

const back = async (link: string) => {
  const text = await textOfLink(link);
  return text.ok ? readPlan(text.value) : text;
};

describe('a link', () => {
  test('brings every demonstration back unchanged', async () => {
    for (const { id } of DEMO_PLANS) {
      const plan = demoPlan(id)!;
      const link = await linkOf(plan);
      expect(link.ok && (await back(link.value))).toEqual({ ok: true, value: plan });
    }
  });
  test('to be operated only says so in its mark, and holds the same', async () => {
    const plan = demoPlan('greenhouse')!;
    const [edit, operate] = [await linkOf(plan), await linkOf(plan, 'operate')];
    expect(edit.ok && operate.ok && operate.value.replace('#view=', '#plan=')).toBe(edit.ok && edit.value);
    expect([edit, operate].map((l) => l.ok && [isLink(l.value), isReadOnlyLink(l.value)])).toEqual([
      [true, false],
      [true, true],
    ]);
    expect(operate.ok && (await back(operate.value))).toEqual({ ok: true, value: plan });
  });
  test('a QR code holds as much as the standard says, and no more', () => {
    const longest = qrPath('x'.repeat(QR_MOST));
    // version 40 has 177 squares a side, and four light ones round it
    expect(longest?.size).toBe(177 + 8);
    expect(qrPath('x'.repeat(QR_MOST + 1))).toBeUndefined();
    const small = qrPath('lampwright');
    // version 1: three finder patterns of 7 × 7, each with its dark corner squares
    expect(small?.size).toBe(21 + 8);
    for (const corner of ['M4 4h', 'M24 4h', 'M4 24h', 'M10 10h']) expect(small?.d).toContain(corner);
    expect(small?.d).not.toContain('M24 24h1v1h-1zM25 24h1v1h-1zM26 24h1v1h-1zM27 24h');
  });
  test('brings any bench back unchanged, and so does a file', async () => {
    const words = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 100 });
    await fc.assert(
      fc.asyncProperty(randomBench(1, 60), words, fc.array(words, { maxLength: 5 }), async (bench, title, notes) => {
        const plan = { ...bench, title, notes };
        const link = await linkOf(plan);
        expect(link.ok && (await back(link.value))).toEqual({ ok: true, value: plan });
        expect(readPlan(`${JSON.stringify(plan, null, 2)}\n`)).toEqual({ ok: true, value: plan });
      }),
      { numRuns: 60 },
    );
  });
  test('that is cut anywhere, or has another letter in it, is refused, and never taken for another plan', async () => {
    const link = await linkOf(demoPlan('greenhouse')!);
    const whole = link.ok ? link.value : '';
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 6, max: whole.length - 1 }), fc.constantFrom('', 'A', '_', '%', '+'), async (at, letter) => {
        const damaged = await back(whole.slice(0, at) + letter + (letter && whole.slice(at + 1)));
        if (damaged.ok) expect(damaged.value).toEqual(demoPlan('greenhouse'));
        else expect(damaged.failure.says).toMatch(/\.$/);
      }),
      { numRuns: 200 },
    );
  });
  test('to a bench that does not fit in one is refused with its length and the cure', async () => {
    const random = makeRandom(1);
    const notes = Array.from({ length: 40 }, () =>
      String.fromCharCode(...Array.from({ length: 1000 }, () => 33 + Math.floor(90 * random()))),
    );
    const link = await linkOf({ ...emptyBench, notes });
    expect(link.ok).toBe(false);
    expect(!link.ok && link.failure.says).toMatch(
      /^A link to this bench would have \d+\u202f\d{3} characters; many programs cut links at 30\u202f000\. Save the bench as a file/,
    );
  });
  test('that unpacks to more than a plan can be is refused before it fills the memory', async () => {
    const bomb = await linkOf({ ...emptyBench, notes: ['0'.repeat(6_000_000)] });
    expect(bomb.ok && (await back(bomb.value))).toMatchObject({ ok: false, failure: { says: expect.stringContaining('more than 5 MB') } });
  });
});

test('the empty bench can be built', () => {
  expect(readPlan(JSON.stringify(emptyBench))).toEqual({ ok: true, value: emptyBench });
  expect(buildCircuit(emptyBench, 'typical').ok).toBe(true);
});
