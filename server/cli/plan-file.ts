/** Plans in and out: a file as JSON or in the text notation, or one of the demonstrations by its id. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import { textOfFile } from '../../shared/file-text.ts';
import { didYouMean, nearestNames } from '../../shared/misspelling.ts';
import type { Plan } from '../../shared/plan.ts';
import { printPlan } from '../../shared/print-plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { done, failed, isBenchText, type Outcome, readBenchText, writeBenchText } from '../../sim-core/index.ts';

/** A demonstration's id comes before a file of that name. */
export const isDemo = (name: string): boolean => demoPlan(name) !== undefined;

/** `ids`: what else the name could have been, with what that is called. */
export function readFile(name: string, what: string, ids: readonly string[]): Outcome<string> {
  if (!existsSync(name)) {
    const near = didYouMean(nearestNames(name, ids)) || ` The ${what}s are ${ids.join(', ')}.`;
    return failed('file/not-found', name, `There is no file ${name}, and no ${what} of that name.${near}`);
  }
  const bytes = readBytes(name);
  return bytes.ok ? textOfFile(bytes.value, name) : bytes;
}

/** A file as it is. */
export function readBytes(file: string): Outcome<Buffer> {
  if (!existsSync(file)) return failed('file/not-found', file, `There is no file ${file}.`);
  try {
    return done(readFileSync(file));
  } catch (e) {
    return failed('file/unreadable', file, `${file} cannot be read: ${reason(e)}.`);
  }
}

const reason = (e: unknown) => (e instanceof Error ? e.message : String(e));

export function findPlan(name: string): Outcome<Plan> {
  const demo = demoPlan(name);
  if (demo) return done(demo);
  const text = readFile(
    name,
    'demonstration',
    DEMO_PLANS.map((d) => d.id),
  );
  if (!text.ok) return text;
  const plan = isBenchText(name, text.value) ? readBenchText(text.value, (p) => readPlan(JSON.stringify(p))) : readPlan(text.value);
  return plan.ok ? plan : failed(plan.failure.code, `${name}, ${plan.failure.at}`, `${name}: ${plan.failure.says}`);
}

/** In the text notation where the file's name, or what stands in it, says so; else as JSON. */
export function writePlan(file: string, plan: Plan): Outcome<void> {
  try {
    const before = existsSync(file) ? readFileSync(file, 'utf8') : '';
    writeFileSync(file, isBenchText(file, before) ? writeBenchText(plan) : printPlan(plan));
    return done(undefined);
  } catch (e) {
    return failed('file/unwritable', file, `${file} cannot be written: ${reason(e)}.`);
  }
}
