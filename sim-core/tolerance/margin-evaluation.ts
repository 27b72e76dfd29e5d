/** Whether a figure keeps its limit over all that varies, by one of three methods, and which part's figure matters most. */

import { type MarginPlace, type MarginQuery, roomOf, type What } from './margin-query.ts';
import { extremes, rootSumSquare } from './methods.ts';
import { draw, summarise } from './monte-carlo.ts';
import type { Tolerance } from './tolerances.ts';

/** worst: every spread at its bounds together; rss: biases summed, random parts as root-sum-square; random: specimens drawn by chance */
export type Method = 'worst' | 'rss' | 'random';

export interface Chance {
  readonly seed: number;
  readonly runs: number;
}

/** One figure against its limit over all tolerances, in the unit that it names. */
export interface Margin {
  readonly what: What;
  readonly at: MarginPlace;
  readonly button?: string;
  readonly unit: 's' | 'V' | 'A';
  readonly must: 'at-least' | 'at-most';
  readonly method: Method;
  /** with everything as the plan says */
  readonly nominal: number;
  /** at the end of the spread that is nearer to the limit, or beyond it */
  readonly worst: number;
  readonly limit: number;
  /** of the limit */
  readonly source: string;
  readonly holds: boolean;
  /** the part whose figure brings most of the way from nominal to worst; absent if nothing moves it */
  readonly dominant?: Dominant;
  /** of random: how many specimens were drawn, and the share of them that fails */
  readonly runs?: number;
  readonly failing?: number;
  /** of rss: the figure bends so much within the spreads that the method's assumption of constant sensitivities is far off */
  readonly bent?: true;
  /** 'R3.ohms': figures in which it turns round between the bounds, so that a point between them may be worse still */
  readonly turning: readonly string[];
}

export interface Dominant {
  readonly part: string;
  readonly figure: string;
  readonly unit: string;
  readonly nominal: number;
  /** the worst value */
  readonly value: number;
  /** its share of what all figures do one by one; for rss of their squares and biases */
  readonly share: number;
  readonly source: string;
}

/** Simulated figures nearer to each other than this share are one. */
const ALIKE = 1e-3;
/** A spread that by itself moves the figure by less than this share of it is left at nominal. */
const IDLE = 1e-5;
/** So far, as a share of the way to the worst corner, the sensitivities may be off before root-sum-square is called unfit. Our choice. */
const BENT = 0.2;
/** Up to so many spreads are tried at all corners. */
const MOST_CORNERS = 4;

export function evaluateMargin(q: MarginQuery, method: Method, chance: Chance): Margin {
  const effects = effectsOf(q);
  const nominal = at(q, []);
  const found = method === 'random' ? byChance(q, effects, chance) : method === 'rss' ? byRss(q, effects) : byExtremes(q, effects, nominal);
  const { what, at: place, button, unit, must, limit, source } = q;
  return {
    what,
    at: place,
    ...(button === undefined ? {} : { button }),
    unit,
    must,
    method,
    nominal,
    limit,
    source,
    holds: roomOf(q, found.worst) >= 0,
    turning: [],
    ...found,
  };
}

type Found = Pick<Margin, 'worst'> & Partial<Pick<Margin, 'dominant' | 'turning' | 'runs' | 'failing' | 'bent'>>;

/** The figure with the first spreads at these values, the others nominal. A bench that cannot be built has no figure. */
const at = (q: MarginQuery, values: readonly number[], spreads: readonly Tolerance[] = q.spreads): number => {
  const seen = q.trial(spreads, values);
  return seen ? q.read(seen) : Number.NaN;
};

interface Effect {
  readonly spread: Tolerance;
  readonly low: number;
  readonly high: number;
  readonly idle: boolean;
}

/** Each spread by itself at its bounds. */
function effectsOf(q: MarginQuery): Effect[] {
  const nominal = at(q, []);
  return q.spreads.map((spread) => {
    const alone = [spread];
    const low = at(q, [spread.least], alone);
    const high = at(q, [spread.most], alone);
    return { spread, low, high, idle: Math.max(Math.abs(low - nominal), Math.abs(high - nominal)) <= IDLE * Math.abs(nominal) };
  });
}

function byExtremes(q: MarginQuery, effects: readonly Effect[], nominal: number): Found {
  const active = effects.filter((e) => !e.idle).map((e) => e.spread);
  const y = (x: readonly number[]) => at(q, x, active);
  const found = extremes(y, active, { mostCorners: MOST_CORNERS, pieces: 2, alike: ALIKE });
  const down = q.must === 'at-least';
  const worst = down ? Math.min(found.least, found.seen.least) : Math.max(found.most, found.seen.most);
  const place = down ? found.atLeast : found.atMost;
  const dominant = dominantOf(
    active.map((spread, i) => {
      const value = place[i] ?? spread.nominal;
      return { spread, value, weight: Math.abs(at(q, [value], [spread]) - nominal) };
    }),
  );
  return { worst, ...(dominant ? { dominant } : {}), turning: found.turning.map((i) => `${active[i]?.part}.${active[i]?.figure}`) };
}

/** Sensitivities are taken from bound to bound: a simulation's figures are too coarse for finer differences. */
function byRss(q: MarginQuery, effects: readonly Effect[]): Found {
  const slopes = effects.map(({ spread, low, high }) => (high - low) / (spread.most - spread.least));
  const found = rootSumSquare((x) => at(q, x), q.spreads, slopes);
  const down = q.must === 'at-least';
  const bias = down ? found.biasDown : found.biasUp;
  const total = Math.hypot(...found.random);
  const worstValues = effects.map(({ spread, low, high }) => (low < high === down ? spread.least : spread.most));
  // all at their worst bounds: what the sensitivities predict, and what is so; nothing by chance is worse than that
  const steps = effects.map(({ spread }, i) => (slopes[i] as number) * ((worstValues[i] as number) - spread.nominal));
  const predicted = found.nominal + steps.reduce((a, b) => a + b, 0);
  const corner = at(q, worstValues);
  const bent = Math.abs(predicted - corner) > BENT * Math.abs(found.nominal - corner);
  const bound = down ? Math.max(found.least, corner) : Math.min(found.most, corner);
  const dominant = dominantOf(
    effects.map(({ spread }, i) => ({
      spread,
      value: worstValues[i] as number,
      weight: Math.abs(bias[i] as number) + (total > 0 ? (found.random[i] as number) ** 2 / total : 0),
    })),
  );
  return { worst: bound, ...(dominant ? { dominant } : {}), ...(bent ? { bent: true as const } : {}) };
}

function byChance(q: MarginQuery, effects: readonly Effect[], { seed, runs }: Chance): Found {
  const values = draw(q.drawn, { runs, seed, shape: 'normal' }).map((x) => at(q, x, q.drawn));
  const { least, most, failing } = summarise(values, (figure) => roomOf(q, figure) >= 0);
  const down = q.must === 'at-least';
  const nominal = at(q, []);
  const dominant = dominantOf(
    effects.map(({ spread, low, high }) => {
      const [value, figure] = low < high === down ? [spread.least, low] : [spread.most, high];
      return { spread, value, weight: Math.abs(figure - nominal) };
    }),
  );
  return { worst: down ? least : most, ...(dominant ? { dominant } : {}), runs, failing };
}

/** The heaviest; of equals the first. */
function dominantOf(
  weighed: readonly { readonly spread: Tolerance; readonly value: number; readonly weight: number }[],
): Dominant | undefined {
  const total = weighed.reduce((sum, w) => sum + w.weight, 0);
  let heaviest = weighed[0];
  for (const w of weighed) if (w.weight > (heaviest?.weight ?? 0)) heaviest = w;
  if (!heaviest || !(total > 0)) return undefined;
  const { part, figure, unit, nominal, source } = heaviest.spread;
  return { part, figure, unit, nominal, value: heaviest.value, share: heaviest.weight / total, source };
}
