/** Lines made of the names that rules speak of, and the rules with them, as one edit of the wanted table. */
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanWanted } from '../../../shared/plan.ts';
import type { NewNames } from '../../logic/expression/new-names.ts';
import { addInput, addOutput, withWantedRules } from './wanted.ts';

interface LinePins {
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
}

/** Nothing is asked for in it yet, and no rule is written: its lines were only a beginning. */
const isBlank = ({ rows, dontCare, outputs, expressions }: PlanWanted): boolean =>
  !expressions && rows.every((_, i) => dontCare?.[i] === 2 ** outputs.length - 1);

const speaksOf = (text: string, name: string): boolean =>
  new RegExp(`(?<![\\p{L}\\p{N}_])${name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?![\\p{L}\\p{N}_])`, 'u').test(text);

/**
 * The table with these names as further lines, and filled by the rules; of a table in which nothing is asked for yet, the lines that the rules do
 * not speak of give way. Fails with `table/does-not-fit` where there are not enough pins, or with what the rules fail with.
 */
export function withNamesOfRules(wanted: PlanWanted, text: string, names: NewNames, pins: LinePins): Outcome<PlanWanted> {
  const before = isBlank(wanted) ? begun(wanted, text, names) : wanted;
  const more = {
    inputs: freePins(before.inputs, names.inputs, pins.inputs),
    outputs: freePins(before.outputs, names.outputs, pins.outputs),
  };
  for (const side of ['inputs', 'outputs'] as const)
    if (more[side].length < names[side].length)
      return failed(
        'table/does-not-fit',
        side,
        `Of ${pins[side].length} pins for ${side} too few are free for ${names[side].join(', ')}. Remove ${side} that no rule speaks of.`,
      );
  let next =
    before === wanted ? done(wanted) : done(blank([...before.inputs, ...more.inputs], [...before.outputs, ...more.outputs], wanted));
  if (before === wanted) {
    for (const line of more.inputs) if (next.ok) next = addInput(next.value, line);
    for (const line of more.outputs) if (next.ok) next = addOutput(next.value, line);
  }
  return next.ok ? withWantedRules(next.value, text) : next;
}

const freePins = (lines: PlanWanted['inputs'], names: readonly string[], pins: readonly string[]): PlanWanted['inputs'] => {
  const free = pins.filter((p) => !lines.some((l) => l.pin === p));
  return names.flatMap((name, i) => (free[i] === undefined ? [] : [{ name, pin: free[i] }]));
};

/** The lines that stay of a table that was only begun; its outputs stay where the rules name no other. */
const begun = ({ inputs, outputs }: PlanWanted, text: string, names: NewNames): Pick<PlanWanted, 'inputs' | 'outputs'> => ({
  inputs: inputs.filter((l) => speaksOf(text, l.name)),
  outputs: names.outputs.length > 0 ? outputs.filter((l) => speaksOf(text, l.name)) : outputs,
});

function blank(inputs: PlanWanted['inputs'], outputs: PlanWanted['outputs'], wanted: PlanWanted): PlanWanted {
  const rows = Array.from({ length: 2 ** inputs.length }, () => 0);
  return { ...wanted, inputs, outputs, rows, dontCare: rows.map(() => 2 ** outputs.length - 1) };
}
