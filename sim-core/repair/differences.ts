/** Where a bench differs from what it was meant to be: each difference undone alone, and all of them at once. */
import type { Plan } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import { type Change, LISTS, type ListName } from '../document/changes.ts';
import { difference } from '../document/difference.ts';
import { candidateOf, type RepairCandidate } from './candidate.ts';

/** Whoever kept the plan as meant knows better than any catalogue. */
const KNOWN = 1000;
const TOGETHER = 100;

const MEANT_LISTS = LISTS.filter((list) => list !== 'meters');

export function differencesFromMeant(plan: Plan): readonly RepairCandidate[] {
  const { meant } = plan;
  if (!meant) return [];
  const singles = MEANT_LISTS.flatMap((list) => ofList(plan, meant, list));
  const all = difference(plan, { ...plan, ...meant });
  return [
    ...singles.map((c) => candidateOf('as-meant', c, KNOWN)),
    ...(singles.length > 1 ? [candidateOf('as-meant', all, TOGETHER)] : []),
  ];
}

/** One change for each thing that has come, gone or become another. */
function ofList<L extends Exclude<ListName, 'meters'>>(plan: Plan, meant: NonNullable<Plan['meant']>, list: L): Change[] {
  const [is, was] = [plan[list], meant[list]] as const;
  const now = new Map(is.map((t) => [t.id, t]));
  const then = new Map(was.map((t) => [t.id, t]));
  return [
    ...was.flatMap((item, index): Change[] => {
      const before = now.get(item.id);
      if (!before) return [{ op: 'insert', list, item, index: Math.min(index, is.length) } as Change];
      return sameValue(before, item) ? [] : [{ op: 'replace', list, before, after: item } as Change];
    }),
    ...is.flatMap((item, index): Change[] => (then.has(item.id) ? [] : [{ op: 'remove', list, item, index } as Change])),
  ];
}
