/** `build TABLE`: a bench that does what a truth table says, written into a plan file. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Plan } from '../../shared/plan.ts';
import { printPlan } from '../../shared/print-plan.ts';
import type { DemoTable } from '../../sim-core/index.ts';
import {
  ARRANGEMENTS,
  buildPlan,
  type Choices,
  DEMO_TABLES,
  done,
  failed,
  type Outcome,
  PARTS,
  parseQuantity,
  readTableText,
  requestOfTable,
  type TruthTable,
  tableOfRules,
} from '../../sim-core/index.ts';

const SHOWS = ['leds', 'digit', 'bar', 'loads'] as const;
/** Current in an LED where none is asked for [A]. */
const AMPS = 5e-3;

export const BUILD_USAGE =
  'build TABLE --memory KIND [--show LEDs|digit|bar|loads] [--arrange row|cell|ring] [--amps 5mA] [--by-hand] [--straight] [--active-low NAME,…] [--title TEXT] [--out FILE]';

export interface BuiltFile {
  readonly file: string;
  readonly parts: number;
  readonly wires: number;
  /** its memories hold nothing yet */
  readonly blank: boolean;
}

/** Writes the plan; refuses to write over a file that is there. */
export function buildInto(tableName: string, words: readonly string[]): Outcome<BuiltFile> {
  const table = findTable(tableName);
  if (!table.ok) return table;
  const asked = choicesOf(table.value, words);
  if (!asked.ok) return asked;
  const { out, ...choices } = asked.value;
  const plan = buildPlan(requestOfTable(table.value.table, choices));
  return plan.ok ? write(plan.value, out, choices.byHand === true) : plan;
}

function write(plan: Plan, file: string, blank: boolean): Outcome<BuiltFile> {
  if (existsSync(file)) return failed(file, `${file} is there already, and is not written over. Give another name with --out.`);
  try {
    writeFileSync(file, printPlan(plan));
  } catch (e) {
    return failed(file, `${file} cannot be written: ${e instanceof Error ? e.message : String(e)}.`);
  }
  return done({ file, parts: plan.parts.length, wires: plan.wires.length, blank });
}

export const sayBuilt = ({ file, parts, wires, blank }: BuiltFile): string =>
  `${file} holds the bench: ${parts} parts, ${wires} wires. ${
    blank ? 'Nothing is written in it yet: open it and follow its programming card, then prove it.' : `Prove it with: prove ${file}`
  }`;

interface Found {
  readonly stem: string;
  readonly table: TruthTable;
  readonly demo?: DemoTable;
}

/** A file as a spreadsheet writes it, or one of the demonstration tables by its id. */
function findTable(name: string): Outcome<Found> {
  const demo = DEMO_TABLES.find((d) => d.id === name);
  if (demo) {
    const table = tableOfRules(demo.inputs, demo.outputs, demo.rules);
    return table.ok ? done({ stem: demo.id, table: table.value, demo }) : table;
  }
  if (!existsSync(name))
    return failed(
      name,
      `There is no file ${name}, and no table of that name. The tables here are ${DEMO_TABLES.map((d) => d.id).join(', ')}.`,
    );
  let text: string;
  try {
    text = readFileSync(name, 'utf8');
  } catch (e) {
    return failed(name, `${name} cannot be read: ${e instanceof Error ? e.message : String(e)}.`);
  }
  const table = readTableText(text);
  return table.ok
    ? done({ stem: basename(name).replace(/\.[^.]*$/, ''), table: table.value })
    : failed(`${name}, ${table.failure.at}`, `${name}: ${table.failure.says}`);
}

const MEMORIES = PARTS.filter((p) => p.group === 'memory').map((p) => p.id);

function choicesOf({ stem, table, demo }: Found, words: readonly string[]): Outcome<Choices & { readonly out: string }> {
  const values = new Map<string, string>();
  const flags = new Set<string>();
  for (let i = 0; i < words.length; i++) {
    const name = words[i] ?? '';
    if (name === '--by-hand' || name === '--straight') flags.add(name);
    else if (name.startsWith('--')) {
      const value = words[i + 1];
      if (value === undefined || value.startsWith('--')) return failed(name, `${name} is left open; write its value after it.`);
      values.set(name, value);
      i += 1;
    } else return failed(name, `build takes one table and its choices; "${name}" is too much.`);
  }
  const memory = values.get('--memory');
  if (memory === undefined || !MEMORIES.includes(memory))
    return failed('--memory', `--memory is ${memory ?? 'left open'}; give one of ${MEMORIES.join(', ')}.`);
  const show = SHOWS.find((s) => s === (values.get('--show') ?? 'leds'));
  if (!show) return failed('--show', `--show is ${values.get('--show')}; give one of ${SHOWS.join(', ')}.`);
  const stands = values.get('--arrange') ?? (show === 'leds' ? demo?.arrangement : undefined) ?? 'row';
  const arrangement = ARRANGEMENTS.find((a) => a === stands);
  if (!arrangement) return failed('--arrange', `--arrange is ${stands}; give one of ${ARRANGEMENTS.join(', ')}.`);
  const amps = values.has('--amps') ? parseQuantity(values.get('--amps') ?? '', 'A') : done(AMPS);
  if (!amps.ok) return failed('--amps', `--amps: ${amps.failure.says}`);
  const activeLow = values.get('--active-low')?.split(',') ?? demo?.activeLow ?? [];
  const stranger = activeLow.find((n) => !table.outputs.includes(n));
  if (stranger !== undefined)
    return failed('--active-low', `--active-low names ${stranger}, which is no output. The outputs are ${table.outputs.join(', ')}.`);
  return done({
    title: values.get('--title') ?? demo?.title ?? stem,
    memory,
    show,
    arrangement,
    amps: amps.value,
    byHand: flags.has('--by-hand'),
    buffered: !flags.has('--straight'),
    activeLow,
    ...(demo ? { expressions: demo.rules.split('\n') } : {}),
    out: values.get('--out') ?? `${stem}.plan.json`,
  });
}
