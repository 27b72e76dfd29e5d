/** How the panels of the page Table ask for an edit of the wanted table. */
import type { PlanWanted } from '../../../shared/plan.ts';
import type { Outcome } from '../../../sim-core/index.ts';

/** undefined: no table any more */
export type Wanting = Outcome<PlanWanted | undefined>;

export const wantEvent = (detail: Wanting) => new CustomEvent<Wanting>('want', { detail, bubbles: true });
