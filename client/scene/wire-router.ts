/** The way of every wire: straight, or with square corners where that keeps it off bodies, LEDs and the wires laid before it; round the end of a chip rather than over its print. */

import { makeField, type Obstacle } from './cost-grid.ts';
import { type Box, holds, type Spot } from './geometry.ts';
import { alongLane, type Curve, direct, overLane, type Run, roughLength, roundLane, samples, straight } from './wire-curves.ts';

/** Cost of two corners, of four, and of a pitch of way more than straight. */
const TWO_CORNERS = 2.4;
const FOUR_CORNERS = 4;
const PER_DETOUR = 0.25;
/** Lanes beside a wire's ends: so far beyond them, and from lane to lane [pitch]. */
const BESIDE = 6;
const STEP = 0.5;
/** What it costs to run along a row of holes rather than between two. */
const ON_HOLES = 1.6;
/** A body of this weight is not to be crossed where there is a way round it; the first lane beside it, and from lane to lane: a wire's width and a gap [pitch]. */
const ROUND_FROM = 20;
const FIRST_LANE = 0.8;
const LANE = 0.7;
const LANES = 22;

/** A wire's way, and the cells of half a pitch that it passes through. */
export interface WireRoute {
  readonly curve: Curve;
  readonly cells: readonly number[];
}

/** Lanes between two ends and somewhat beyond them, those in the middle first; none lies on a row of holes with an end in it. */
function lanes(a: number, b: number): number[] {
  const middle = Math.round((a + b) / 2 / STEP) * STEP;
  const far = Math.abs(a - b) / 2 + BESIDE;
  const steps = Array.from({ length: Math.floor(far / STEP) }, (_, i) => (i + 1) * STEP);
  return [middle, ...steps.flatMap((d) => [middle + d, middle - d])];
}

/** Both ways out of a hole and into the other, those that turn first. */
const TURNS = [
  [-1, -1],
  [-1, 1],
  [1, -1],
  [1, 1],
] as const;

/** Ways by wire id; those kept from before stay as they are, and the others are laid round them. Short wires are laid first: they have the least choice. Ties go by the plan's order. */
export function layWires(
  runs: readonly Run[],
  bodies: readonly Obstacle[],
  boards: readonly Box[],
  kept: ReadonlyMap<string, WireRoute> = new Map(),
): Map<string, WireRoute> {
  const laid = new Map<string, WireRoute>(kept);
  const unlaid = runs.filter((r) => !kept.has(r.id)).sort((p, q) => straight(p) - straight(q));
  if (unlaid.length === 0) return laid;
  const field = makeField(
    bodies,
    boards,
    unlaid.flatMap((r): Spot[] => [r.from, r.to]),
  );
  for (const way of kept.values()) field.count(way.cells, 1);
  const printed = bodies.filter((b) => b.weight >= ROUND_FROM);

  const bestWay = (run: Run): Curve => {
    const long = straight(run);
    let best = direct(run);
    let least = Number.POSITIVE_INFINITY;
    const offer = (curve: Curve, base: number) => {
      if (base >= least) return;
      const cost = field.cost(curve, base, least);
      if (cost < least) [least, best] = [cost, curve];
    };
    offer(best, 0);
    const { from, to } = run;
    const detour = (curve: Curve) => PER_DETOUR * Math.max(0, roughLength(curve) - long);
    for (const [curveOf, across] of [
      [overLane, lanes(from[1], to[1])],
      [alongLane, lanes(from[0], to[0])],
    ] as const)
      for (const lane of across) {
        const curve = curveOf(run, lane);
        offer(curve, TWO_CORNERS + detour(curve) + (Number.isInteger(lane) ? ON_HOLES : 0));
      }
    const along = samples(best, Math.max(6, 2 * Math.round(long)));
    // chips below each other have the same lanes
    const crossed = new Map(
      printed.filter(({ box }) => along.some((spot) => holds(box, spot))).map(({ box }) => [`${box.x} ${box.width}`, box]),
    );
    for (const box of crossed.values())
      for (let lane = 0; lane < LANES; lane++)
        for (const x of [box.x - FIRST_LANE - lane * LANE, box.x + box.width + FIRST_LANE + lane * LANE])
          for (const [leaves, comes] of TURNS) {
            const curve = roundLane(run, x, lane, leaves, comes);
            if (curve) offer(curve, FOUR_CORNERS + detour(curve));
          }
    return best;
  };
  const lay = (run: Run) => {
    field.count(laid.get(run.id)?.cells ?? [], -1);
    const curve = bestWay(run);
    const cells = field.cells(curve);
    laid.set(run.id, { curve, cells });
    field.count(cells, 1);
  };
  for (const run of unlaid) lay(run);
  // once more, now that each can see all the others
  if (unlaid.length > 1) for (const run of unlaid) lay(run);
  return laid;
}
