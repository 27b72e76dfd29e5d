/** The way of every wire: bowed so that it keeps off bodies, off LEDs, and off the wires laid before it; and round the end of a chip rather than over its print. */

import { makeField, type Obstacle } from './cost-grid.ts';
import { type Box, holds, type Spot } from './geometry.ts';
import { bowed, type Curve, type Run, roughLength, rounded, samples, straight, usualBow } from './wire-curves.ts';

/** Cost of a pitch of bow, and of its square; of a pitch of way more than straight. */
const PER_PITCH = 0.4;
const PER_SQUARE = 0.11;
const PER_DETOUR = 0.2;
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

/** Bows to try [pitch], the one a hand would give it first, then in steps of a wire's own width to both sides. */
function bows(long: number): number[] {
  const usual = usualBow(long);
  const steps = Math.min(14, Math.ceil((0.42 * long) / 0.55));
  return [usual, ...Array.from({ length: steps }, (_, i) => [usual + (i + 1) * 0.55, usual - (i + 1) * 0.55]).flat()];
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
    let best = bowed(run, usualBow(long));
    let least = Number.POSITIVE_INFINITY;
    const offer = (curve: Curve, base: number) => {
      if (base >= least) return;
      const cost = field.cost(curve, base, least);
      if (cost < least) [least, best] = [cost, curve];
    };
    for (const bow of bows(long)) offer(bowed(run, bow), Math.abs(bow) * PER_PITCH + bow * bow * PER_SQUARE);
    const along = samples(best, Math.max(6, 2 * Math.round(long)));
    // chips below each other have the same lanes
    const crossed = new Map(
      printed.filter(({ box }) => along.some((spot) => holds(box, spot))).map(({ box }) => [`${box.x} ${box.width}`, box]),
    );
    for (const box of crossed.values())
      for (let lane = 0; lane < LANES; lane++)
        for (const x of [box.x - FIRST_LANE - lane * LANE, box.x + box.width + FIRST_LANE + lane * LANE])
          for (const [leaves, comes] of TURNS) {
            const curve = rounded(run, x, lane, leaves, comes);
            if (curve) offer(curve, PER_DETOUR * (roughLength(curve) - long));
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
