/** One operating point: every memory gives a new byte and the voltages are found anew; the sparse solver against dense Newton, and how its cost grows. */
import { type Device, PULL_HIGH, PULL_LOW } from '../../sim-core/devices/network.ts';
import { ActiveSubcircuit } from '../../sim-core/run/analog/active-subcircuit.ts';
import { running } from './benches.ts';
import { denseNewton } from './dense-newton.ts';
import { inTurns, memories as many, ms, printTable, times } from './measure.ts';
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
  const { network, chips, partition, leds } = running(memories).circuit;
  const outputs = chips.flatMap((c) => c.outputs.map((o) => o.device));
  const whole = new ActiveSubcircuit(network, network.unfolded);
  const remembering = new Float64Array(network.n + 1);
  const next = bytes(outputs, (device, pull) => {
    const before = network.pullOf(device);
    if (before === pull) return;
    partition.moved(device, before, pull, remembering);
    network.setPull(device, pull);
  });
  const model = new Float64Array(network.n + 1);
  const plainly = bytes(outputs, (device, pull) => network.setPull(device, pull));
  const dense = new Float64Array(network.n + 1);
  const apart = textbook(network, leds);
  const denseApart = new Float64Array(apart.n + 1);
  return {
    size: `${network.n} (${network.unfolded.length})`,
    /** as the running bench does it: each driver starts from where it last stood in its new state */
    remembered: () => {
      next();
      whole.rest(remembering);
    },
    stood: () => {
      plainly();
      whole.rest(model);
    },
    dense: () => {
      plainly();
      denseNewton(network, dense);
    },
    apart: () => {
      plainly();
      denseNewton(apart, denseApart);
    },
  };
}

export function benchOperatingPoints(): void {
  const rows = [
    [
      'every output given a new value',
      'nodes (solved)',
      'ours ms',
      'same start ms',
      'dense ms',
      'ratio',
      'same start',
      'textbook ms',
      'ratio',
      'same start',
    ],
  ];
  const benches = [1, 8, 64].map((memories) => ({ memories, ...prepared(memories) }));
  const works = benches.flatMap(({ memories, remembered, stood, dense, apart }) => [
    { work: remembered, times: Math.ceil(2000 / memories) },
    { work: stood, times: Math.ceil(500 / memories) },
    ...(memories > 8 ? [] : [dense, apart].map((work) => ({ work, times: memories === 1 ? 20 : 1 }))),
  ]);
  const measured = inTurns(works, 11);
  const costs = benches.map(({ memories, size }, k) => {
    const [ours = Number.NaN, stood = Number.NaN, dense, apart] = measured.slice(4 * k, 4 * k + 4);
    const against = (t: number | undefined) => (t ? [ms(t), times(t / ours), times(t / stood)] : ['not run', '', '']);
    rows.push([many(memories), size, ms(ours), ms(stood), ...against(dense), ...against(apart)]);
    return { memories, ours, stood };
  });
  printTable(
    'Operating point: ours, from each driver’s last state or from where the bench stood, against dense Newton on ml-matrix from there',
    rows,
  );
  console.log('  dense: the same equations. textbook: an LED’s junction and its series resistance apart, by the plain exponential');
  console.log(
    `  cost grows as memories^${growth(costs.map((c) => [c.memories, c.ours]))}; from where the bench stood ^${growth(costs.map((c) => [c.memories, c.stood]))}`,
  );
}

/** Exponent of a power law through the points, by least squares of the logarithms. */
function growth(points: readonly (readonly [size: number, cost: number])[]): string {
  const logs = points.map(([size, cost]) => [Math.log(size), Math.log(cost)] as const);
  const mean = (of: (p: readonly [number, number]) => number) => logs.reduce((s, p) => s + of(p), 0) / logs.length;
  const [x, y] = [mean((p) => p[0]), mean((p) => p[1])];
  return (mean((p) => (p[0] - x) * (p[1] - y)) / mean((p) => (p[0] - x) ** 2)).toFixed(2);
}
