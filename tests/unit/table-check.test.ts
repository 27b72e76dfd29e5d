/** The check looks at the plan's table too: rows that are wrong are a fault, a memory that a button is to write is not, and nothing more is said than was tried. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { findingsOf } from '../../sim-core/findings/ask-rule.ts';
import { rowsWrong } from '../../sim-core/findings/rules/table/rows-wrong.ts';
import { tryTable } from '../../sim-core/findings/table-check.ts';
import { dryRun, plain, proveTable, sayFinding } from '../../sim-core/index.ts';
import { buildCircuit } from '../../sim-core/run/circuit/circuit.ts';
import { allTurns } from '../../sim-core/run/slices.ts';
import { diagnosisBenches } from '../support/diagnosis-benches.ts';

const ABOUT = /^(table\/|memory\/not-as-wanted)/;
function said(plan: Plan): (readonly [string, string])[] {
  const found = dryRun(plan);
  if (!found.ok) throw new Error(found.failure.says);
  return found.value.flatMap((f) => (ABOUT.test(f.code) ? [[f.severity, plain(sayFinding(f, plan))] as const] : []));
}
const greenhouse = demoPlan('greenhouse')!;
const led = (label: string) => greenhouse.parts.find((p) => p.label === label)!.id;
const without = (plan: Plan, id: string): Plan => ({
  ...plan,
  parts: plan.parts.filter((p) => p.id !== id),
  wires: plan.wires.filter((w) => w.id !== id),
});
const built = (name: string): Plan => diagnosisBenches().find((b) => b.name === name)!.plan;

describe('the check of a bench with a table', () => {
  test('says nothing of the table where every row is right', () => {
    expect(said(greenhouse)).toEqual([]);
    expect(said(built('buffered 11'))).toEqual([]);
  });

  test('is a fault where the LEDs show other rows, though every byte is right', () => {
    const turned: Plan = {
      ...greenhouse,
      parts: greenhouse.parts.map((p) => (p.id === led('vent') ? { ...p, at: p.to!, to: p.at! } : p)),
    };
    const proof = proveTable(turned);
    const wrong = proof.ok ? proof.value.rows - proof.value.right : 0;
    expect(wrong).toBeGreaterThan(1);
    const [[severity, says] = ['', ''], ...more] = said(turned);
    expect(more).toEqual([]);
    expect(severity).toBe('fault');
    expect(says).toMatch(
      new RegExp(
        `^${wrong} of 32 rows of the table are wrong: first row \\d+ \\(.*\\), where LED\\d \\(vent\\) should be lit and is dark\\. Ask why at LED\\d \\(vent\\)\\.$`,
      ),
    );
  });

  test('says it of the memory alone where its bytes are wrong', () => {
    const plan = demoPlan('greenhouse-dark-heater')!;
    expect(said(plan).map(([severity, says]) => [severity, says.replace(/:.*/, '')])).toEqual([
      ['fault', 'Memory U1 differs in 1 of 32 rows of the table, at its pin 13 (D3)'],
    ]);
  });

  test('an erased memory that a button writes is not yet written, which is no fault; one that none writes is', () => {
    const blank = demoPlan('greenhouse-blank')!;
    expect(said(blank)).toEqual([
      ['suggestion', expect.stringMatching(/^Memory U1 is not yet written: it is blank and differs in 32 of 32 rows/)],
    ]);
    const programmed = built('buffered 6');
    expect(said({ ...programmed, memories: {} })).toEqual([
      ['fault', expect.stringMatching(/^Memory U1 is not written: it is blank and differs in \d+ of 64 rows/)],
    ]);
  });

  test('names an output that no LED shows', () => {
    const [[severity, says] = ['', '']] = said(without(greenhouse, led('fan')));
    expect(severity).toBe('fault');
    expect(says).toContain('where no LED shows fan. Give an LED the name of the output.');
  });

  test('a table whose rows no switch sets is not called right or wrong', () => {
    const wires = greenhouse.parts.filter((p) => p.kind !== 'dip-switch');
    expect(said({ ...greenhouse, parts: wires })).toContainEqual([
      'suggestion',
      expect.stringMatching(/^No row of the table was tried\. No/),
    ]);
  });
});

test('of a table that is tried in part no more is said than was tried', () => {
  const plan = built('direct 5');
  const broken: Plan = { ...plan, parts: plan.parts.filter((p) => p.label !== 'out 0') };
  const circuit = buildCircuit(broken);
  if (!circuit.ok) throw new Error(circuit.failure.says);
  const trial = allTurns(tryTable(circuit.value, broken));
  if (!trial || 'failure' in trial) throw new Error('it has a table');
  expect([trial.tried, trial.rows]).toEqual([32, 32]);
  if (rowsWrong.reads !== 'table') throw new Error('this rule reads the table');
  const part = { ...trial, tried: 24, rows: 4096, proof: { ...trial.proof, right: 0, notAsked: 0, notWritten: 0 } };
  const [found] = findingsOf(rowsWrong, rowsWrong.look(part));
  expect(found && plain(sayFinding(found, broken))).toMatch(
    /^24 of 24 rows of the table are wrong \(only these of its 4096 were tried\): first row/,
  );
});
