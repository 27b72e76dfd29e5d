/**
 * A figure at values drawn by chance within their bounds, from a seed: what it mostly does, and how often it fails. Makes no assumption on the figure's shape.
 * 59 runs: with 95 % confidence the largest of them is not passed by more than 5 % of all specimens; both ends at once ask for 93 (`confidence`).
 */
import { makeRandom } from '../units/random.ts';
import type { FigureFunction, Variable } from './methods.ts';

export interface RandomDraw {
  readonly runs: number;
  readonly seed: number;
  /** 'normal': each bound is three sigma from nominal on its own side, and what falls outside is drawn again */
  readonly shape: 'uniform' | 'normal';
}

export interface Summary {
  readonly runs: number;
  readonly least: number;
  readonly most: number;
  readonly mean: number;
  /** standard deviation of the sample, n − 1; 0 for a single run */
  readonly sigma: number;
  /** share of the runs that were not as wanted, 0 … 1 */
  readonly failing: number;
}

/** So many runs that the largest speaks for 95 % of all specimens with 95 % confidence. */
export const USUAL_RUNS = 59;

/** Values for every variable, run by run. The same seed gives the same values; one more run changes none of those before. */
export function draw(variables: readonly Variable[], { runs, seed, shape }: RandomDraw): number[][] {
  const random = makeRandom(seed);
  const one = ({ nominal, least, most }: Variable): number => {
    if (shape === 'uniform') return least + (most - least) * random();
    for (;;) {
      const z = normal(random);
      if (Math.abs(z) <= 3) return nominal + (z * (z < 0 ? nominal - least : most - nominal)) / 3;
    }
  };
  return Array.from({ length: runs }, () => variables.map(one));
}

/** One standard normal number from two uniform ones: Box and Muller 1958. */
function normal(random: () => number): number {
  const u = 1 - random();
  return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random());
}

export function summarise(values: readonly number[], holds: (value: number) => boolean = () => true): Summary {
  const runs = values.length;
  const mean = values.reduce((a, b) => a + b, 0) / runs;
  const squares = values.reduce((sum, v) => sum + (v - mean) ** 2, 0);
  return {
    runs,
    least: Math.min(...values),
    most: Math.max(...values),
    mean,
    sigma: runs > 1 ? Math.sqrt(squares / (runs - 1)) : 0,
    failing: values.filter((v) => !holds(v)).length / runs,
  };
}

export const monteCarlo = (
  y: FigureFunction,
  variables: readonly Variable[],
  drawing: RandomDraw,
  holds?: (value: number) => boolean,
): Summary => summarise(draw(variables, drawing).map(y), holds);

/**
 * How sure one may be that a share of all specimens lies within what so many runs showed, whatever their distribution: S. S. Wilks 1941,
 * Annals of Mathematical Statistics 12 (cited, formulas from memory). One end: 1 − qⁿ; both ends: 1 − n·qⁿ⁻¹ + (n − 1)·qⁿ.
 */
export const confidence = (runs: number, share: number, ends: 1 | 2): number =>
  ends === 1 ? 1 - share ** runs : 1 - runs * share ** (runs - 1) + (runs - 1) * share ** runs;
