/** Whether a plan's wanted table is one: as many rows as its inputs make, a mask of free bits for each or none, and names that tell its columns apart. */

import { isPlainName } from './column-name.ts';
import { grouped } from './grouped.ts';
import { done, failed, type Outcome } from './outcome.ts';
import type { Plan, PlanWanted } from './plan.ts';

/** The plan, or what of its table does not fit together. A table with nothing in it is none, and fits. */
export function checkTable(plan: Plan, { inputs, outputs, rows, dontCare: free }: PlanWanted): Outcome<Plan> {
  if (inputs.length === 0 && outputs.length === 0 && rows.length === 0 && !free?.length) return done(plan);
  for (const [side, lines] of Object.entries({ inputs, outputs }))
    if (lines.length === 0)
      return failed(
        'table/no-columns',
        `wanted/${side}`,
        `wanted/${side} is a list of 0: name at least one, or take the whole table "wanted" out.`,
      );
  const names = new Map<string, string>();
  for (const [side, lines] of Object.entries({ inputs, outputs }))
    for (const [i, { name }] of lines.entries()) {
      const at = `wanted/${side}/${i}/name`;
      const is = `${at} is ${JSON.stringify(name)}`;
      const other = names.get(name);
      if (other) return failed('table/name-taken', at, `${is}, as ${other} is: give one of the two another name.`);
      if (!isPlainName(name)) return failed('table/bad-name', at, `${is}: leave out quotation marks, tabs, and spaces at its edges.`);
      names.set(name, at);
    }
  const count = 2 ** inputs.length;
  if (rows.length !== count)
    return failed(
      'table/wrong-row-count',
      'wanted/rows',
      `wanted/rows is a list of ${grouped(rows.length)}, and ${inputs.length} ${inputs.length === 1 ? 'input makes' : 'inputs make'} ${grouped(count)} rows: give ${grouped(count)} values, one a row.`,
    );
  if (free && free.length !== count)
    return failed(
      'table/wrong-row-count',
      'wanted/dontCare',
      `wanted/dontCare is a list of ${grouped(free.length)}, and the table has ${grouped(count)} rows: give ${grouped(count)} masks, one a row, or take the list out.`,
    );
  return done(plan);
}
