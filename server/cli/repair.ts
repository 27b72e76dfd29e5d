/** `repair PLAN`: the one edit that makes every row of the table right, the likeliest first. */
import { type Change, done, findRepairs, type Outcome, type Ref, sayRepair, sayRepairsFound } from '../../sim-core/index.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';

export const REPAIR: ShellCommand = {
  name: 'repair',
  means: 'find the one edit that makes every row of the truth table right; exit code 1 if there is none, or nothing is wrong',
  takes: 'PLAN',
  options: {},
  run({ words: [name = ''] }) {
    const plan = findPlan(name);
    if (!plan.ok) return plan;
    const found = findRepairs(plan.value);
    const said: Outcome<Repaired> = found.ok
      ? done({
          wrong: found.value.wrong,
          tried: found.value.tried,
          toWrite: found.value.toWrite,
          repairs: found.value.repairs.map(({ change, things }) => ({ says: sayRepair(change, plan.value), things, change })),
        })
      : found;
    return answer(said, sayRepaired, ({ repairs }) => (repairs.length > 0 ? 0 : 1));
  },
};

interface Repaired {
  /** rows that are wrong now */
  readonly wrong: number;
  readonly tried: number;
  /** memories that are still to be written */
  readonly toWrite: readonly string[];
  readonly repairs: readonly { readonly says: string; readonly things: readonly Ref[]; readonly change: Change }[];
}

function sayRepaired(found: Repaired): string {
  const { wrong, repairs } = found;
  if (wrong === 0 && repairs.length === 0) return 'Every row is right: there is nothing to repair.';
  return [sayRepairsFound(found), ...repairs.map(({ says }, i) => `${i + 1}. ${says}`)].join('\n');
}
