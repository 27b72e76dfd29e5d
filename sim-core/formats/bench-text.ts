/**
 * Benches as text that a person types, compares and keeps: one thing a line, its id first. Whatever a plan holds can be written so.
 *
 *   bench-text 1
 *   title Greenhouse watch
 *   wiring real
 *   outputs guaranteed
 *   B1 board-63 @0,0 split
 *   PS1 bench-supply @0,-10 volts=5
 *   U1 eeprom-2kx8 d12 turned
 *   R1 resistor a30 -a30 ohms=4k7 "vent's"
 *   W1 wire PS1.+ +j1 red
 *   U1 memory 000=FF00C3
 *   wanted input hot U1.A0
 *   proof 2026-01-31 rows=32 of=9f… by="A. Name"
 *   M1 meter a12 against b3
 *   S1 hands 10110
 *   note what a person wants to say
 */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { capitalised } from '../units/text-list.ts';
import { finishPlan, newSheet, readPlanLine } from './bench-lines.ts';

/** What is amiss in one line. */
export interface LineProblem {
  /** from 1 */
  readonly line: number;
  readonly says: string;
}

export interface ReadBench {
  /** what could be read */
  readonly plan: Plan;
  /** every line that could not, in their order */
  readonly problems: readonly LineProblem[];
  /** the line on which a place of the plan, such as `parts/3/at`, was written */
  lineOf(path: string): number | undefined;
}

/** Reads all lines, also past those that cannot be read. */
export function scanBenchText(text: string): ReadBench {
  const sheet = newSheet();
  const problems: LineProblem[] = [];
  for (const [i, line] of text.split(/\r\n|\r|\n/).entries()) {
    sheet.line = i + 1;
    const problem = readPlanLine(line, sheet);
    if (problem !== undefined) problems.push({ line: i + 1, says: capitalised(problem) });
  }
  return { plan: finishPlan(sheet), problems, lineOf: (path) => lineOf(path, sheet.lines) };
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
  if (first) return failed('text/bad-line', `line ${first.line}`, `Line ${first.line}: ${first.says}`);
  const checked = check(plan);
  if (checked.ok) return done(plan);
  const line = lineOf(checked.failure.at);
  return line === undefined ? checked : failed(checked.failure.code, `line ${line}`, `Line ${line}: ${checked.failure.says}`);
}

/** A file's name or its beginning says that it is a bench as text, and not the plan's JSON. */
export const isBenchText = (name: string, text: string): boolean => /\.txt$/i.test(name) || /^\s*bench-text\b/.test(text);
