/** Demonstrations that the builder makes of their tables: proven in every row, with no damage risk, no fault and nothing marginal. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { BUILT } from '../../sim-core/demos/built.ts';
import { dryRun, plain, proveTable, sayFinding } from '../../sim-core/index.ts';

describe.each(BUILT.map((b) => [b.table.title, b.table.id] as const))('%s', (_, id) => {
  const plan = demoPlan(id)!;

  test('shows every row of its table', () => {
    const rows = plan.wanted!.rows.length;
    expect(proveTable(plan)).toMatchObject({ ok: true, value: { rows, right: rows, differences: [] } });
  });

  test('has no damage risk, no fault and nothing marginal', () => {
    const found = dryRun(plan);
    if (!found.ok) throw new Error(found.failure.says);
    const bad = found.value.filter((f) => f.severity !== 'suggestion');
    expect(bad.map((f) => plain(sayFinding(f, plan)))).toEqual([]);
  });

  test('tells its story before anything else', () => {
    expect(plan.notes[0]).toBe(BUILT.find((b) => b.table.id === id)!.table.description);
  });
});

test('an LED that is taken from the bench is missed by the proof', () => {
  const plan = demoPlan(BUILT[1]!.table.id)!;
  const wire = plan.parts.find((p) => p.label === plan.wanted!.outputs[0]!.name)!;
  const proof = proveTable({ ...plan, parts: plan.parts.filter((p) => p !== wire) });
  expect(proof.ok && proof.value.right).toBe(0);
});
