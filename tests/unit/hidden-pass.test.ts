/** A voltage that passes its mark and comes back within one step in closed form: both moments are told, however far the step could have gone. */
import { expect, test } from 'vitest';
import { GROUND, Network } from '../../sim-core/devices/network.ts';
import type { Watch } from '../../sim-core/run/analog/threshold-crossings.ts';
import { TransientSolver } from '../../sim-core/run/analog/transient-solver.ts';
import type { Circuit } from '../../sim-core/run/circuit/circuit.ts';
import { Partition } from '../../sim-core/run/circuit/partition.ts';
import { atRestOpen, pinByHand, type WriteNetwork } from '../support/write-pulse.ts';

const PULSE: WriteNetwork = { volts: 5, ohms: 680, farads: 1e-9, bleeder: 1e4, contact: 0.2, open: 1e10, pin: 6e-12 };

/** The write network with its contact just closed: /WE falls in picoseconds and rises in hundreds of nanoseconds. */
function justPressed(list: readonly Watch[]): TransientSolver {
  const network = new Network(2);
  const supply = network.addSupply(0, GROUND, { volts: PULSE.volts, ohms: PULSE.ohms, amps: 1 });
  const charged = [network.addCapacitor(0, GROUND, PULSE.pin), network.addCapacitor(1, GROUND, PULSE.farads)];
  network.addConductance(0, 1, 1 / PULSE.contact);
  network.addConductance(1, GROUND, 1 / PULSE.bleeder);
  network.seal();
  network.switchSupply(supply, true);
  const circuit = { network, partition: new Partition(network, new Set(), charged, GROUND), wires: [], supplies: [] } as unknown as Circuit;
  const { v, u } = atRestOpen(PULSE);
  const solver = new TransientSolver(circuit, { list, above: new Uint8Array(list.length).fill(1) }, Float64Array.of(v, u, 0));
  solver.jump();
  return solver;
}

/** What passes when [s], in order, and in how many steps all came to rest. */
function told(list: readonly Watch[]) {
  const solver = justPressed(list);
  const passes: { readonly watch: number; readonly at: number }[] = [];
  let [now, steps] = [0, 0];
  for (; !solver.resting(); steps++) {
    const { moved, passed } = solver.step(Number.POSITIVE_INFINITY);
    now += moved;
    for (const watch of passed) passes.push({ watch, at: now });
  }
  return { passes, steps };
}

const pin = pinByHand(PULSE);
/** When the pin is at this level, falling and rising [s]. */
function momentsOf(mark: number): readonly number[] {
  const between = (low: number, high: number, isDown: (v: number) => boolean) => {
    let [a, b] = [low, high];
    for (let i = 0; i < 200; i++) {
      const m = (a + b) / 2;
      if (isDown(pin(m))) b = m;
      else a = m;
    }
    return b;
  };
  const bottom = 40e-12;
  return [between(0, bottom, (v) => v <= mark), between(bottom, 20e-6, (v) => v >= mark)];
}

test('a mark is passed twice, to 1e-6 of each moment of the closed form', () => {
  for (const mark of [0.2, 0.8, 2, 4.5]) {
    const { passes } = told([{ a: 0, b: GROUND, mark }]);
    const exact = momentsOf(mark);
    expect(passes).toHaveLength(2);
    for (const [k, { at }] of passes.entries()) expect(Math.abs(at / exact[k]! - 1), `${mark} V, ${k}`).toBeLessThan(1e-6);
  }
});

test('a mark just above the lowest voltage is passed twice, and one just below it never', () => {
  const lowest = Math.min(...Array.from({ length: 100_000 }, (_, k) => pin(k * 1e-15)));
  expect(lowest).toBeGreaterThan(0.001);
  expect(told([{ a: 0, b: GROUND, mark: lowest + 1e-4 }]).passes).toHaveLength(2);
  expect(told([{ a: 0, b: GROUND, mark: lowest - 1e-4 }]).passes).toHaveLength(0);
});

test('watches of one voltage and one mark pass at one moment, in one step', () => {
  const watch = { a: 0, b: GROUND, mark: 2 };
  const [one, eight] = [told([watch]), told(Array.from({ length: 8 }, () => watch))];
  expect(new Set(eight.passes.map((p) => p.at))).toEqual(new Set(one.passes.map((p) => p.at)));
  expect(eight.passes).toHaveLength(16);
  expect(eight.steps).toBe(one.steps);
});

test('the whole pulse without a watch is one step and its arrival', () => {
  expect(told([]).steps).toBeLessThanOrEqual(2);
});
