/** One operating point: every memory gives a new byte and the voltages are found anew; the sparse solver against dense Newton, and how its cost grows. */
import { type Device, PULL_HIGH, PULL_LOW } from '../../sim-core/devices/network.ts';
import { makeIsland } from '../../sim-core/run/island.ts';
import { running } from './benches.ts';
import { denseNewton } from './dense-newton.ts';
import { inTurns, memories as many, ms, printTable, times } from './measure.ts';

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
  const { network, chips, blocks } = running(memories).circuit;
  const outputs = chips.flatMap((c) => c.outputs.map((o) => o.device));
  const whole = makeIsland(network, network.unfolded);
  const remembering = new Float64Array(network.n + 1);
  const next = bytes(outputs, (device, pull) => {
    const before = network.pullOf(device);
    if (before === pull) return;
    blocks.moved(device, before, pull, remembering);
    network.setPull(device, pull);
  });
  const standing = new Float64Array(network.n + 1);
  const plainly = bytes(outputs, (device, pull) => network.setPull(device, pull));
  const dense = new Float64Array(network.n + 1);
  return {
    size: `${network.n} (${network.unfolded.length})`,
    /** as the running bench does it: each driver starts from where it last stood in its new state */
    remembered: () => {
      next();
      whole.rest(remembering);
    },
    stood: () => {
      plainly();
      whole.rest(standing);
    },
    dense: () => {
      plainly();
      denseNewton(network, dense);
    },
  };
}

export function benchOperatingPoints(): void {
  const rows = [
    ['every output given a new value', 'nodes (solved)', 'ours ms', 'from where it stood ms', 'dense ms', 'ratio', 'same start'],
  ];
  const benches = [1, 8, 64].map((memories) => ({ memories, ...prepared(memories) }));
  const works = benches.flatMap(({ memories, remembered, stood, dense }) => [
    { work: remembered, times: Math.ceil(2000 / memories) },
    { work: stood, times: Math.ceil(500 / memories) },
    ...(memories > 8 ? [] : [{ work: dense, times: memories === 1 ? 20 : 1 }]),
  ]);
  const measured = inTurns(works, 11);
  const costs = benches.map(({ memories, size }, k) => {
    const [ours = Number.NaN, stood = Number.NaN] = measured.slice(3 * k);
    const dense = memories > 8 ? undefined : measured[3 * k + 2];
    rows.push([
      many(memories),
      size,
      ms(ours),
      ms(stood),
      ...(dense ? [ms(dense), times(dense / ours), times(dense / stood)] : ['not run', '', '']),
    ]);
    return { memories, ours };
  });
  printTable('Operating point: ours against dense Newton on ml-matrix, from where the bench stood', rows);
  const exponents = costs.slice(1).map((c, k) => {
    const before = costs[k];
    return before
      ? `^${(Math.log(c.ours / before.ours) / Math.log(c.memories / before.memories)).toFixed(2)} from ${before.memories} to ${c.memories}`
      : '';
  });
  console.log(`  cost grows as memories${exponents.join(', ')}`);
}
