/** A chip that does nothing but tick: one output, high and low in turn for ever. */
import { OFF, PULL_HIGH, PULL_LOW } from '../../devices/network.ts';
import type { Chip, ChipBench } from '../part.ts';
import { notice } from './input-filter.ts';

export interface Oscillator {
  /** [Hz] */
  readonly hertz: number;
  /** part of each period that it is high */
  readonly duty: number;
  /** supply at which it runs [V] */
  readonly alive: number;
}

/** Its first edge rises half a period after it gets its supply. Nothing waits for it: its alarms are background. */
export function startOscillator(bench: ChipBench, { hertz, duty, alive }: Oscillator): Chip {
  /** when it last began to run [s]; counting periods from there keeps rounding from adding up */
  let since = 0;
  let edges = 0;
  let high = false;
  const nextEdge = () => since + (0.5 + Math.floor(edges / 2) + (edges % 2 === 0 ? 0 : duty)) / hertz;
  /** alarms from before the supply was last switched are of an earlier run */
  let runs = 0;
  const show = () => bench.drive(0, !world.on() ? OFF : high ? PULL_HIGH : PULL_LOW);
  const run = (now: number) => {
    since = now;
    edges = 0;
    high = false;
    runs += 1;
    if (world.on()) bench.alarm(nextEdge(), `edge of run ${runs}`, true);
    show();
  };
  const world = notice(bench, 0, alive, () => {}, run);
  return {
    begin: (now) => world.begin(now),
    levelChanged() {},
    supplyCrossed: (_mark, rising, now) => world.supplyCrossed(rising, now),
    alarm(name, now) {
      if (world.alarm(name, now) || name !== `edge of run ${runs}`) return;
      edges += 1;
      high = edges % 2 === 1;
      bench.alarm(nextEdge(), name, true);
      show();
    },
    state: () => ({ doing: world.on() ? 'working' : 'no supply' }),
    contents: () => undefined,
  };
}
