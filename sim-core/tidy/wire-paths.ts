/**
 * How wires are drawn, on the page and on paper: straight from hole to hole; with a corner where that keeps one off a part or a name, and half a pitch aside
 * where it would lie over something in its own line.
 *
 * A wire is straight unless something lies under the straight line between its ends. Its path follows from the plan near it, where every other wire counts as
 * straight: never from the order in which wires were laid.
 */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { type DrawnBench, drawnBench } from './drawn-bench.ts';
import { type Body, cross, goesOver, lengthOf, liesOn, type Segment, stretchOver } from './lines.ts';

/** From one end to the other by its corners, straight from each to the next [pitch]. */
export type WirePath = ReadonlyArray<readonly [x: number, y: number]>;

/** A wire between two spots [pitch]. */
export interface WireRun {
  readonly id: string;
  readonly from: readonly [x: number, y: number];
  readonly to: readonly [x: number, y: number];
}

/** What wires keep off, and how much: `OBSTACLE_WEIGHT` for what is known. */
export interface Obstacle extends Body {
  readonly weight: number;
  /** a terminal: wires that end here are not kept off it */
  readonly ends?: readonly [x: number, y: number];
}

/** Of going over a part or a name; our choice. A corner is worth it for all but a resistor's or a capacitor's body. */
export const OBSTACLE_WEIGHT = { chip: 40, part: 40, name: 10, led: 5, passive: 0.6 } as const;

const CORNER = 1.5;
/** of a pitch more than straight */
const DETOUR = 1;
const CROSSING = 9;
/** of something in its own line; and how far aside it is drawn then [pitch] */
const LIES_ON = 9;
const ASIDE = 0.5;
/** From an obstacle's edge to a corner beside it, and from one lane to the next [pitch]. */
const CLEAR = 0.5;
const LANE = 0.5;
/** Each pitch over an obstacle costs this part of its weight besides. */
const PER_PITCH = 0.02;
/** Only round what is worth a corner. */
const WORTH = 4;

/** Paths by wire id. lines: parts with two legs that bend, over which no wire lies lengthwise. */
export function wirePaths(
  runs: readonly WireRun[],
  obstacles: readonly Obstacle[],
  lines: readonly Segment[],
): ReadonlyMap<string, WirePath> {
  const all = runs.map(segmentOf);
  // of equal paths the same is found, in whatever order the parts are given
  const sorted = [...obstacles].sort(
    (a, b) => b.weight - a.weight || a.left - b.left || a.top - b.top || a.right - b.right || a.bottom - b.bottom,
  );
  return new Map(
    runs.map((run, i) => {
      const own = all[i] as Segment;
      const yields = (other: Segment, k: number) => k !== i && givesWay(own, other) && liesOn(own, other);
      const inLine = lines.some((other) => liesOn(own, other)) || all.some(yields);
      const others: Others = { lines, wires: all.filter((_, k) => k !== i) };
      return [run.id, cheapest(run, keptOff(run, sorted), others, inLine)];
    }),
  );
}

const keptOff = ({ from, to }: WireRun, obstacles: readonly Obstacle[]): readonly Obstacle[] =>
  obstacles.filter(({ ends }) => !ends || ![from, to].some(([x, y]) => x === ends[0] && y === ends[1]));

/** What is plugged in besides a wire: parts with two legs, and all other wires. */
interface Others {
  readonly lines: readonly Segment[];
  readonly wires: readonly Segment[];
}

/** Straight; or with the corner that takes it round what is in its way on the shortest path over nothing, if there is one. */
export function roundBodies(straight: Segment, bodies: readonly Body[]): readonly Segment[] {
  const inTheWay = bodies.filter((body) => goesOver(straight, body));
  const { ax, ay, bx, by } = straight;
  let best: readonly Segment[] = [straight];
  let least = Number.POSITIVE_INFINITY;
  for (const [x, y] of inTheWay.length === 0 ? [] : ([[bx, ay], [ax, by], ...inTheWay.flatMap(cornersBeside)] as const)) {
    const parts = [
      { ax, ay, bx: x, by: y },
      { ax: x, ay: y, bx, by },
    ];
    const length = parts.reduce((sum, part) => sum + lengthOf(part), 0);
    if (length >= least || bodies.some((body) => parts.some((part) => goesOver(part, body)))) continue;
    [best, least] = [parts, length];
  }
  return best;
}

/** Paths of a plan's wires among its parts, by wire id. Fails with `plan/…` if something cannot be where the plan says. */
export function pathsOfPlan(plan: Plan): Outcome<ReadonlyMap<string, WirePath>> {
  const drawn = drawnBench(plan);
  return drawn.ok ? done(pathsOnBench(drawn.value)) : drawn;
}

export function pathsOnBench({ strokes, bodies }: DrawnBench): ReadonlyMap<string, WirePath> {
  const runs = strokes.flatMap(({ id, is, line }): WireRun[] =>
    is === 'wire' ? [{ id, from: [line.ax, line.ay], to: [line.bx, line.by] }] : [],
  );
  return wirePaths(
    runs,
    bodies.map((body): Obstacle => ({ ...body, weight: body.led ? OBSTACLE_WEIGHT.led : OBSTACLE_WEIGHT.chip })),
    strokes.flatMap(({ is, line }) => (is === 'part' ? [line] : [])),
  );
}

const segmentOf = ({ from: [ax, ay], to: [bx, by] }: WireRun): Segment => ({ ax, ay, bx, by });
export const segmentsOf = (path: WirePath): Segment[] =>
  path.slice(1).map(([bx, by], i) => ({ ax: path[i]?.[0] ?? bx, ay: path[i]?.[1] ?? by, bx, by }));

/** Of two wires in one line the longer one is drawn aside; of equals the one that ends farther to the right or below. */
function givesWay(own: Segment, other: Segment): boolean {
  const longer = lengthOf(own) - lengthOf(other);
  if (Math.abs(longer) > 1e-9) return longer > 0;
  const place = ({ ax, ay, bx, by }: Segment) => (ax + bx) * 1000 + ay + by;
  return place(own) > place(other);
}

function cheapest(run: WireRun, obstacles: readonly Obstacle[], others: Others, inLine: boolean): WirePath {
  const straight = segmentOf(run);
  const inTheWay = obstacles.filter((o) => o.weight >= WORTH && goesOver(straight, o));
  let best: WirePath = [run.from, run.to];
  if (inTheWay.length === 0 && !inLine) return best;
  let least = costOf(best, straight, obstacles, others);
  const offer = (path: WirePath) => {
    const cost = costOf(path, straight, obstacles, others);
    if (cost < least - 1e-9) [best, least] = [path, cost];
  };
  if (inLine) for (const side of [ASIDE, -ASIDE]) offer(aside(run, side));
  if (inTheWay.length === 0) return best;
  const [[ax, ay], [bx, by]] = [run.from, run.to];
  // what is no way round is no better than straight
  const offerClear = (path: WirePath) => inTheWay.some((o) => overAny(path, o)) || offer(path);
  for (const corner of [[bx, ay], [ax, by], ...inTheWay.flatMap(cornersBeside)] as const) offerClear([run.from, corner as Spot, run.to]);
  // one corner does not do: round an end of what is in the way
  if (inTheWay.some((o) => overAny(best, o))) for (const o of inTheWay) for (const path of lanesRound(run, o)) offerClear(path);
  return best;
}

type Spot = WirePath[number];

const overAny = (path: WirePath, o: Obstacle): boolean => segmentsOf(path).some((s) => goesOver(s, o));

function costOf(path: WirePath, straight: Segment, obstacles: readonly Obstacle[], { lines, wires }: Others): number {
  const parts = segmentsOf(path);
  const length = parts.reduce((sum, s) => sum + lengthOf(s), 0);
  let cost = CORNER * Math.min(1, path.length - 2) + 0.5 * Math.max(0, path.length - 3) + DETOUR * (length - lengthOf(straight));
  for (const o of obstacles) {
    const over = parts.reduce((sum, s) => sum + stretchOver(s, o), 0);
    if (over > 0) cost += o.weight * (1 + PER_PITCH * over);
  }
  for (const part of parts) {
    // a step aside lies on nothing
    const step = lengthOf(part) < 1;
    for (const other of wires) {
      if (cross(part, other)) cost += CROSSING;
      if (!step && liesOn(part, other)) cost += LIES_ON;
    }
    if (!step) for (const other of lines) if (liesOn(part, other)) cost += LIES_ON;
  }
  return cost;
}

/** Beside the straight line, from a little behind one end to a little before the other. */
function aside({ from: [ax, ay], to: [bx, by] }: WireRun, by_: number): WirePath {
  const length = Math.hypot(bx - ax, by - ay) || 1;
  const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
  // to the right or below, whichever way the wire was laid
  const side = (Math.abs(uy) >= Math.abs(ux) ? -Math.sign(uy) : Math.sign(ux)) * by_;
  const shifted = (x: number, y: number, along: number): Spot => [x + ux * along - uy * side, y + uy * along + ux * side];
  return [[ax, ay], shifted(ax, ay, ASIDE), shifted(bx, by, -ASIDE), [bx, by]];
}

const cornersBeside = ({ left, right, top, bottom }: Body): Spot[] => [
  [left - CLEAR, top - CLEAR],
  [right + CLEAR, top - CLEAR],
  [left - CLEAR, bottom + CLEAR],
  [right + CLEAR, bottom + CLEAR],
];

/** Square, round each side of an obstacle: the farther in a wire begins, the farther out its lane, so that wires lie inside each other. */
function lanesRound({ from, to }: WireRun, { left, right, top, bottom }: Obstacle): WirePath[] {
  const upper = from[1] < to[1] || (from[1] === to[1] && from[0] < to[0]) ? from : to;
  const leftmost = from[0] < to[0] || (from[0] === to[0] && from[1] < to[1]) ? from : to;
  const out = (inside: number) => CLEAR + LANE * Math.max(0, Math.round(inside));
  const along = [left - out(upper[0] - left), right + out(right - upper[0])];
  const over = [top - out(leftmost[1] - top), bottom + out(bottom - leftmost[1])];
  return [
    ...along.map((x): WirePath => [from, [x, from[1]], [x, to[1]], to]),
    ...over.map((y): WirePath => [from, [from[0], y], [to[0], y], to]),
  ];
}
