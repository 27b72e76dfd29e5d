/** `text PLAN` and `plan PLAN`: the plan in the text notation, or as JSON. */
import type { Plan } from '../../shared/plan.ts';
import { done, writeBenchText } from '../../sim-core/index.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';

const printing = (name: string, means: string, asData: (plan: Plan) => unknown, asText: (plan: Plan) => string): ShellCommand => ({
  name,
  means,
  takes: 'PLAN',
  options: {},
  run({ words: [file = ''] }) {
    const plan = findPlan(file);
    return plan.ok ? answer(done(asData(plan.value)), () => asText(plan.value)) : plan;
  },
});

const notation = (plan: Plan) => writeBenchText(plan).trimEnd();

export const TEXT = printing('text', 'print the plan in the text notation, for a .plan.txt file', notation, notation);
export const PLAN = printing(
  'plan',
  'print the plan as JSON, for a .plan.json file',
  (plan) => plan,
  (plan) => JSON.stringify(plan, null, 2),
);
