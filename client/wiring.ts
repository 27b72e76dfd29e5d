/** Whether leads and rails have resistance, as an edit. */
import type { Plan } from '../shared/plan.ts';
import type { Change } from './core.ts';

export const wiringChange = (plan: Plan, real: boolean): Change => ({
  op: 'set-wiring',
  before: plan.wiring,
  after: real ? 'real' : undefined,
});
