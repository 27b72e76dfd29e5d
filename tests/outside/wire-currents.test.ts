/** The current of a wire, by Kirchhoff's law from the legs on its one side, against benches whose wires are resistors of their own that the solver solves. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { makeScene } from '../../sim-core/findings/rule-context.ts';
import type { Simulation } from '../../sim-core/index.ts';
import { wireFlow } from '../../sim-core/why/wire-current.ts';
import { start } from '../support/bench.ts';
import { randomBench } from '../support/random-bench.ts';
import { trial } from '../support/trial.ts';

const flowsOf = (sim: Simulation) => {
  const scene = makeScene(sim.circuit, sim.readings());
  return sim.circuit.plan.wires.map(({ id }) => wireFlow(scene, id));
};
const flows = (plan: Plan) => flowsOf(start(plan));

trial('by its legs a wire carries what its own resistance lets through', { cases: randomBench(10, 60), sample: 12, full: 2000 }, (plan) => {
  let worst = 0;
  let wires = 0;
  for (const flow of flows({ ...plan, wiring: 'real' })) {
    if (!flow || flow.wires.length > 1) continue;
    wires++;
    // the residual that the solver leaves at a node, and what a voltage of 5 V rounds to over a wire of 10 mΩ
    const off = Math.abs(flow.amps - (flow.own ?? Number.NaN));
    expect(off).toBeLessThan(1e-9 + 1e-6 * Math.abs(flow.own ?? 0));
    worst = Math.max(worst, off);
  }
  return { kind: 'compared', wires, worst };
});

const DEMOS = readdirSync('shared/demos').filter((f) => f.endsWith('.plan.json'));

/** What a chip or an LED takes changes by no more than so many times the share of its supply that copper drops: an LED's current goes with 5 V less its 2 to 3 V, and its own wires drop beside what its chip sees. */
const STEEPEST = 4;

test.each(DEMOS)('%s: ideal wires carry what they carry with the resistance of copper, but for what copper drops of the supply', (name) => {
  const drawn = JSON.parse(readFileSync(`shared/demos/${name}`, 'utf8')) as Plan;
  const plan = { ...drawn, switches: { ...drawn.switches, PS1: [true] } };
  const [ideal, real] = [start({ ...plan, wiring: undefined } as Plan), start({ ...plan, wiring: 'real' })];
  const least = (sim: Simulation) => Math.min(...sim.readings().chips.map((c) => c.supply));
  const dropped = 1 - least(real) / least(ideal);
  expect(dropped).toBeLessThan(2e-3);
  const own = flowsOf(real).map((flow) => flow?.own ?? 0);
  let [compared, worst] = [0, 0];
  for (const [i, flow] of flowsOf(ideal).entries()) {
    // less is leakage
    if (!flow || flow.wires.length > 1 || Math.abs(own[i] ?? 0) < 1e-5) continue;
    compared++;
    worst = Math.max(worst, Math.abs(flow.amps / (own[i] ?? 0) - 1));
  }
  console.log(`${name}: ${compared} wires, worst ${worst.toExponential(1)}, copper drops ${dropped.toExponential(1)} of the supply`);
  expect(worst).toBeLessThan(STEEPEST * dropped + 1e-6);
  expect(compared).toBeGreaterThan(3);
});
