/** The signed proof in a plan as the page speaks of it: its date, whether it still belongs to the bench, and what is said if it does not. */
import type { Plan, PlanProof } from '../../../shared/plan.ts';
import { capitalised, fingerprintOf, grouped, movedSince, type PoleAt, PROVEN, plain, sayMoved } from '../../../sim-core/index.ts';

/** Of the plan asked for last: between two edits the same one is asked for again and again. */
let known: { readonly plan: Plan; readonly of: string } | undefined;

/** What tells this bench from any other, for a proof. */
function nowOf(plan: Plan): string {
  const { plan: last } = known ?? {};
  if (!known || !last || PROVEN.some((key) => last[key] !== plan[key])) known = { plan, of: fingerprintOf(plan) };
  return known.of;
}

/** A proof beside the bench as it is now. */
export interface Signed {
  readonly proof: PlanProof;
  /** wiring, parts, bytes and table are what they were */
  readonly same: boolean;
  /** switches that stand otherwise than they did, each as it stood then */
  readonly moved: readonly PoleAt[];
  /** it is the bench that was proven */
  readonly holds: boolean;
}

export function proofBesideBench(proof: PlanProof, plan: Plan): Signed {
  const same = proof.fingerprint === nowOf(plan);
  const moved = movedSince(proof, plan);
  return { proof, same, moved, holds: same && moved.length === 0 };
}

/** undefined: none is signed */
export const signedOf = (plan: Plan): Signed | undefined => plan.proof && proofBesideBench(plan.proof, plan);

export const sayOutdatedFirst = ({ same }: Signed): string =>
  same ? 'Proven with a switch the other way. Set it back, or prove again.' : 'Proven before the last change. Prove again.';

/** What was said then, for a proof that holds no longer, and what is not as it was. */
export const sayOutdated = ({ proof, same, moved }: Signed, plan: Plan): string =>
  [
    `All ${grouped(proof.rows)} rows were right on ${dateOf(proof)}${proof.by ? `, signed by ${proof.by}` : ''}.`,
    same ? '' : ' Since then the wiring, a part, a pole’s name, a byte or the table has changed, or an older version signed it.',
    moved.length > 0 ? ` ${capitalised(plain(sayMoved(moved, plan)))}.` : '',
  ].join('');

export const dateOf = ({ date }: Pick<PlanProof, 'date'>): string =>
  new Date(`${date}T12:00`).toLocaleDateString(undefined, { dateStyle: 'long' });

/** As this place on earth has it. */
export function today(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
