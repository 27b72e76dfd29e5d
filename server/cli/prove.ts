/** `prove PLAN`: every row of the wanted table set by its switches and compared with what the LEDs show; and, if asked, signed in the plan's file. */
import type { Plan, PlanProof } from '../../shared/plan.ts';
import {
  apply,
  asMeant,
  capitalised,
  done,
  failed,
  grouped,
  movedSince,
  type Outcome,
  plain,
  proofHolds,
  proveTable,
  sayCounts,
  sayDisabled,
  sayMoved,
  sayPercent,
  sayRight,
  sayRowOff,
  sayTriedOn,
  setField,
  signedProof,
  type TableProof,
} from '../../sim-core/index.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan, isDemo, writePlan } from './plan-file.ts';

/** Letters that a plan takes in the name of who signed. */
const LONGEST_NAME = 60;

export const PROVE: ShellCommand = {
  name: 'prove',
  means: 'go through every row of the truth table and compare the LEDs with it; exit code 1 unless every row is right',
  takes: 'PLAN',
  options: {
    sign: { value: 'NAME', means: 'if every row is right, write the signed proof into the file; the name may be empty' },
    keep: { means: 'if every row is right, keep the bench in the file as it is meant: why then says what differs from it' },
  },
  run({ words: [file = ''], values: { sign: by }, flags }) {
    const plan = findPlan(file);
    if (!plan.ok) return plan;
    return answer(
      provePlan(plan.value, { by, keep: flags.has('keep') }, file),
      (p) => sayProof(p, plan.value),
      (p) => (p.right === p.rows ? 0 : 1),
    );
  },
};

interface Proved extends TableProof {
  /** written into the file */
  readonly signed?: PlanProof;
  /** the bench is kept as meant, in the file */
  readonly kept?: true;
  /** the plan came with a signed proof, which holds no longer */
  readonly outdated?: PlanProof;
}

interface Asked {
  /** who signs; undefined: no one */
  readonly by: string | undefined;
  readonly keep: boolean;
}

/** file: as it was named; signed, or kept as meant, only if every row is right. */
function provePlan(plan: Plan, { by, keep }: Asked, file: string): Outcome<Proved> {
  if (by !== undefined && by.length > LONGEST_NAME)
    return failed('edit/too-long', '--sign', `The name has ${by.length} letters, and ${LONGEST_NAME} fit. Shorten it.`);
  if ((by !== undefined || keep) && isDemo(file))
    return failed(
      'cli/options-clash',
      keep ? '--keep' : '--sign',
      `${file} is a demonstration, not a file that can be ${keep ? 'kept as meant' : 'signed'}. Save it first: lampwright plan ${file} > ${file}.plan.json`,
    );
  const proof = proveTable(plan);
  if (!proof.ok) return proof;
  const outdated = plan.proof && !proofHolds(plan) ? { outdated: plan.proof } : {};
  if ((by === undefined && !keep) || proof.value.right !== proof.value.rows) return done({ ...proof.value, ...outdated });
  const signed = by === undefined ? undefined : signedProof(plan, { date: today(), by }, proof.value.inputs);
  const bench = keep ? asMeant(plan) : plan;
  const written = writePlan(file, signed ? apply(bench, setField(bench, 'proof', signed)) : bench);
  if (!written.ok) return written;
  return done({ ...proof.value, ...(signed ? { signed } : outdated), ...(keep ? { kept: true as const } : {}) });
}

function today(): string {
  const now = new Date();
  return new Date(now.getTime() - 60_000 * now.getTimezoneOffset()).toISOString().slice(0, 10);
}

/** Rows that differ are named up to so many. */
const NAMED = 10;

function sayProof({ signed, kept, outdated, ...proof }: Proved, plan: Plan): string {
  const { rows, right, notAsked, notWritten, differences, disabled, explained = [], off = [] } = proof;
  const lines = differences.slice(0, NAMED).map((d) => sayRowOff(d, plan));
  const more = rows - right - lines.length;
  const moved = outdated ? movedSince(outdated, plan) : [];
  const since = moved.length > 0 ? ` (${plain(sayMoved(moved, plan))})` : '';
  const old = outdated
    ? [`The signed proof of ${outdated.date} is older than the last change, or than this version${since}. Sign it again.`]
    : [];
  const name = signed ? [`Signed${signed.by ? ` by ${signed.by}` : ''} on ${signed.date}, in the file.`] : [];
  return [
    `${sayRight(right - notAsked, rows - notAsked)}: ${sayPercent(right - notAsked, rows - notAsked)}.`,
    ...(notAsked + notWritten > 0 ? [`${sayCounts(proof)}.`] : []),
    ...(off.length > 0 ? [sayTriedOn(off)] : []),
    ...(disabled.length > 0 ? [`${capitalised(plain(sayDisabled(disabled, plan)))}. Set it for reading, and prove again.`] : []),
    ...explained,
    ...lines,
    ...(more > 0 ? [`and ${grouped(more)} more ${more === 1 ? 'row' : 'rows'}`] : []),
    ...name,
    ...(kept ? ['Kept as meant, in the file.'] : []),
    ...old,
  ].join('\n');
}
