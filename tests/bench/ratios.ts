/** How fast it has to be, each figure as a ratio to another of the same run, so that it can be asked of any machine. */

export interface Ratio {
  readonly figure: string;
  /** its reference; none: the figure itself, which must be at most this */
  readonly over?: string;
  readonly must: number;
  readonly goal: number;
}

/** A ratio is missed from this factor on: 20 %. */
export const SLACK = 1.2;

/** One operating point of one memory by Newton with dense LU from a general library, timed beside each part: what this machine was like at that time. */
export const CLOCK = 'a dense point';
/** On the machine on which the times below were agreed, quiet [ms]. */
const CLOCK_THERE = 1.2;
/** Times there [ms] as ratios to that clock. */
const inTime = (figure: string, must: number, goal: number): Ratio => ({
  figure,
  over: CLOCK,
  must: CLOCK_THERE / must,
  goal: CLOCK_THERE / goal,
});

export const RATIOS: readonly Ratio[] = [
  { figure: 'point, 1 memory', over: 'dense point, 1 memory', must: 400, goal: 600 },
  { figure: 'point, 8 memories', over: 'dense point, 8 memories', must: 5000, goal: 13_000 },
  { figure: 'growth of a point from 1 to 64 memories', must: 1.05, goal: 1 },
  { figure: 'ten minutes recorded, 8 memories', must: 64 / SLACK, goal: 32 },
  inTime('2 048 rows again, 1 memory', 3.2, 1.5),
  inTime('2 048 rows again, 8 memories', 5, 3),
  inTime('2 048 rows, fresh bench, 1 memory', 12, 4.5),
  inTime('2 048 rows, fresh bench, 8 memories', 20, 8),
  inTime('32 768 rows, fresh bench', 75, 25),
  inTime('proof of 65 536 rows, two buffers', 600, 200),
  inTime('flip to rest, 1 memory', 0.18, 0.06),
  inTime('flip to rest, 8 memories', 0.99, 0.2),
  inTime('write pulse, prepared', 0.04, 0.012),
  inTime('variant, other wiring', 1, 0.3),
  inTime('variant, other bytes', 1, 0.3),
];
