/** The curve of every lead: from hole to hole, bowed so that it keeps off bodies, off lamps, and off the leads laid before it. */
import { type Box, holds, type Spot } from './geometry.ts';

/** A cubic curve by its four points [pitch]. */
export type Curve = readonly [Spot, Spot, Spot, Spot];

export interface Run {
  readonly id: string;
  readonly from: Spot;
  readonly to: Spot;
}

/** What leads keep off, and how much: a lead may well pass over a resistor, hardly over a lamp or a chip's name. */
export interface Obstacle {
  readonly box: Box;
  readonly weight: number;
}

/** Cost of one sample on another lead, of one beyond the boards, of a pitch of bow, and of its square. */
const ON_LEAD = 1.8;
const OUTSIDE = 0.2;
const PER_PITCH = 0.4;
const PER_SQUARE = 0.11;

const pointOn = ([a, b, c, d]: Curve, t: number): Spot => {
  const u = 1 - t;
  const [k0, k1, k2, k3] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return [k0 * a[0] + k1 * b[0] + k2 * c[0] + k3 * d[0], k0 * a[1] + k1 * b[1] + k2 * c[1] + k3 * d[1]];
};

export const samples = (curve: Curve, n: number): Spot[] => Array.from({ length: n + 1 }, (_, i) => pointOn(curve, i / n));

/** Bows to try [pitch], the one a hand would give it first, then in steps of a lead's own width to both sides. */
function bows(long: number): number[] {
  const usual = Math.min(0.09 * long, 1.8);
  const steps = Math.min(14, Math.ceil((0.42 * long) / 0.55));
  return [usual, ...Array.from({ length: steps }, (_, i) => [usual + (i + 1) * 0.55, usual - (i + 1) * 0.55]).flat()];
}

function bowed({ from, to }: Run, bow: number): Curve {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(dx, dy) || 1;
  // the normal always points the same way for leads that run alike, so that bundles nest
  const side = (dx < 0 || (dx === 0 && dy < 0) ? -1.33 : 1.33) * bow;
  const [nx, ny] = [(-dy / long) * side, (dx / long) * side];
  return [from, [from[0] + dx * 0.2 + nx, from[1] + dy * 0.2 + ny], [from[0] + dx * 0.8 + nx, from[1] + dy * 0.8 + ny], to];
}

/** The bow that a hand gives a lead, with nothing in its way. */
export const handCurve = (run: Run): Curve =>
  bowed(run, Math.min(0.09 * Math.hypot(run.to[0] - run.from[0], run.to[1] - run.from[1]), 1.8));

/** A lead's way, and the cells of half a pitch that it passes through. */
export interface Way {
  readonly curve: Curve;
  readonly cells: readonly number[];
}

/** Ways by lead id; those kept from before stay as they are, and the others are laid round them. Short leads are laid first: they have the least choice. Ties go by the plan's order. */
export function layLeads(
  runs: readonly Run[],
  bodies: readonly Obstacle[],
  boards: readonly Box[],
  kept: ReadonlyMap<string, Way> = new Map(),
): Map<string, Way> {
  const laid = new Map<string, Way>(kept);
  const unlaid = runs.filter((r) => !kept.has(r.id)).sort((p, q) => length(p) - length(q));
  if (unlaid.length === 0) return laid;
  const near = makeNear(bodies);
  /** how many leads pass through a cell */
  const busy = new Map<number, number>();
  const occupy = (cells: readonly number[]) => {
    for (const key of cells) busy.set(key, (busy.get(key) ?? 0) + 1);
  };
  for (const way of kept.values()) occupy(way.cells);
  for (const run of unlaid) {
    const long = length(run);
    const n = piecesOf(long);
    let best: Curve | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const bow of bows(long)) {
      const curve = bowed(run, bow);
      let cost = Math.abs(bow) * PER_PITCH + bow * bow * PER_SQUARE;
      for (const spot of samples(curve, n).slice(1, -1)) {
        for (const { box, weight } of near(spot)) if (holds(box, spot, 0.1)) cost += weight;
        cost += ON_LEAD * Math.min(3, busy.get(cell(spot)) ?? 0);
        if (!boards.some((b) => holds(b, spot))) cost += OUTSIDE;
      }
      if (cost < least) {
        least = cost;
        best = curve;
      }
    }
    if (!best) continue;
    const cells = [...new Set(samples(best, n * 2).map(cell))];
    laid.set(run.id, { curve: best, cells });
    occupy(cells);
  }
  return laid;
}

const cell = ([x, y]: Spot) => Math.round(x * 2 + 4000) * 10000 + Math.round(y * 2 + 4000);
const length = (r: Run) => Math.hypot(r.to[0] - r.from[0], r.to[1] - r.from[1]);
const piecesOf = (long: number) => Math.max(6, Math.min(60, Math.round(long * 2)));

/** Side of a square in which bodies are looked up [pitch], and how far beyond its box one is felt. */
const SQUARE = 4;
const FELT = 0.1;

/** The bodies that could hold a spot. */
function makeNear(bodies: readonly Obstacle[]): (spot: Spot) => readonly Obstacle[] {
  const squares = new Map<number, Obstacle[]>();
  const key = (i: number, j: number) => (i + 1000) * 4000 + j + 1000;
  const square = (v: number) => Math.floor(v / SQUARE);
  for (const body of bodies) {
    const { x, y, width, height } = body.box;
    for (let i = square(x - FELT); i <= square(x + width + FELT); i++)
      for (let j = square(y - FELT); j <= square(y + height + FELT); j++) {
        const list = squares.get(key(i, j));
        if (list) list.push(body);
        else squares.set(key(i, j), [body]);
      }
  }
  const none: readonly Obstacle[] = [];
  return ([x, y]) => squares.get(key(square(x), square(y))) ?? none;
}
