/**
 * Bounds of a figure y(x₁ … xₙ) whose variables lie within bounds of their own: sensitivity, extreme value, root-sum-square. Pure mathematics, no electronics.
 *
 * The methods are those that ECSS-Q-HB-30-01A (2011) names for worst-case analysis; its equations were not read, the ones here are from memory and standard.
 * Which method holds when (SOURCES.md S94, S97): extreme value guarantees, if y is monotone in every variable; root-sum-square assumes besides that the
 * variables are independent, their random parts near normal, and the sensitivities near constant.
 */

export interface Variable {
  readonly nominal: number;
  readonly least: number;
  readonly most: number;
  /** half width of what is random in it, as three sigma; the rest of the bounds is bias. Without it: the nearer bound's distance. */
  readonly random?: number;
}

/** y at values of its variables, in their order. */
export type FigureFunction = (x: readonly number[]) => number;

export interface Sensitivity {
  /** dy/dx at nominal, by central difference */
  readonly slope: number;
  /** y with this one at its most, minus y with it at its least, all others nominal */
  readonly swing: number;
  /** false: y turns round between the bounds of this one, the others nominal */
  readonly monotone: boolean;
}

export interface Extremes {
  readonly nominal: number;
  readonly least: number;
  readonly most: number;
  /** where they are: one value a variable */
  readonly atLeast: readonly number[];
  readonly atMost: readonly number[];
  /** 'corners': all 2ⁿ were tried; 'signs': the corner that the sensitivities point to, then every one-step neighbour until none is worse */
  readonly by: 'corners' | 'signs';
  /**
   * Variables (their positions) in which y turns round inside the bounds: then a point inside may be worse than any corner, and nothing is guaranteed.
   * Looked for along lines through the nominal point and through both corners found, not everywhere.
   */
  readonly turning: readonly number[];
  /** the least and the most that were seen anywhere, inside included; beyond `least` and `most` only if something turns */
  readonly seen: { readonly least: number; readonly most: number };
}

interface Care {
  /** up to so many variables all corners are tried: 2ⁿ evaluations */
  readonly mostCorners?: number;
  /** pieces into which each variable's range is cut to see whether y turns round in it; 2 or more */
  readonly pieces?: number;
  /** below this share of the largest value two values count as one: rounding, or the error of a simulation's steps */
  readonly alike?: number;
}

const ALIKE = 1e-9;
/** Half a central difference's step as a share of the range. */
const STEP = 1e-3;

const nominalOf = (v: readonly Variable[]): number[] => v.map((x) => x.nominal);
const withOne = (x: readonly number[], i: number, value: number): number[] => x.map((old, k) => (k === i ? value : old));

/** dy/dx of each variable at nominal. */
function slopes(y: FigureFunction, variables: readonly Variable[]): number[] {
  const at = nominalOf(variables);
  return variables.map(({ nominal, least, most }, i) => {
    const h = STEP * (most - least);
    if (h === 0) return 0;
    return (y(withOne(at, i, nominal + h)) - y(withOne(at, i, nominal - h))) / (2 * h);
  });
}

/** Each variable by itself from bound to bound, the others nominal. */
export function sensitivities(y: FigureFunction, variables: readonly Variable[], { pieces = 4, alike = ALIKE }: Care = {}): Sensitivity[] {
  const slope = slopes(y, variables);
  const lines = walkLines(y, variables, nominalOf(variables), pieces);
  return lines.map((values, i) => ({ slope: slope[i] as number, swing: swingOf(values), monotone: !turns(values, alike) }));
}

/** y along each variable's range, the others as in `at`: pieces + 1 values a variable, bounds included. */
function walkLines(y: FigureFunction, variables: readonly Variable[], at: readonly number[], pieces: number): number[][] {
  return variables.map(({ least, most }, i) =>
    least === most
      ? []
      : Array.from({ length: pieces + 1 }, (_, k) => y(withOne(at, i, k === pieces ? most : least + ((most - least) * k) / pieces))),
  );
}

const swingOf = (values: readonly number[]): number => (values.at(-1) ?? 0) - (values[0] ?? 0);

function turns(values: readonly number[], alike: number): boolean {
  const scale = alike * Math.max(...values.map(Math.abs));
  let [rises, falls] = [false, false];
  for (let k = 1; k < values.length; k++) {
    const step = (values[k] as number) - (values[k - 1] as number);
    if (step > scale) rises = true;
    if (step < -scale) falls = true;
  }
  return rises && falls;
}

/** Least and most of y over the bounds' corners. Bias and random parts count in full. */
export function extremes(y: FigureFunction, variables: readonly Variable[], care: Care = {}): Extremes {
  const { mostCorners = 12, pieces = 4, alike = ALIKE } = care;
  const at = nominalOf(variables);
  const nominal = y(at);
  const lines = walkLines(y, variables, at, pieces);
  const moving = variables.flatMap((v, i) => (v.least === v.most ? [] : [i]));
  const by = moving.length <= mostCorners ? 'corners' : 'signs';
  const [low, high] =
    by === 'corners'
      ? bestCorners(y, variables, at, moving)
      : [climb(y, variables, at, moving, lines, -1, alike), climb(y, variables, at, moving, lines, 1, alike)];
  // what is monotone beside the nominal point may turn round beside a corner
  const atCorners = [low.x, high.x].map((x) => walkLines(y, variables, x, Math.max(2, pieces >> 1)));
  const all = [nominal, low.y, high.y, ...lines.flat(), ...atCorners.flat(2)];
  return {
    nominal,
    least: low.y,
    most: high.y,
    atLeast: low.x,
    atMost: high.x,
    by,
    turning: moving.filter((i) => [lines, ...atCorners].some((l) => turns(l[i] as number[], alike))),
    seen: { least: Math.min(...all), most: Math.max(...all) },
  };
}

interface Point {
  readonly x: readonly number[];
  readonly y: number;
}

/** All corners in order, the first variable changing fastest; of equals the first stays. */
function bestCorners(y: FigureFunction, variables: readonly Variable[], at: readonly number[], moving: readonly number[]): [Point, Point] {
  let low: Point | undefined;
  let high: Point | undefined;
  for (let corner = 0; corner < 2 ** moving.length; corner++) {
    const x = [...at];
    for (const [bit, i] of moving.entries()) x[i] = boundOf(variables[i] as Variable, (corner >> bit) & 1 ? 1 : -1);
    const here = { x, y: y(x) };
    if (!low || here.y < low.y) low = here;
    if (!high || here.y > high.y) high = here;
  }
  const nowhere = { x: at, y: y(at) };
  return [low ?? nowhere, high ?? nowhere];
}

const boundOf = ({ least, most }: Variable, side: number): number => (side > 0 ? most : least);

/** From the corner that the swings point to, one variable at a time to its other bound as long as that helps; way: 1 for the most, −1 for the least. */
function climb(
  y: FigureFunction,
  variables: readonly Variable[],
  at: readonly number[],
  moving: readonly number[],
  lines: readonly (readonly number[])[],
  way: 1 | -1,
  alike: number,
): Point {
  const sides = at.map((_, i) => Math.sign(swingOf(lines[i] as number[])) * way);
  const place = () => variables.map((v, i) => boundOf(v, sides[i] as number));
  let best: Point = { x: place(), y: y(place()) };
  for (let better = true; better; ) {
    better = false;
    for (const i of moving) {
      sides[i] = (sides[i] as number) > 0 ? -1 : 1;
      const here = { x: place(), y: y(place()) };
      if ((here.y - best.y) * way > alike * Math.abs(best.y)) {
        best = here;
        better = true;
      } else sides[i] = -(sides[i] as number);
    }
  }
  return best;
}

export interface RootSumSquare {
  readonly nominal: number;
  readonly least: number;
  readonly most: number;
  /** what each variable brings: |slope · random part|, and its bias towards less and more */
  readonly random: readonly number[];
  readonly biasDown: readonly number[];
  readonly biasUp: readonly number[];
}

/** y₀ + Σ bias of one sign ± √Σ(Sᵢ·rᵢ)²: biases add, random parts add as squares. Three sigma if the parts' random halves are. */
export function rootSumSquare(
  y: FigureFunction,
  variables: readonly Variable[],
  slope: readonly number[] = slopes(y, variables),
): RootSumSquare {
  const nominal = y(nominalOf(variables));
  const parts = variables.map((v, i) => {
    const s = slope[i] as number;
    const [below, above] = [v.nominal - v.least, v.most - v.nominal];
    const random = v.random ?? Math.min(below, above);
    const biases = [s * (above - random), -s * (below - random), 0];
    return { random: Math.abs(s) * random, down: Math.min(...biases), up: Math.max(...biases) };
  });
  const spread = Math.hypot(...parts.map((p) => p.random));
  const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
  const biasDown = parts.map((p) => p.down);
  const biasUp = parts.map((p) => p.up);
  return {
    nominal,
    least: nominal + sum(biasDown) - spread,
    most: nominal + sum(biasUp) + spread,
    random: parts.map((p) => p.random),
    biasDown,
    biasUp,
  };
}
