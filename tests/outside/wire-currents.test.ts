/** The current of a wire, by Kirchhoff's law from the legs on its one side, against benches whose wires are resistors of their own that the solver solves. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { makeScene } from '../../sim-core/findings/rule-context.ts';
import { wireFlow } from '../../sim-core/why/wire-current.ts';
import { start } from '../support/bench.ts';
import { randomBench } from '../support/random-bench.ts';
import { trial } from '../support/trial.ts';

const flows = (plan: Plan) => {
  const sim = start(plan);
  const scene = makeScene(sim.circuit, sim.readings());
  return plan.wires.map(({ id }) => wireFlow(scene, id));
};

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

test.each(DEMOS)('%s: ideal wires carry what they carry with the resistance of copper, to 2.5e-3', (name) => {
  const drawn = JSON.parse(readFileSync(`shared/demos/${name}`, 'utf8')) as Plan;
  const plan = { ...drawn, switches: { ...drawn.switches, PS1: [true] } };
  const [ideal, real] = [flows({ ...plan, wiring: undefined } as Plan), flows({ ...plan, wiring: 'real' })];
  let compared = 0;
  for (const [i, flow] of ideal.entries()) {
    const own = real[i]?.own ?? 0;
    // less is leakage
    if (!flow || flow.wires.length > 1 || Math.abs(own) < 1e-5) continue;
    compared++;
    // copper itself drops some millivolts of the 5 V, and the bench then takes less: 2.1e-3 at most
    expect(Math.abs(flow.amps / own - 1)).toBeLessThan(2.5e-3);
  }
  expect(compared).toBeGreaterThan(3);
});
