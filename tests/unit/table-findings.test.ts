/** The panel's findings look at the table as the check does: with the supply on the rows are tried once for a bench, its bytes and its other switches. */
import { expect, test } from 'vitest';
import type { Ask, SaidFinding, Tell } from '../../client/worker/protocol.ts';
import { createWorkerLoop } from '../../client/worker/simulation.ts';
import { TableFindings } from '../../client/worker/table-findings.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { plain } from '../../sim-core/index.ts';
import { allTurns } from '../../sim-core/run/slices.ts';
import { start } from '../support/bench.ts';
import { FakeClock } from '../support/fake-clock.ts';

const plan = demoPlan('greenhouse-dark-mister')!;
const supply = plan.parts.find((p) => p.kind === 'bench-supply')!.id;
const sensors = plan.parts.find((p) => p.label === 'sensors')!.id;

test('a row that is wrong is in the panel’s findings as soon as the supply is on, in the words of the check', () => {
  const clock = new FakeClock();
  let findings: readonly SaidFinding[] = [];
  let hear: (message: Ask) => void = () => {};
  createWorkerLoop({
    port: {
      post: (told: Tell) => {
        if (told.tell === 'findings') findings = told.findings;
      },
      listen: (listener) => {
        hear = listener;
      },
    },
    clock,
  });
  const rows = () => findings.filter((f) => f.code === 'table/rows-wrong').map((f) => plain(f.says));
  hear({ ask: 'open', text: JSON.stringify({ ...plan, switches: { ...plan.switches, [supply]: [false] } }), name: '' });
  clock.pass(1000);
  expect(findings.length).toBeGreaterThan(0);
  expect(rows()).toEqual([]);
  hear({ ask: 'act', act: { do: 'set', part: supply, pole: 0, closed: true } });
  clock.pass(2000);
  expect(rows()).toEqual([expect.stringMatching(/^\d+ of 32 rows of the table are wrong: .*LED3 \(mister\) should be lit and is dark/)]);
});

test('what is known stays while only inputs move, and nothing is said with the supply off', () => {
  const sim = start({ ...plan, switches: { ...plan.switches, [supply]: [true] } });
  const table = new TableFindings();
  expect(table.known(sim)).toBeUndefined();
  const found = allTurns(table.look(sim));
  expect(found.map((f) => f.code)).toEqual(['table/rows-wrong']);
  sim.act({ do: 'set', part: sensors, pole: 1, closed: true });
  expect(table.known(sim)).toBe(found);
  sim.act({ do: 'set', part: supply, pole: 0, closed: false });
  expect(table.known(sim)).toEqual([]);
});
