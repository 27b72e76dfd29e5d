/** A bench with a hidden mistake: an LED shows it, the same seed hides the same, and the plan does not give it away. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { meantRows, shownDifferences, shownRows } from '../../sim-core/faults/shown-rows.ts';
import { asMeant, DIFFICULTIES, type Difficulty, emptyBench, plantFault, proveTable } from '../../sim-core/index.ts';

const greenhouse = asMeant(demoPlan('greenhouse')!);

const planted = (seed: number, level: Difficulty) => {
  const found = plantFault(greenhouse, seed, level);
  if (!found.ok) throw new Error(found.failure.says);
  return found.value;
};

const ids = (plan: Plan, list: 'wires' | 'parts', letters: string) =>
  plan[list].flatMap(({ id }) => (id.replace(/\d+$/, '') === letters ? [Number(id.slice(letters.length))] : [])).sort((a, b) => a - b);

describe.each(DIFFICULTIES)('a planted mistake, %s', (level) => {
  test.each([1, 2, 3, 4, 5, 6])('seed %i', (seed) => {
    const { plan, fault } = planted(seed, level);
    const meant = meantRows(greenhouse);
    if (!meant.ok) throw new Error(meant.failure.says);
    const is = shownRows({ ...plan, switches: { ...plan.switches, PS1: [true] } }, meant.value.inputs);
    expect(is.ok && shownDifferences(meant.value.shown, is.value).length).toBeGreaterThan(0);
    const proof = proveTable(plan);
    expect(proof.ok && proof.value.right === proof.value.rows).toBe(false);
    // numbers without a gap, nothing last that was added last, and no word of how it was
    for (const [list, letters] of [
      ['wires', 'W'],
      ['parts', 'R'],
      ['parts', 'C'],
    ] as const) {
      const numbers = ids(plan, list, letters);
      expect(numbers).toEqual(numbers.map((_, i) => i + 1));
    }
    expect([plan.meant, plan.proof, plan.parts.find((p) => p.damaged)]).toEqual([undefined, undefined, undefined]);
    expect(JSON.stringify(plan)).not.toContain(fault.kind);
    expect(readPlan(JSON.stringify(plan)).ok).toBe(true);
    expect(planted(seed, level).plan).toEqual(plan);
  });
});

test('other seeds hide other mistakes', () => {
  const kinds = DIFFICULTIES.map((level) => new Set([1, 2, 3, 4, 5, 6].map((seed) => planted(seed, level).fault.id)).size);
  for (const n of kinds) expect(n).toBeGreaterThan(2);
});

test('where no mistake shows, it is said', () => {
  expect(plantFault(emptyBench, 1, 'hard')).toMatchObject({ ok: false, failure: { code: 'faults/none-fits' } });
});
