/** One bench, one story: the proof, the check, the repair search, why, the panel and the sheet say the same of benches with every kind of mistake. */
import { expect, test } from 'vitest';
import { wholeCheck } from '../../client/worker/whole-check.ts';
import { checkPlan } from '../../server/check/check-plan.ts';
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { atRow } from '../../sim-core/faults/shown-rows.ts';
import { goalOf } from '../../sim-core/findings/table-goal.ts';
import {
  type BenchCheck,
  checkBench,
  findingsNow,
  ledsOfOutput,
  plain,
  proofHolds,
  proveTable,
  sheetFor,
  signedProof,
  simulate,
  whyLed,
} from '../../sim-core/index.ts';
import { EditTrial, isWrong, poweredBench } from '../../sim-core/repair/edit-trial.ts';
import { plantedFault } from '../support/planted-fault.ts';

const FULL = process.env.TRIALS === 'full';
const first = Number(process.env.FROM ?? 1);
const count = Number(process.env.COUNT ?? (FULL ? 4 : 1));
const kinds = FAULT_KINDS.filter((_, i) => FULL || i % 8 === first % 8);

/** Rows that are told one by one by a proof. */
const TOLD = 64;

/** What the panel says in other words than the command, or of this moment alone; and what a sheet calls proven that is not. */
function besideCheck(bench: Plan, plan: Plan, check: BenchCheck, wrong: number): string[] {
  const [page, command, live] = [wholeCheck(plan), checkPlan(plan), simulate(plan, { still: true, bounce: false })];
  if (!page.ok || !command.ok || !live.ok) return ['the panel cannot check what the command checks'];
  const said: string[] = [];
  const texts = page.value.map((f) => `${f.severity}: ${plain(f.says)}`);
  const commands = command.value.findings.map((f) => `${f.severity}: ${f.says}`);
  if (texts.join() !== commands.join()) said.push(`the panel says ${texts.filter((t) => !commands.includes(t)).join()}`);
  const keys = new Set(check.findings.map((f) => f.key));
  const isOn = live.value.readings().supplies.every((s) => s.on);
  for (const f of isOn ? findingsNow(live.value) : [])
    if (f.severity !== 'suggestion' && !keys.has(f.key)) said.push(`the panel finds ${f.key} at this moment, the check does not`);
  const proof = proveTable(bench);
  const signed = proof.ok && { ...plan, proof: signedProof(bench, { date: '2026-01-31', by: '' }, proof.value.inputs) };
  if (signed && wrong > 0 && proofHolds(signed)) said.push(`the sheet would call ${wrong} wrong rows proven`);
  if (!sheetFor(plan).ok) said.push('no sheet can be made');
  return said;
}

/** What two of them say that cannot both be so. bench: without the mistake */
function contradictions(plan: Plan, bench: Plan): string[] {
  const [proof, goal, check] = [proveTable(plan), goalOf(plan), checkBench(plan)];
  const made = simulate(plan, { still: true, bounce: false });
  if (!made.ok || !check.ok) return ['the bench cannot be simulated'];
  if (!proof.ok) return [];
  if (!goal.ok) return [`proven, but the repair says: ${goal.failure.says}`];
  const base = poweredBench(made.value);
  if (!base) return ['the bench cannot be simulated with its supplies on'];
  const { rows, right, notWritten, differences, disabled, inputs } = proof.value;
  const trial = new EditTrial(base, goal.value, Number.POSITIVE_INFINITY);
  const seen = trial.before.filter(isWrong).sort((a, b) => a.row - b.row);
  const said: string[] = [];
  if (seen.length !== rows - right) said.push(`the proof says ${rows - right} rows wrong, the repair ${seen.length}`);
  const [proven, tried] = [differences, seen].map((of) =>
    of
      .slice(0, TOLD)
      .map(({ row, wrong, unknown }) => `${row}: ${wrong} ${unknown}`)
      .join(', '),
  );
  if (proven !== tried) said.push(`the proof says ${proven?.slice(0, 80)}, the repair ${tried?.slice(0, 80)}`);
  const table = check.value.findings.find((f) => f.code === 'table/rows-wrong');
  const stored = check.value.findings.filter((f) => f.code === 'memory/not-as-wanted' || f.code === 'table/not-gone-through');
  const wrong = rows - right - notWritten;
  if (wrong > 0 && !table && stored.length === 0) said.push(`the proof says ${wrong} rows wrong, the check nothing`);
  const counted = Number((table?.data as { readonly wrong?: number } | undefined)?.wrong ?? wrong);
  if (table && counted !== wrong) said.push(`the proof says ${wrong} rows wrong, the check ${counted}`);
  if (table && wrong === 0) said.push('all rows are right, but the check says rows wrong');
  said.push(...besideCheck(bench, plan, check.value, wrong));
  const [off] = differences;
  if (off && disabled.length === 0) {
    const bit = 31 - Math.clz32((off.wrong | off.unknown) & -(off.wrong | off.unknown));
    const output = plan.wanted?.outputs[bit];
    const [led] = output ? ledsOfOutput(plan, output) : [];
    const there = simulate(atRow(base.plan(), inputs, off.row), { still: true, bounce: false });
    if (led && there.ok && there.value.circuit.leds.some((l) => l.id === led)) {
      const answer = whyLed(there.value, led);
      const codes = answer.reasons.map((r) => r.code);
      if (codes.includes('as-wanted')) said.push(`row ${off.row} is wrong at ${led}, and why calls it as the table wants`);
    }
  }
  return said;
}

test('what the proof, the check, the repair and why say of a bench with a mistake can all be so', () => {
  const found: string[] = [];
  let asked = 0;
  for (const kind of kinds)
    for (let seed = first; seed < first + count; seed++) {
      const planted = plantedFault(kind, seed);
      if (!planted) continue;
      asked += 1;

      for (const says of contradictions(planted.plan, planted.bench.plan))
        found.push(`seed ${seed}, ${planted.fault.id} on ${planted.bench.name}: ${says}`);
    }
  if (FULL) console.log(`\nseeds ${first} to ${first + count - 1}: ${asked} benches, ${found.length} contradictions\n${found.join('\n')}`);
  expect(asked).toBeGreaterThan(0);
  expect(found).toEqual([]);
});
