/** `build TABLE`: a bench that does what a truth table says, written into a plan file. */
import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import {
  ARRANGEMENTS,
  buildPlan,
  type Choices,
  DEMO_TABLES,
  type DemoTable,
  done,
  failed,
  type Outcome,
  PARTS,
  parseQuantity,
  readTableFile,
  requestOfTable,
  type TruthTable,
  tableOfRules,
} from '../../sim-core/index.ts';
import { type Arguments, answer, type ShellCommand } from './command.ts';
import { readFile, writePlan } from './plan-file.ts';

/** What shows the outputs, by the word that asks for it. */
const SHOWS = { leds: 'leds', '7-segment': 'digit', 'bar-graph': 'bar', loads: 'loads' } as const satisfies Record<string, Choices['show']>;
/** Current in an LED where none is asked for [A]. */
const AMPS = 5e-3;
const MEMORIES = PARTS.filter((p) => p.group === 'memory').map((p) => p.id);

export const BUILD: ShellCommand = {
  name: 'build',
  means: 'build a bench from a truth table and write its plan',
  takes: 'TABLE',
  options: {
    memory: { value: 'KIND', choices: MEMORIES, means: `one of ${MEMORIES.join(', ')}` },
    show: { value: 'WHAT', choices: Object.keys(SHOWS), means: 'what shows the outputs; leds if not given' },
    arrange: { value: 'HOW', choices: ARRANGEMENTS, means: 'how single LEDs are placed; row if not given' },
    current: { value: 'AMPS', means: 'in each LED or load, such as 2mA; 5mA if not given' },
    'by-hand': { means: 'leave the memory erased and add what writes it by hand' },
    'no-buffer': { means: 'LEDs straight on the data pins of the memory' },
    'active-low': { value: 'NAME,…', means: 'outputs that switch on at 0' },
    title: { value: 'TEXT', means: 'of the bench' },
    out: { value: 'FILE', means: 'where the plan goes: .plan.json, or .plan.txt for the text notation; TABLE.plan.json if not given' },
  },
  run: (given) => answer(buildInto(given), sayBuilt),
};

interface BuiltFile {
  readonly file: string;
  readonly parts: number;
  readonly wires: number;
  /** its memories hold nothing yet */
  readonly blank: boolean;
  readonly remarks: readonly string[];
}

/** Writes the plan; refuses to overwrite a file. */
function buildInto(given: Arguments): Outcome<BuiltFile> {
  const table = findTable(given.words[0] ?? '');
  if (!table.ok) return table;
  const choices = choicesOf(table.value, given);
  if (!choices.ok) return choices;
  const file = given.values.out ?? `${table.value.stem}.plan.json`;
  if (existsSync(file)) return failed('file/exists', file, `${file} exists and is not overwritten. Give another name with --out.`);
  const plan = buildPlan(requestOfTable(table.value.table, choices.value));
  if (!plan.ok) return plan;
  const written = writePlan(file, plan.value);
  const { parts, wires } = plan.value;
  return written.ok
    ? done({ file, parts: parts.length, wires: wires.length, blank: choices.value.byHand === true, remarks: table.value.remarks ?? [] })
    : written;
}

const sayBuilt = ({ file, parts, wires, blank, remarks }: BuiltFile): string =>
  `${remarks.map((r) => `${r}\n`).join('')}${file}: ${parts} parts, ${wires} wires. ${
    blank
      ? 'Its memory is erased: open the bench and follow its programming card, then prove it.'
      : 'Every row of its table is proven on the simulated bench.'
  }`;

interface Found {
  readonly stem: string;
  readonly table: TruthTable;
  /** what should be said of the file */
  readonly remarks?: readonly string[];
  readonly demo?: DemoTable;
}

/** A file as a spreadsheet writes it, or one of the demonstration tables by its id. */
function findTable(name: string): Outcome<Found> {
  const demo = DEMO_TABLES.find((d) => d.id === name);
  if (demo) {
    const table = tableOfRules(demo.inputs, demo.outputs, demo.rules);
    return table.ok ? done({ stem: demo.id, table: table.value, demo }) : table;
  }
  const text = readFile(
    name,
    'table',
    DEMO_TABLES.map((d) => d.id),
  );
  if (!text.ok) return text;
  const table = readTableFile(text.value);
  return table.ok
    ? done({ stem: basename(name).replace(/\.[^.]*$/, ''), ...table.value })
    : failed(table.failure.code, `${name}, ${table.failure.at}`, `${name}: ${table.failure.says}`);
}

function choicesOf({ stem, table, demo }: Found, { values, flags }: Arguments): Outcome<Choices> {
  const { memory } = values;
  if (memory === undefined)
    return failed('command/missing-word', '--memory', `build needs a memory: --memory and one of ${MEMORIES.join(', ')}.`);
  const show = SHOWS[(values.show ?? 'leds') as keyof typeof SHOWS];
  if (values.arrange !== undefined && show !== 'leds')
    return failed(
      'cli/options-clash',
      '--arrange',
      `--arrange is for single LEDs, not for --show ${values.show}. Leave one of the two out.`,
    );
  const wanted = values.arrange ?? (show === 'leds' ? demo?.arrangement : undefined);
  const amps = values.current === undefined ? done(AMPS) : parseQuantity(values.current, 'A');
  if (!amps.ok) return failed(amps.failure.code, '--current', `--current: ${amps.failure.says}`);
  const activeLow = values['active-low']?.split(',') ?? demo?.activeLow ?? [];
  const stranger = activeLow.find((n) => !table.outputs.includes(n));
  if (stranger !== undefined)
    return failed(
      'table/unknown-column',
      '--active-low',
      `--active-low names ${stranger}, which is not an output. The outputs are ${table.outputs.join(', ')}.`,
    );
  return done({
    title: values.title ?? demo?.title ?? stem,
    memory,
    show,
    arrangement: ARRANGEMENTS.find((a) => a === wanted) ?? 'row',
    amps: amps.value,
    byHand: flags.has('by-hand'),
    buffered: !flags.has('no-buffer'),
    activeLow,
    ...(demo ? { expressions: demo.rules.split('\n') } : {}),
  });
}
