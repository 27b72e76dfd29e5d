/** `prove PLAN`: every row of the wanted table set by its switches and compared with what the LEDs show; and, if asked, signed in the plan's file. */
import { writeFileSync } from 'node:fs';
import type { Plan, PlanProof } from '../../shared/plan.ts';
import { printPlan } from '../../shared/print-plan.ts';
import {
  apply,
  capitalised,
  done,
  failed,
  grouped,
  isBenchText,
  movedSince,
  type Outcome,
  plain,
  proofHolds,
  proveTable,
  sayDisabled,
  sayMoved,
  sayPercent,
  sayRight,
  sayRowOff,
  setProof,
  signedProof,
  type TableProof,
  writeBenchText,
} from '../../sim-core/index.ts';
import { isDemo, planText } from './find-plan.ts';

export const PROVE_SWITCHES = ['--sign'];

export interface Proved extends TableProof {
  /** written into the file */
  readonly signed?: PlanProof;
  /** the plan came with a signed proof, which holds no longer */
  readonly outdated?: PlanProof;
}

/** words: nothing, or --sign and a name, which may be empty. file: as it was named; signed only if every row is right. */
export function provePlan(plan: Plan, words: readonly string[], file: string): Outcome<Proved> {
  const [sign, by, more] = words;
  if (sign !== undefined && sign !== '--sign') return failed(sign, `prove takes a plan, and --sign with a name; "${sign}" is too much.`);
  if (sign && (by === undefined || more !== undefined))
    return failed(sign, '--sign takes one name; write it after it, in quotes if it is of several words.');
  if (by !== undefined && by.length > 60)
    return failed('--sign', `The name has ${by.length} letters, and there is room for 60. Choose a shorter one.`);
  if (sign && isDemo(file))
    return failed(file, `${file} is a demonstration and no file that could be signed. Save it first: plan ${file} > ${file}.plan.json`);
  const proof = proveTable(plan);
  if (!proof.ok) return proof;
  const outdated = plan.proof && !proofHolds(plan) ? { outdated: plan.proof } : {};
  if (by === undefined || proof.value.right !== proof.value.rows) return done({ ...proof.value, ...outdated });
  const now = new Date();
  const date = new Date(now.getTime() - 60_000 * now.getTimezoneOffset()).toISOString().slice(0, 10);
  const signed = signedProof(plan, { date, by }, proof.value.inputs);
  const after = apply(plan, setProof(plan, signed));
  try {
    writeFileSync(file, isBenchText(file, planText(file)) ? writeBenchText(after) : printPlan(after));
  } catch (e) {
    return failed(file, `${file} cannot be written: ${e instanceof Error ? e.message : String(e)}.`);
  }
  return done({ ...proof.value, signed });
}

/** Rows that differ are named up to so many. */
const NAMED = 10;

export function sayProof({ rows, right, differences, disabled, signed, outdated }: Proved, plan: Plan): string {
  const lines = differences.slice(0, NAMED).map((d) => sayRowOff(d, plan));
  const more = rows - right - lines.length;
  const moved = outdated ? movedSince(outdated, plan) : [];
  const since = moved.length > 0 ? ` (${plain(sayMoved(moved, plan))})` : '';
  const old = outdated ? [`The signed proof of ${outdated.date} was made before the last change${since}: sign it again.`] : [];
  const name = signed ? [`Signed${signed.by ? ` by ${signed.by}` : ''} on ${signed.date}, in the plan's own file.`] : [];
  return [
    `${sayRight(right, rows)}: ${sayPercent(right, rows)}.`,
    ...(disabled.length > 0 ? [`${capitalised(plain(sayDisabled(disabled, plan)))}. Set it for reading, and prove again.`] : []),
    ...lines,
    ...(more > 0 ? [`and ${grouped(more)} more ${more === 1 ? 'row' : 'rows'}`] : []),
    ...name,
    ...old,
  ].join('\n');
}
