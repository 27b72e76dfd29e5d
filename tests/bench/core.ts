/** Speed of the core: operating points, sweeps, growth with the size of the bench, switch flips, the write pulse; each beside its reference in the same run. */

import { PULL_HIGH, PULL_LOW } from '../../sim-core/devices/network.ts';
import { simulate, sweep } from '../../sim-core/index.ts';
import { makeIsland } from '../../sim-core/run/island.ts';
import { manyMemories } from './benches.ts';
import { denseNewton } from './dense-newton.ts';
import { median, middle, ms, printTable, share } from './measure.ts';

const contents = (a: number) => (a * 37 + (a >> 3)) & 255;

function running(memories: number, still = true) {
  const built = simulate(manyMemories(memories, contents), { still });
  if (!built.ok) throw new Error(built.failure.says);
  return built.value;
}

/** All 2 048 addresses in Gray order: one switch an address, as a hand would go. */
function sweepAddresses(sim: ReturnType<typeof running>): void {
  for (let a = 0; a < 2048; a++) {
    const gray = a ^ (a >> 1);
    const before = a === 0 ? 1024 : (a - 1) ^ ((a - 1) >> 1);
    const pole = 31 - Math.clz32(gray ^ before);
    sim.act({ do: 'set', part: 'S1', pole, closed: ((gray >> pole) & 1) === 1 });
  }
}

/** One operating point: every output goes to the other level, solved from where the bench stood; sparse against dense, same equations, same test. */
function operatingPoints() {
  const rows = [['one operating point, all outputs changed', 'nodes (solved)', 'ours ms', 'dense ms', 'ratio']];
  const costs: [size: number, cost: number][] = [];
  for (const memories of [1, 8, 64]) {
    const { network, chips } = running(memories).circuit;
    const outputs = chips.flatMap((c) => c.outputs.map((o) => o.device));
    let flipped = 0;
    const flip = () => {
      flipped++;
      for (const [i, o] of outputs.entries()) network.setPull(o, (i + flipped) % 2 ? PULL_HIGH : PULL_LOW);
    };
    const whole = makeIsland(network, network.unfolded);
    const x = new Float64Array(network.n + 1);
    const point = (solve: () => void) => () => {
      flip();
      solve();
    };
    const ours = median(
      point(() => void whole.rest(x)),
      101,
      200,
    );
    const runs = memories === 1 ? 21 : 3;
    const dense =
      memories > 8
        ? Number.NaN
        : median(
            point(() => denseNewton(network, x)),
            runs,
            2,
          );
    costs.push([memories, ours]);
    const [time, ratio] = Number.isNaN(dense) ? ['not run', ''] : [ms(dense), `${(dense / ours).toFixed(0)} ×`];
    rows.push([
      `${memories} ${memories === 1 ? 'memory' : 'memories'}`,
      `${network.n} (${network.unfolded.length})`,
      ms(ours),
      time,
      ratio,
    ]);
  }
  printTable('Operating point: sparse LDLᵀ Newton against dense Newton on ml-matrix', rows);
  const [first, middle, last] = costs;
  const exponent = (a: (typeof costs)[0], b: (typeof costs)[0]) => (Math.log(b[1] / a[1]) / Math.log(b[0] / a[0])).toFixed(2);
  if (first && middle && last)
    console.log(`  cost grows as memories^${exponent(first, middle)} from 1 to 8, ^${exponent(middle, last)} from 8 to 64`);
}

function sweeps() {
  const rows = [['2 048 addresses, every point solved and read', 'ours ms', 'dense ms', 'ratio']];
  for (const memories of [1, 8]) {
    const sim = running(memories);
    const ours = median(() => sweepAddresses(sim), 7, 3);
    // the dense reference solves one point twice an address as ours does; sixteen points are timed and scaled
    const x = new Float64Array(sim.circuit.network.n + 1);
    const points = memories === 1 ? 16 : 2;
    const dense =
      (median(
        () => {
          for (let i = 0; i < points; i++) denseNewton(sim.circuit.network, x.fill(0));
        },
        3,
        1,
      ) /
        points) *
      2 *
      2048;
    rows.push([
      `${memories} ${memories === 1 ? 'memory: the demonstration with a switch on every address pin' : 'memories on one bus'}`,
      ms(ours),
      `${ms(dense)} (scaled)`,
      `${(dense / ours).toFixed(0)} ×`,
    ]);
  }
  const plan = manyMemories(1, contents);
  const t = median(() => void sweep(plan), 3, 1);
  rows.push(['the same through `sweep`, with all readings of every row', ms(t), '', '']);
  printTable('Sweeps', rows);
}

/** With chatter, access times and everything: the time from a hand to the readings. */
function flips() {
  const rows = [['a switch flip with its chatter, to rest and readings', 'median ms', '95 % ms']];
  for (const memories of [1, 8]) {
    const sim = running(memories, false);
    const times = Array.from({ length: 120 }, (_, i) => {
      const t = performance.now();
      sim.act({ do: 'set', part: 'S1', pole: i % 11, closed: Math.floor(i / 11) % 2 === 0 });
      sim.readings();
      return performance.now() - t;
    }).slice(20);
    rows.push([`${memories} ${memories === 1 ? 'memory' : 'memories'}`, ms(middle(times)), ms(share(times, 0.95))]);
  }
  printTable('Live', rows);
}

export function benchCore(): void {
  operatingPoints();
  sweeps();
  flips();
}
