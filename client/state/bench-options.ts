/** How the whole bench is taken, as edits: whether wires and rails have resistance, and what outputs can give. */
import type { Plan } from '../../shared/plan.ts';
import type { Change } from '../../sim-core/index.ts';

export const wiringChange = (plan: Plan, real: boolean): Change => ({
  op: 'set-choice',
  name: 'wiring',
  before: plan.wiring,
  after: real ? 'real' : undefined,
});

export const outputsChange = (plan: Plan, guaranteed: boolean): Change => ({
  op: 'set-choice',
  name: 'outputs',
  before: plan.outputs,
  after: guaranteed ? 'guaranteed' : undefined,
});
