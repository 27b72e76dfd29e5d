/** One operating point: every memory gives a new byte and the voltages are solved again; the running bench against dense Newton, and how its cost grows. */
import { type Device, PULL_HIGH, PULL_LOW } from '../../sim-core/devices/network.ts';
import { ActiveSubcircuit } from '../../sim-core/run/analog/active-subcircuit.ts';
import { simulate } from '../../sim-core/run/simulation.ts';
import { contents, manyMemories } from './benches.ts';
import { denseNewton } from './dense-newton.ts';
import { inTurns, memories as many, ms, printTable, times, value } from './measure.ts';
import { keep, tick } from './report.ts';
import { textbook } from './textbook.ts';

/** The bench's drivers, set to another byte at every call; `moved` hears which device goes from what to what. */
function bytes(outputs: readonly Device[], set: (device: Device, pull: typeof PULL_LOW | typeof PULL_HIGH) => void) {
  let state = 12345;
  return () => {
    for (const device of outputs) {
      // a linear congruential generator: any bits will do that differ from point to point
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      set(device, state >>> 31 ? PULL_HIGH : PULL_LOW);
    }
  };
}

function prepared(memories: number) {
  const bench = () => value(simulate(manyMemories(memories, contents), { still: true })).built;
  const { solver, circuit } = bench();
  const { network } = circuit;
  const outputsOf = ({ chips }: typeof circuit) => chips.flatMap((c) => c.outputs.map((o) => o.device));
  const outputs = outputsOf(circuit);
  const next = bytes(outputs, (device, pull) => {
    const before = network.pullOf(device);
    if (before === pull) return;
    solver.moved(device, before, pull);
    network.setPull(device, pull);
  });
  // a bench of its own for what is solved without the running bench
  const other = bench().circuit;
  const { unfolded, n } = other.network;
  const whole = new ActiveSubcircuit(other.network, unfolded);
  const model = new Float64Array(n + 1);
  const plainly = bytes(outputsOf(other), (device, pull) => other.network.setPull(device, pull));
  const dense = new Float64Array(n + 1);
  const apart = textbook(other.network, other.leds);
  const denseApart = new Float64Array(apart.n + 1);
  return {
    size: `${n} (${unfolded.length})`,
    /** as the running bench does it: the blocks in their states, and the rail that all of them share */
    running: () => {
      next();
      solver.arrive();
    },
    /** by Newton's method on the whole network, from where the bench stood */
    stood: () => {
      plainly();
      whole.rest(model);
    },
    dense: () => {
      plainly();
      denseNewton(other.network, dense);
    },
    apart: () => {
      plainly();
      denseNewton(apart, denseApart);
    },
    /** largest difference of a node between the running bench and dense Newton, over a hundred points [V] */
    worst: () => {
      let most = 0;
      for (let k = 0; k < (memories === 1 ? 100 : 3); k++) {
        next();
        solver.arrive();
        for (const [i, device] of outputsOf(other).entries()) other.network.setPull(device, network.pullOf(outputs[i] as Device));
        denseNewton(other.network, dense);
        for (const i of unfolded) most = Math.max(most, Math.abs((solver.end[i] as number) - (dense[i] as number)));
      }
      return most;
    },
  };
}

interface Cost {
  readonly memories: number;
  readonly ours: number;
  readonly stood: number;
}

/** The four ways of one bench; the reference's cost grows with the cube, and 64 memories would take it minutes. */
function points(memories: 1 | 8): { readonly cost: Cost; readonly row: readonly string[] } {
  const { size, running, stood, dense, apart, worst } = prepared(memories);
  const rounds = memories === 1 ? 20 : 1;
  const [a, b, c, d] = inTurns(
    [
      { work: running, times: Math.ceil(2000 / memories) },
      { work: stood, times: Math.ceil(500 / memories) },
      { work: dense, times: rounds },
      { work: apart, times: rounds },
    ] as const,
    11,
  );
  const off = worst().toExponential(1);
  keep(`point, ${many(memories)}`, a, 'ms', `${off} V`);
  keep(`dense point, ${many(memories)}`, c);
  const row = [many(memories), size, ms(a), ms(b), ms(c), times(c / a), times(c / b), off, ms(d), times(d / a), times(d / b)];
  return { cost: { memories, ours: a, stood: b }, row };
}

/** Times a dense point of one memory, in turns as above, beside which everything that follows is kept. */
export function wind(): void {
  const { dense, apart } = prepared(1);
  const [clock] = inTurns(
    [
      { work: dense, times: 10 },
      { work: apart, times: 5 },
    ] as const,
    5,
  );
  tick(clock);
}

export function benchOperatingPoints(): void {
  const head = ['every output given a new value', 'nodes (solved)', 'ours ms', 'same start ms', 'dense ms', 'ratio', 'same start'];
  const one = points(1);
  const eight = points(8);
  const { size, running, stood } = prepared(64);
  const [ours, started] = inTurns(
    [
      { work: running, times: 32 },
      { work: stood, times: 8 },
    ] as const,
    11,
  );
  printTable(
    'Operating point: ours, by its blocks or by Newton on the whole from where the bench stood, beside dense Newton on ml-matrix from there',
    [
      [...head, 'differ by V', 'textbook ms', 'ratio', 'same start'],
      one.row,
      eight.row,
      [many(64), size, ms(ours), ms(started), 'not run', '', '', '', 'not run', '', ''],
    ],
  );
  console.log('  dense: the same equations. textbook: an LED’s junction and its series resistance apart, by the plain exponential');
  const costs = [one.cost, eight.cost, { memories: 64, ours, stood: started }];
  const exponent = growth(costs.map((c) => [c.memories, c.ours]));
  keep('growth of a point from 1 to 64 memories', exponent, 'exponent');
  console.log(
    `  cost grows as memories^${exponent.toFixed(2)}; from where the bench stood ^${growth(costs.map((c) => [c.memories, c.stood])).toFixed(2)}`,
  );
}

/** Exponent of a power law through the points, by least squares of the logarithms. */
function growth(points: readonly (readonly [size: number, cost: number])[]): number {
  const logs = points.map(([size, cost]) => [Math.log(size), Math.log(cost)] as const);
  const mean = (of: (p: readonly [number, number]) => number) => logs.reduce((s, p) => s + of(p), 0) / logs.length;
  const [x, y] = [mean((p) => p[0]), mean((p) => p[1])];
  return mean((p) => (p[0] - x) * (p[1] - y)) / mean((p) => (p[0] - x) ** 2);
}
