/** The way of every wire: straight, or with square corners where that keeps it off bodies, LEDs and the wires laid before it; round the end of a chip rather than over its print. */

import { CostField, type Obstacle } from './cost-grid.ts';
import type { Box, Spot } from './geometry.ts';
import { alongLane, direct, overLane, type Run, roughLength, straight, type WirePath } from './wire-path.ts';

/** Cost of a corner, and of a pitch of way more than straight. */
const CORNER = 1.2;
const PER_DETOUR = 0.35;
/** What a pitch of a wire costs that runs across the grid; a short jumper may. */
const PER_SLANT = 1;
const SHORT = 5;
/** A way that costs as much as this is worth a search among all that are square. */
const DEAR = 6;
/** Lanes beside a wire's ends: so far beyond them, and from lane to lane [pitch]. */
const BESIDE = 6;
const STEP = 0.5;
/** What it costs to run along a row of holes rather than between two. */
const ON_HOLES = 1.6;
/** A wire's way, and the cells of half a pitch that it passes through. */
export interface WireRoute {
  readonly path: WirePath;
  readonly cells: readonly number[];
}

/** Lanes between two ends and somewhat beyond them, those in the middle first. */
function lanes(a: number, b: number): number[] {
  const middle = Math.round((a + b) / 2 / STEP) * STEP;
  const far = Math.abs(a - b) / 2 + BESIDE;
  const steps = Array.from({ length: Math.floor(far / STEP) }, (_, i) => (i + 1) * STEP);
  return [middle, ...steps.flatMap((d) => [middle + d, middle - d])];
}

const betweenHoles = (lane: number) => !Number.isInteger(lane);
const onHoles = (lane: number) => (betweenHoles(lane) ? 0 : ON_HOLES);

/** The search for one wire's cheapest way: ways are offered to it, and it keeps the best. */
class WaySearch {
  private least = Number.POSITIVE_INFINITY;
  /** the best way so far */
  best: WirePath;

  constructor(
    private readonly run: Run,
    private readonly field: CostField,
  ) {
    this.best = direct(run);
    this.least = field.cost(this.best, 0, Number.POSITIVE_INFINITY);
    const { from, to } = run;
    if (from[0] !== to[0] && from[1] !== to[1]) this.least += PER_SLANT * Math.max(0, straight(run) - SHORT);
  }

  /** base: what its corners and lanes cost, wherever they lie */
  offer(path: WirePath, base: number): void {
    const detour = PER_DETOUR * Math.max(0, roughLength(path) - straight(this.run));
    if (base + detour >= this.least) return;
    const cost = this.field.cost(path, base + detour, this.least);
    if (cost < this.least) [this.least, this.best] = [cost, path];
  }

  /** One lane between the ends or beside them. */
  offerLanes(): void {
    const { from, to } = this.run;
    for (const y of lanes(from[1], to[1])) this.offer(overLane(this.run, y), 2 * CORNER + onHoles(y));
    for (const x of lanes(from[0], to[0])) this.offer(alongLane(this.run, x), 2 * CORNER + onHoles(x));
  }

  /** Whatever square way is cheapest: for one that is dear as yet. */
  offerCheapest(): void {
    if (this.least < DEAR) return;
    const { from, to } = this.run;
    const most = this.least + PER_DETOUR * straight(this.run);
    const path = this.field.cheapest(from, to, { corner: CORNER, pitch: PER_DETOUR, most });
    if (path) this.offer(path, CORNER * (path.length - 2));
  }
}

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
  const ends = unlaid.flatMap((r): Spot[] => [r.from, r.to]);
  const field = new CostField(bodies, boards, ends);
  for (const way of kept.values()) field.count(way.cells, 1);
  const lay = (run: Run, thoroughly: boolean) => {
    field.count(laid.get(run.id)?.cells ?? [], -1);
    const search = new WaySearch(run, field);
    search.offerLanes();
    if (thoroughly) search.offerCheapest();
    const cells = field.cells(search.best);
    laid.set(run.id, { path: search.best, cells });
    field.count(cells, 1);
  };
  // twice: the second time each can see all the others, and only then it pays to search
  if (unlaid.length > 1) for (const run of unlaid) lay(run, false);
  for (const run of unlaid) lay(run, true);
  return laid;
}
