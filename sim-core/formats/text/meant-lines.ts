/** Lines of the bench as it is meant: `meant unchanged` where that is how it stands, else one line for each board, part and wire. */
import type { Outcome } from '../../../shared/outcome.ts';
import type { Plan } from '../../../shared/plan.ts';
import { sameValue } from '../../../shared/same-value.ts';
import { wiringOf } from '../../document/meant.ts';
import { choice, type Fields, needed, type Said, value } from './clauses.ts';
import { type LineKind, lineKind, type PlanDraft } from './line-kind.ts';

/** The bench as it is meant, as a plan whose lists the lines of boards, parts and wires fill. */
function within(plan: Plan): Plan {
  plan.meant ??= { boards: [], parts: [], wires: [] };
  return { ...plan, ...plan.meant };
}

const isUnchanged = (plan: Plan): boolean => sameValue(plan.meant, wiringOf(plan));
const isNothing = ({ meant }: Plan): boolean => meant !== undefined && Object.values(meant).every((list) => list.length === 0);

/** The same line of the bench as it is meant. */
export const meantKind = (kind: LineKind): LineKind => ({
  ...kind,
  words: `meant ${kind.words}`,
  example: `meant ${kind.example}`,
  path: (plan, id) => `meant/${kind.path(within(plan), id)}`,
  put: (said: Said<Fields>, draft: PlanDraft, id: string, name: string): Outcome<unknown> | undefined =>
    kind.put(said, { ...draft, plan: within(draft.plan) }, id, name),
  lines: (plan) =>
    plan.meant && !isUnchanged(plan)
      ? kind.lines({ ...plan, ...plan.meant }).map((line) => ({ ...line, kind: `meant ${line.kind ?? kind.words}` }))
      : [],
});

/** All of it in one word. What is meant unchanged is copied once all lines are read. */
export const MEANT_LINE = lineKind({
  words: 'meant',
  example: 'meant unchanged',
  fields: { what: needed(value(choice<string>('unchanged', 'empty'))) },
  once: true,
  path: () => 'meant',
  put({ what }, draft) {
    if (what === 'unchanged') draft.meantUnchanged = true;
    else within(draft.plan);
    return undefined;
  },
  lines: (plan) =>
    plan.meant && isUnchanged(plan) ? [{ said: { what: 'unchanged' } }] : isNothing(plan) ? [{ said: { what: 'empty' } }] : [],
});
