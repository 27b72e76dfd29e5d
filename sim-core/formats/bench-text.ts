/**
 * Benches as text that a person types, compares and keeps: one thing a line, first what it is, then its id, its value, and where it is. Whatever a plan
 * holds can be written so.
 *
 *   lampwright-text 2
 *   title Greenhouse guard
 *   board-63 B1 at @0,0 split rails
 *   bench-supply PS1 5 at @0,-10
 *   eeprom-2kx8 U1 at d12 rotated
 *   resistor R1 4k7 from a30 to -a25 called "pull-down"
 *   dip-switch S1 at e2 with poles 2 named hot damp
 *   wire W1 red from PS1.+ to +j1
 *   memory U1 000 FF00C3
 *   switch S1 set 10
 *   meter M1 volts at a12 against b3
 *   wanted input hot at U1.A0
 *   proof 2026-01-31 by "A. Name" rows 4 fingerprint 9f86d081884c7d65
 *   meant unchanged
 *   meant wire W1 red from PS1.+ to +j1
 *   note what a person wants to say
 */
import type { FailureCode } from '../../shared/failure-codes.ts';
import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import schema from '../../shared/plan.schema.json' with { type: 'json' };
import type { Plan } from '../../shared/plan.ts';
import { upgradePlan } from '../../shared/upgrade-plan.ts';
import { asMeant } from '../document/meant.ts';
import { capitalised } from '../units/text-list.ts';
import { record, writeClauses } from './text/clauses.ts';
import type { PlanDraft } from './text/line-kind.ts';
import { LINE_SECTIONS, readLine } from './text/lines.ts';
import { isOldText, oldLines } from './text-1/old-lines.ts';

/** What is amiss in one line. */
export interface LineProblem {
  readonly code: FailureCode;
  /** from 1 */
  readonly line: number;
  readonly says: string;
}

export interface ReadBench {
  /** what could be read */
  readonly plan: Plan;
  /** every line that could not, in their order; no more than 500 */
  readonly problems: readonly LineProblem[];
  /** the line on which a place of the plan, such as `parts/3/at`, was written */
  lineOf(path: string): number | undefined;
}

const newPlan = (): Plan => ({
  format: 'lampwright-plan',
  version: 2,
  title: 'A bench',
  boards: [],
  parts: [],
  wires: [],
  memories: record(),
  meters: [],
  notes: [],
  switches: record(),
});

/** A text with so many lines that cannot be read is another text, and its other lines are left alone. */
const MOST_PROBLEMS = 500;
/** A line of version 1 may hold all bytes of a memory [characters]. */
const LONGEST_LINE = 500_000;
/** More than all lists of a plan take together. */
const MOST_THINGS = 10_000;

/** Reads all lines, also past those that cannot be read. A text without a first line is of the newest version. */
export function scanBenchText(text: string): ReadBench {
  const draft: PlanDraft = { plan: newPlan(), line: 0, lines: new Map() };
  const problems: LineProblem[] = [];
  const lines = text.split(/\r\n|\r|\n/);
  const old = isOldText(lines);
  const newest = old ? oldLines() : (line: string) => [line];
  for (const [i, typed] of lines.entries()) {
    draft.line = i + 1;
    const says = tooMuch(typed, draft.plan);
    if (says !== undefined) problems.push({ code: 'text/too-long', line: i + 1, says });
    if (says !== undefined || problems.length === MOST_PROBLEMS) break;
    for (const line of newest(typed)) {
      const read = readLine(line, draft);
      // rows that a refused line would have brought are missed by the next one
      const follows = !read.ok && read.failure.code === 'text/wrong-row' && problems.length > 0;
      if (!read.ok && !follows) problems.push({ code: read.failure.code, line: i + 1, says: capitalised(read.failure.says) });
    }
  }
  const { plan: written, meantUnchanged } = draft;
  const plan = tidy(meantUnchanged ? asMeant(written) : written, schema as Schema) as Plan;
  return {
    plan: old ? (upgradePlan({ ...plan, version: 1 }) as unknown as Plan) : plan,
    problems,
    lineOf: (path) => lineOf(path, draft.lines),
  };
}

/** Why the text is not read on at this line; undefined: it is. */
function tooMuch(line: string, { boards, parts, wires, meters, notes }: Plan): string | undefined {
  if (line.length > LONGEST_LINE) return `The line has ${grouped(line.length)} characters, and ${grouped(LONGEST_LINE)} fit. Split it.`;
  const things = [boards, parts, wires, meters, notes].reduce((count, list) => count + list.length, 0);
  if (things <= MOST_THINGS) return undefined;
  const { parts: most, wires: mostWires } = schema.properties;
  return `More than ${grouped(MOST_THINGS)} things come before this line; a bench has room for ${grouped(most.maxItems)} parts and ${grouped(mostWires.maxItems)} wires. Leave some out.`;
}

interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly patternProperties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema | readonly Schema[];
}

/** Fields in the order of the plan's schema, whatever the order of the lines, and none that is undefined. */
function tidy(value: unknown, schema: Schema | undefined): unknown {
  if (Array.isArray(value)) return value.map((v) => tidy(v, schema?.items as Schema | undefined));
  if (typeof value !== 'object' || value === null) return value;
  const fields = new Map(Object.entries(value));
  const [any] = Object.values(schema?.patternProperties ?? {});
  const names = schema?.properties ? Object.keys(schema.properties) : [...fields.keys()];
  return Object.fromEntries(
    names.filter((n) => fields.get(n) !== undefined).map((n) => [n, tidy(fields.get(n), schema?.properties?.[n] ?? any)]),
  );
}

/** 'parts/3/params/ohms' is written where 'parts/3' is. */
function lineOf(path: string, lines: ReadonlyMap<string, number>): number | undefined {
  for (let at = path; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('/')))) {
    const line = lines.get(at);
    if (line !== undefined) return line;
  }
  return undefined;
}

/**
 * Reads a whole text, or names the first line that cannot be. `check` is asked whether what was read can be a plan, and its refusal is put on the line
 * that it speaks of.
 * Fails with `text/…`. What `check` fails with is passed on.
 */
export function readBenchText(text: string, check: (plan: Plan) => Outcome<unknown> = done): Outcome<Plan> {
  const { plan, problems, lineOf } = scanBenchText(text);
  const [first] = problems;
  if (first) return failed(first.code, `line ${first.line}`, `Line ${first.line}: ${first.says}`);
  const checked = check(plan);
  if (checked.ok) return done(plan);
  const line = lineOf(checked.failure.at);
  return line === undefined ? checked : failed(checked.failure.code, `line ${line}`, `Line ${line}: ${checked.failure.says}`);
}

/** A plan in the text notation; reading it back gives the same plan. What has not changed is written as before, so that two versions compare line by line. */
export function writeBenchText(plan: Plan): string {
  const sections = LINE_SECTIONS.map((kinds) =>
    kinds.flatMap((kind) =>
      kind.lines(plan).map((line) => [line.kind ?? kind.words, line.id ?? [], writeClauses(line.said, kind.fields)].flat().join(' ')),
    ),
  );
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

/** A file's name or its beginning says that it is a bench as text, and not the plan's JSON. */
export const isBenchText = (name: string, text: string): boolean => /\.txt$/i.test(name) || /^\s*(lampwright-text|bench-text)\b/.test(text);
