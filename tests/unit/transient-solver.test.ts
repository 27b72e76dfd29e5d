/** The moment at which a watched voltage passes its mark, against closed forms: whichever of the nodes of the watch is the one that moves. */
import { describe, expect, test, vi } from 'vitest';
import { GROUND, Network } from '../../sim-core/devices/network.ts';
import { ActiveSubcircuit } from '../../sim-core/run/analog/active-subcircuit.ts';
import type { Watch } from '../../sim-core/run/analog/threshold-crossings.ts';
import { TransientSolver } from '../../sim-core/run/analog/transient-solver.ts';
import type { Circuit } from '../../sim-core/run/circuit/circuit.ts';
import { Partition } from '../../sim-core/run/circuit/partition.ts';

const [MOVES, STILL, RAIL] = [0, 1, 2] as const;
const RC = 1e3 * 1e-9;
/** 4 kΩ over 1 kΩ from 5 V with 50 mΩ [V]. */
const DIVIDED = (5 * 1e3) / 5000.05;

/** Node MOVES, charged to 5 V, begins to discharge through 1 kΩ and 1 nF; node STILL, another block, stays at a fifth of the rail. */
function discharging(watch: Watch): TransientSolver {
  const network = new Network(3);
  const supply = network.addSupply(RAIL, GROUND, { volts: 5, ohms: 0.05, amps: 1 });
  network.switchSupply(supply, true);
  network.addConductance(MOVES, GROUND, 1e-3);
  const c = network.addCapacitor(MOVES, GROUND, 1e-9);
  network.addConductance(RAIL, STILL, 1 / 4e3);
  network.addConductance(STILL, GROUND, 1e-3);
  network.seal();
  const partition = new Partition(network, new Set([RAIL]), [c], RAIL);
  const circuit = { network, partition, wires: [], supplies: [{ device: supply }] } as unknown as Circuit;
  const above = Uint8Array.of(watch.a === MOVES ? 1 : 0);
  return new TransientSolver(circuit, { list: [watch], above }, Float64Array.of(5, DIVIDED, 5 / (1 + 0.05 / 5e3), 0));
}

/** When its watch passes [s]. */
function passes(solver: TransientSolver): number {
  solver.jump();
  let time = 0;
  while (!solver.resting()) {
    const { moved, passed } = solver.step(1);
    time += moved;
    if (passed.length > 0) return time;
  }
  return Number.POSITIVE_INFINITY;
}

describe('a voltage that falls as exp(−t/RC) passes a mark at RC·ln(5 V / mark)', () => {
  test.each<[string, Watch, number]>([
    ['against ground', { a: MOVES, b: GROUND, mark: 2.5 }, 5 / 2.5],
    ['when it is what another is measured against', { a: GROUND, b: MOVES, mark: -2.5 }, 5 / 2.5],
    ['when a still one is measured against it', { a: STILL, b: MOVES, mark: 0.5 }, 5 / (DIVIDED - 0.5)],
    ['when the mark of a still one is a part of it', { a: STILL, b: GROUND, c: MOVES, mark: 0.5 }, 5 / (DIVIDED / 0.5)],
  ])('%s', (_, watch, ratio) => {
    expect(passes(discharging(watch)) / (RC * Math.log(ratio))).toBeCloseTo(1, 5);
  });
});

test('the moment is found within thirty tries of a step, to a billionth of a volt', () => {
  for (const mark of [4, 2.5, 1, 0.3]) {
    const solver = discharging({ a: MOVES, b: GROUND, mark });
    const tries = vi.spyOn(ActiveSubcircuit.prototype, 'attempt');
    solver.jump();
    let most = 0;
    for (let passed = 0; passed === 0; ) {
      tries.mockClear();
      passed = solver.step(1).passed.length;
      most = tries.mock.calls.length;
    }
    tries.mockRestore();
    expect(most).toBeLessThanOrEqual(30);
    expect(Math.abs((solver.x[MOVES] as number) - mark)).toBeLessThan(2e-9);
  }
});

test('blocks that have moved together before move as the island of then, of which three hundred are kept', () => {
  const network = new Network(9);
  for (let node = 0; node < 9; node++) {
    network.addConductance(node, GROUND, 1e-3);
    network.addCapacitor(node, GROUND, 1e-9);
  }
  network.seal();
  const circuit = { network, partition: new Partition(network, new Set(), [], GROUND), wires: [], supplies: [] } as unknown as Circuit;
  const solver = new TransientSolver(circuit, { list: [], above: new Uint8Array(0) });
  const extract = vi.spyOn(Network.prototype, 'extract');
  /** Islands made while the blocks of these bits, one after the other, are at 1 V and all others at rest. */
  const made = (from: number, to: number) => {
    extract.mockClear();
    for (let bits = from; bits <= to; bits++) {
      for (let i = 0; i < 9; i++) solver.x[i] = (bits >> i) & 1;
      solver.jump();
    }
    return extract.mock.calls.length;
  };
  expect([made(1, 300), made(1, 300), made(301, 301), made(301, 301), made(1, 1)]).toEqual([300, 0, 1, 0, 1]);
  extract.mockRestore();
});
