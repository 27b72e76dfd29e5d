/** What is said of benches that are right: no damage risk, no fault, and nothing of what hands and enables cannot do; over all demonstrations and proven builds. */
import { describe, expect, test } from 'vitest';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { MISTAKES } from '../../sim-core/demos/mistakes.ts';
import { dryRun, plain, sayFinding } from '../../sim-core/index.ts';
import { diagnosisBenches } from '../support/diagnosis-benches.ts';

const broken = new Set(MISTAKES.map((m) => m.plan));
const HEALTHY: readonly (readonly [string, Plan])[] = [
  ...DEMO_PLANS.filter((d) => !broken.has(d.id)).map((d) => [d.id, d.plan] as const),
  ...MISTAKES.map((m) => [`${m.plan}, repaired`, m.whole] as const),
  ...diagnosisBenches().map((b) => [`${b.name}, supply on`, b.plan] as const),
];

describe.each(HEALTHY)('%s', (_, plan) => {
  test('has no damage risk and no fault', () => {
    const found = dryRun(plan);
    if (!found.ok) throw new Error(found.failure.says);
    const bad = found.value.filter((f) => f.severity === 'damage-risk' || f.severity === 'fault');
    expect(bad.map((f) => plain(sayFinding(f, plan)))).toEqual([]);
  });
});
