/** Where a bench rests by its blocks, beside Newton's method on its whole network: which benches have it, and that both find the same. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { composeAll } from '../../sim-core/demos/documents.ts';
import { type Device, PULL_HIGH, PULL_LOW, type Pull } from '../../sim-core/devices/network.ts';
import { ActiveSubcircuit } from '../../sim-core/run/analog/active-subcircuit.ts';
import { RestByBlocks } from '../../sim-core/run/analog/rest-by-blocks.ts';
import { simulate } from '../../sim-core/run/simulation.ts';
import { RELATIVE_RESIDUAL, RESIDUAL_FLOOR } from '../../sim-core/solve/equations.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { LED_ON_D0, MEMORY, planOf, READ_BY_S3 } from '../support/bench.ts';
import { randomBench } from '../support/random-bench.ts';

const READS = `${MEMORY}\n${LED_ON_D0}\n${READ_BY_S3}`;

const on = (plan: Plan): Plan => ({
  ...plan,
  switches: Object.fromEntries(plan.parts.filter((p) => p.kind === 'bench-supply').map((p) => [p.id, [true]])),
});

function builtOf(plan: Plan) {
  const sim = simulate(on(plan), { still: true });
  if (!sim.ok) throw new Error(sim.failure.says);
  return sim.value.built;
}

/**
 * Sets contacts, outputs and supply currents by chance, so many times, and asks the blocks each time where that rests. What is left of Kirchhoff's law at the
 * worst node, as a part of what Newton's method may leave; the largest difference from its answer at a node that something holds [V]; how often the blocks knew.
 */
function ask(plan: Plan, times: number, seed: number) {
  const { circuit, solver } = builtOf(plan);
  const { network, contacts, chips } = circuit;
  const blocks = RestByBlocks.of(circuit, solver.end);
  if (!blocks) return undefined;
  const random = makeRandom(seed);
  const whole = new ActiveSubcircuit(network, network.unfolded);
  const [x, judge, residual, magnitude] = [0, 1, 2, 3].map(() => new Float64Array(network.n + 1)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const change = (device: Device, set: () => void) => {
    if (random() < 0.5) return;
    blocks.moves(device);
    set();
  };
  const worst = { imbalance: 0, volts: 0, known: 0 };
  for (let k = 0; k < times; k++) {
    for (const { device, contact } of contacts)
      change(device, () => network.setConductance(device, 1 / (random() < 0.5 ? contact.on : contact.off)));
    for (const { outputs, drain, drains } of chips) {
      // most chips drive all of their outputs, or none
      const isOff = random() < 0.2;
      for (const { device } of outputs) change(device, () => network.setPull(device, (isOff ? 0 : random() < 0.5 ? 1 : 2) as Pull));
      change(drain, () => network.setConductance(drain, random() < 0.5 ? drains.working : drains.resting));
    }
    if (blocks.find(x) === 'nowhere') continue;
    worst.known += 1 / times;
    network.complete(x);
    network.evaluate(x, residual, magnitude, null);
    judge.fill(0);
    expect(whole.rest(judge).ok).toBe(true);
    for (const node of network.unfolded) {
      const held = (magnitude[node] as number) > 1e-6;
      worst.imbalance = Math.max(
        worst.imbalance,
        Math.abs(residual[node] as number) / (RELATIVE_RESIDUAL * (magnitude[node] as number) + RESIDUAL_FLOOR),
      );
      if (held) worst.volts = Math.max(worst.volts, Math.abs((x[node] as number) - (judge[node] as number)));
    }
  }
  return worst;
}

describe('the rest of a bench by its blocks', () => {
  test.each(Object.entries(composeAll()))('of the demonstration %s is that of its whole network', (_, plan) => {
    const worst = ask(plan, 60, 1)!;
    expect(worst.imbalance).toBeLessThan(0.2);
    expect(worst.volts).toBeLessThan(1e-9);
    expect(worst.known).toBeCloseTo(1);
  });

  test('of benches that chance puts together is that of their whole networks, or is not asked for', () => {
    const asked = Array.from({ length: 40 }, (_, k) => ask(fc.sample(randomBench(10, 60), { seed: k + 1, numRuns: 1 })[0] as Plan, 20, k));
    const known = asked.filter((worst) => worst !== undefined);
    expect(known.length).toBeGreaterThan(10);
    expect(Math.max(...known.map((worst) => worst.imbalance))).toBeLessThan(0.2);
    expect(Math.min(...known.map((worst) => worst.known))).toBeGreaterThan(0);
  });

  test.each([
    ['a transistor', 'npn-transistor Q1 at b50'],
    ['a coil', 'relay K1 at e50'],
    ['a supply that stands on another', 'bench-supply PS2 3.3V\nwire X1 red from PS2.+ to j60\nwire X2 black from PS2.- to +j48'],
    [
      'a resistor from one supply to another',
      'bench-supply PS2 3.3V\nwire X1 red from PS2.+ to j60\nwire X2 black from PS2.- to -j48\nresistor R9 1k from g60 to +j45',
    ],
  ])('is not asked for with %s', (_, line) => {
    const { circuit, solver } = builtOf(planOf(READS));
    expect(RestByBlocks.of(circuit, solver.end)).toBeDefined();
    const more = builtOf(planOf(`${READS}\n${line}`));
    expect(RestByBlocks.of(more.circuit, more.solver.end)).toBeUndefined();
  });

  test('is judged: what has changed without being told is found out', () => {
    const { circuit, solver } = builtOf(planOf(READS));
    const { network, chips } = circuit;
    const { device } = chips[0]!.outputs[0]!;
    const judge = () => {
      const x = new Float64Array(network.n + 1);
      solver.restFor(x);
      return Math.max(...network.unfolded.map((i) => Math.abs(solver.end[i]! - x[i]!)));
    };
    const move = (to: Pull, isTold: boolean) => {
      if (isTold) solver.moved(device, network.pullOf(device), to);
      network.setPull(device, to);
      solver.arrive();
    };
    for (let k = 0; k < 300; k++) {
      move(k % 2 === 0 ? PULL_LOW : PULL_HIGH, true);
      expect(judge()).toBeLessThan(1e-7);
    }
    move(PULL_LOW, false);
    expect(judge()).toBeGreaterThan(1);
    for (let k = 0; k < 100; k++) solver.arrive();
    expect(judge()).toBeLessThan(1e-7);
  });
});
