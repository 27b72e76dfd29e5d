/** The wanted table by name: one of so many inputs and outputs in a single act. */
import { blankTable, failed, settingWanted } from '../../sim-core/index.ts';
import { pinChoice } from '../panel/table/pins.ts';
import type { Command } from './command.ts';
import { said } from './line.ts';
import { benchOf } from './name-lookup.ts';

const count = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;

const newTable: Command = {
  name: 'new table',
  synonyms: ['start table', 'blank table', 'table of'],
  group: 'Building',
  means: 'begin a truth table with so many inputs and outputs',
  example: 'new table 4 inputs 2 outputs',
  takes: [{ shown: 'INPUTS OUTPUTS', many: 'text' }],
  run([text = ''], context) {
    const bench = benchOf(context);
    if (!bench.ok) return bench;
    const [inputs, outputs = '1'] = text.match(/\d+/g) ?? [];
    if (inputs === undefined)
      return failed('command/bad-word', text, `"${text}" names no number of inputs. Write for example: new table 4 inputs 2 outputs`);
    const wanted = blankTable(Number(inputs), Number(outputs), pinChoice(bench.value));
    if (!wanted.ok) return wanted;
    const refused = context.session.edit(settingWanted(bench.value.plan.wanted, wanted.value));
    if (refused) return { ok: false, failure: refused };
    context.showPage({ page: 'table' });
    return said(`Table of ${count(Number(inputs), 'input')} and ${count(Number(outputs), 'output')}. Undo brings back what was there.`);
  },
};

export const TABLE_COMMANDS: readonly Command[] = [newTable];
