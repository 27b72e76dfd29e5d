/** A number table as rules for the columns that there are: missing outputs are added, and what was a rule before gives way. */
import type { PlanWanted } from '../../../shared/plan.ts';
import {
  addOutput,
  failed,
  type NumberTable,
  type Outcome,
  overriddenRules,
  quotedName,
  withWantedRules,
} from '../../../sim-core/index.ts';
import { freeName, freePin, type PinChoice } from './pins.ts';

/** The table takes all inputs as one number, and its bits go to the first outputs, the least significant to the first. */
export function withNumberTable(wanted: PlanWanted, table: NumberTable, pins: PinChoice): Outcome<PlanWanted> {
  const names = table.outputs(wanted.inputs.length);
  let now = wanted;
  while (now.outputs.length < names.length) {
    const pin = freePin('outputs', now, pins);
    if (pin === undefined)
      return failed(
        'table/does-not-fit',
        'outputs',
        `"${table.title}" needs ${names.length} outputs, and the bench's memories have ${pins.outputs.length} data pins. Place one more memory on the bench, or remove inputs.`,
      );
    const asked = names[names.length - 1 - now.outputs.length] ?? '';
    const taken = [...now.inputs, ...now.outputs].some((l) => l.name === asked);
    const added = addOutput(now, { name: taken ? freeName('outputs', now, pin) : asked, pin });
    if (!added.ok) return added;
    now = added.value;
  }
  const group = (lines: readonly { readonly name: string }[]) =>
    `{${lines
      .map((l) => quotedName(l.name))
      .toReversed()
      .join(', ')}}`;
  const targets = now.outputs.slice(0, names.length);
  const [only] = targets;
  const rule = table.rule(group(now.inputs), targets.length === 1 && only ? quotedName(only.name) : group(targets));
  const others = overriddenRules(
    now.expressions ?? [],
    now.outputs.map((o) => o.name),
    targets.map((o) => o.name),
  );
  return withWantedRules(now, [...others, ...rule.split('\n')].join('\n'));
}
