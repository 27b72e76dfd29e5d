/** The bench as it is meant: a copy of boards, parts and wires that the plan keeps, so that a later look can say what differs from it. */
import type { Plan, PlanMeant } from '../../shared/plan.ts';
import { type Change, setField } from './changes.ts';

/** What of a plan is kept. */
export const wiringOf = ({ boards, parts, wires }: PlanMeant): PlanMeant => ({ boards, parts, wires });

/** The plan, meant as it stands. */
export const asMeant = (plan: Plan): Plan => ({ ...plan, meant: wiringOf(plan) });

/** From now on the bench is meant as it stands. */
export const keepAsMeant = (plan: Plan): Change => setField(plan, 'meant', wiringOf(plan));
