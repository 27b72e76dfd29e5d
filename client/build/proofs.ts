/** The signed proof in a plan as the page speaks of it: its date, whether it still belongs to the bench, and what is said if it does not. */
import type { Plan, PlanProof } from '../../shared/plan.ts';
import { fingerprintOf, PROVEN } from '../core.ts';

/** Of the plan asked for last: between two edits the same one is asked for again and again. */
let known: { readonly plan: Plan; readonly of: string } | undefined;

/** What tells this bench from any other, for a proof. */
export function nowOf(plan: Plan): string {
  const { plan: last } = known ?? {};
  if (!known || !last || PROVEN.some((key) => last[key] !== plan[key])) known = { plan, of: fingerprintOf(plan) };
  return known.of;
}

/** undefined: nobody signed one */
export const signedOf = (plan: Plan): { readonly proof: PlanProof; readonly holds: boolean } | undefined =>
  plan.proof && { proof: plan.proof, holds: plan.proof.of === nowOf(plan) };

export const OUTDATED = 'Proven before the last change: prove it again.';

/** What was said then, for a proof that holds no longer. */
export const sayOutdated = (proof: PlanProof): string =>
  `All ${proof.rows} rows were right on ${dateOf(proof)}${proof.by ? `, signed by ${proof.by}` : ''}. Since then the wiring, a part, a byte or the table was changed.`;

export const dateOf = ({ date }: Pick<PlanProof, 'date'>): string =>
  new Date(`${date}T12:00`).toLocaleDateString(undefined, { dateStyle: 'long' });

/** As this place on earth has it. */
export function today(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
