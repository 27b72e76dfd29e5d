/** The plan that a command line names: a file, the plan's own or its text form, or one of the demonstrations by its id. */
import { existsSync, readFileSync } from 'node:fs';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { done, failed, isBenchText, type Outcome, readBenchText } from '../../sim-core/index.ts';

/** A demonstration's id comes before a file of that name. */
export const isDemo = (name: string): boolean => demoPlan(name) !== undefined;

export const planText = (file: string): string => readFileSync(file, 'utf8');

export function findPlan(name: string): Outcome<Plan> {
  const demo = demoPlan(name);
  if (demo) return done(demo);
  if (!existsSync(name))
    return failed(
      name,
      `There is no file ${name}, and no demonstration of that name. The demonstrations are ${DEMO_PLANS.map((d) => d.id).join(', ')}.`,
    );
  let text: string;
  try {
    text = planText(name);
  } catch (e) {
    return failed(name, `${name} cannot be read: ${e instanceof Error ? e.message : String(e)}.`);
  }
  const plan = isBenchText(name, text) ? readBenchText(text, (p) => readPlan(JSON.stringify(p))) : readPlan(text);
  return plan.ok ? plan : failed(`${name}, ${plan.failure.at}`, `${name}: ${plan.failure.says}`);
}
