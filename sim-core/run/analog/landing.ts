/** A step that ends where the first of some watched voltages passes its mark. */
import { falsePosition } from '../../solve/false-position.ts';
import type { ActiveSubcircuit } from './active-subcircuit.ts';
import { PASSED, type ThresholdCrossings } from './threshold-crossings.ts';

/** Time moved [s], and what has passed then. */
export interface Landing {
  readonly moved: number;
  readonly passed: Int32Array;
}

/** A step from x: an island that moves, what is watched in it, and where its last try went; `trial` is written again by every try. */
export interface TimeStep {
  readonly crossings: ThresholdCrossings;
  readonly island: ActiveSubcircuit;
  readonly x: Float64Array;
  readonly trial: Float64Array;
  readonly watched: Int32Array;
}

/** crossing: watches that have passed after h [s], where `trial` is. Afterwards `trial` is where the first of them passes, and all that pass there with it. */
export function land(step: TimeStep, crossing: Int32Array, h: number): Landing {
  const { crossings, trial, watched } = step;
  const all = crossing.slice();
  let within = all;
  let until = h;
  for (;;) {
    const first = soonest(step, within);
    const moved = momentOf(step, first, until);
    const earlier = crossings.passing(trial, watched, 2 * PASSED).filter((i) => i !== first);
    if (earlier.length === 0 || !(moved < until))
      return { moved, passed: all.filter((i) => i === first || crossings.beyond(trial, i) >= -PASSED) };
    within = earlier;
    until = moved;
  }
}

/** Which of them passes first, if all move evenly. */
function soonest({ crossings, x, trial }: TimeStep, within: Int32Array): number {
  let first = within[0] as number;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < within.length; k++) {
    const i = within[k] as number;
    const guess = crossings.over(x, i) / (crossings.over(x, i) - crossings.over(trial, i));
    if (!(guess < least)) continue;
    least = guess;
    first = i;
  }
  return first;
}

/** When watch i passes, which has passed after h; `trial` is there. */
function momentOf({ crossings, island, x, trial }: TimeStep, i: number, h: number): number {
  // an exponential moves evenly with the part of its way that is gone
  const pace = island.pace(crossings.watch(i).a, crossings.watch(i).b);
  const isLong = h > pace;
  const last = isLong ? -Math.expm1(-h / pace) : h;
  const time = (at: number) => (at === last ? h : isLong ? Math.min(h, -pace * Math.log1p(-at)) : at);
  const low = { at: 0, value: crossings.beyond(x, i) };
  const high = { at: last, value: crossings.beyond(trial, i) };
  const at = falsePosition(low, high, PASSED, 1e-12 * last, (at) => {
    island.attempt(time(at), trial);
    return crossings.beyond(trial, i);
  });
  return time(at);
}
