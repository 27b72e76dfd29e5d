/** How a part's damage is said on the page: what it bore, beside what it could have borne. */
import type { Plan, PlanPart } from '../shared/plan.ts';
import { type Change, siFormat } from './core.ts';

type Damage = NonNullable<PlanPart['damaged']>;

const BORE: Readonly<Record<Damage['by'], readonly [did: string, unit: string]>> = {
  current: ['carried', 'A'],
  reverse: ['stood the wrong way round at', 'V'],
  power: ['turned into heat', 'W'],
  supply: ['was supplied with', 'V'],
};

/** "damaged: carried 280 mA, limit 30 mA" */
function damageSays({ by, measured, limit }: Damage): string {
  const [did, unit] = BORE[by];
  return `damaged: ${did} ${siFormat(measured, unit)}, limit ${siFormat(limit, unit)}`;
}

/** The damaged parts of a plan by id, and what is said of each. */
export const damageIn = (plan: Plan): ReadonlyMap<string, string> =>
  new Map(plan.parts.flatMap((p) => (p.damaged ? [[p.id, damageSays(p.damaged)] as const] : [])));

/** A new part of the same kind in the place of a damaged one; undefined if it is whole. */
export function replacement(plan: Plan, id: string): Change | undefined {
  const before = plan.parts.find((p) => p.id === id);
  if (!before?.damaged) return undefined;
  const { damaged: _, ...after } = before;
  return { op: 'replace-part', before, after };
}
