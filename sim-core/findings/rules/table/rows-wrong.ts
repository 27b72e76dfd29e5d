/** Rows of the plan's truth table that the bench does not show. Rows that are wrong by the memory's bytes alone, and rows that are not written yet, are told of the memory. */

import { grouped } from '../../../../shared/grouped.ts';
import { listed, type Ref, say, type Wording } from '../../../sentence/wording.ts';
import type { RuleExamples } from '../../example-benches.ts';
import { ledsOfOutput } from '../../led-of-output.ts';
import { defineRule } from '../../rule.ts';
import type { TriedTable } from '../../table-check.ts';

/** More LEDs than these are counted, not named. */
const MOST_NAMED = 3;

interface Data {
  /** of the first row that is wrong: LEDs that should be lit and are not, should be dark and are not, are undefined; outputs that no LED shows, by name */
  readonly dark: readonly Ref[];
  readonly lit: readonly Ref[];
  readonly unknown: readonly Ref[];
  readonly missing: readonly string[];
  readonly row: number;
  /** names of its inputs that are 1 */
  readonly inputs: readonly string[];
  /** rows that are wrong, of those that were tried and ask for something, of all */
  readonly wrong: number;
  readonly tried: number;
  readonly of: number;
  /** poles that keep the outputs disabled: the bench is not set for reading */
  readonly disabled: readonly Ref[];
}

export const rowsWrong = defineRule<Data>({
  code: 'table/rows-wrong',
  severity: 'fault',
  // a bench that is set for writing shows no row, and is no fault
  severityOf: ({ disabled }) => (disabled.length > 0 ? 'suggestion' : 'fault'),
  reads: 'table',
  look: (trial) => ('failure' in trial ? [] : wrongRows(trial)),
  message: ({ dark, lit, unknown, missing, row, inputs, wrong, tried, of, disabled }) => {
    if (disabled.length > 0)
      return say`The bench does not show the table: ${listed(disabled)} ${disabled.length > 1 ? 'stand' : 'stands'} so that the memory’s outputs are high-impedance (Z). Set it for reading.`;
    const off = [
      ...some(dark, 'should be lit and is dark', 'should be lit and are dark'),
      ...some(lit, 'should be dark and is lit', 'should be dark and are lit'),
      ...some(unknown, 'is undefined (X)', 'are undefined (X)'),
      ...(missing.length > 0 ? [say`no LED shows ${missing.join(', ')}`] : []),
    ];
    const count = `${grouped(wrong)} of ${grouped(tried)} rows`;
    const whole = tried < of ? ` (only these of its ${grouped(of)} were tried)` : '';
    const first = say`${wrong > 1 ? 'first ' : ''}row ${row} (${inputs.join(', ') || 'no input'}), where ${joined(off)}`;
    const [led] = [...dark, ...lit, ...unknown];
    const cure = led ? say`Ask why at ${led}` : 'Give an LED the name of the output';
    return say`${count} of the table ${wrong > 1 ? 'are' : 'is'} wrong${whole}: ${first}. ${cure}.`;
  },
});

const some = (leds: readonly Ref[], one: string, several: string): Wording[] =>
  leds.length === 0
    ? []
    : leds.length > MOST_NAMED
      ? [say`${leds[0] ?? ''} and ${leds.length - 1} more LEDs ${several}`]
      : [say`${listed(leds)} ${leds.length > 1 ? several : one}`];

const joined = (parts: readonly Wording[]): Wording => parts.flatMap((p, i): Wording => (i === 0 ? p : [', ', ...p]));

function wrongRows(trial: TriedTable): Data[] {
  const { circuit, wanted, proof, tried, rows } = trial;
  const { right, notAsked, notWritten, differences, disabled } = proof;
  const wrong = tried - right - notWritten;
  const unstored = differences.filter((d) => !trial.isStored(d));
  const [first] = unstored.length > 0 ? unstored : differences;
  if (wrong <= 0 || !first || (unstored.length === 0 && wrong <= trial.storedRows)) return [];
  const shown = (mask: number) =>
    wanted.outputs.flatMap((output, bit) =>
      (mask >> bit) & 1 ? [{ output, leds: ledsOfOutput(circuit.plan, output).filter((id) => circuit.leds.some((l) => l.id === id)) }] : [],
    );
  const refs = (mask: number): Ref[] => shown(mask).flatMap(({ leds }) => leds.map((id): Ref => ({ kind: 'led', id })));
  return [
    {
      dark: refs(first.wrong & first.wanted),
      lit: refs(first.wrong & ~first.wanted),
      unknown: refs(first.unknown),
      missing: shown(first.unknown | first.wrong).flatMap(({ output, leds }) => (leds.length === 0 ? [output.name] : [])),
      row: first.row,
      inputs: wanted.inputs.filter((_, bit) => (first.row >> bit) & 1).map((i) => i.name),
      wrong,
      tried: tried - notAsked,
      of: rows - notAsked,
      disabled: disabled.map(({ part, pole }): Ref => ({ kind: 'pole', id: `${part}.${pole + 1}` })),
    },
  ];
}

export const rowsWrongExamples = (): RuleExamples => ({
  bad: { none: 'The text notation has no truth tables; tests/unit/table-check.test.ts gives benches one.' },
  good: { bench: 'board-63 B1' },
});
