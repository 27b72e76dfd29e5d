/** The ways of wires: straight from hole to hole, or in straight runs with square corners, beside or round what is in the way. */
import type { Spot } from './geometry.ts';

/** Cubic curves end to end: a spot, and three more for each [pitch]. Those of wires are straight runs. */
export type Curve = readonly Spot[];

export interface Run {
  readonly id: string;
  readonly from: Spot;
  readonly to: Spot;
}

const away = (p: Spot, q: Spot) => Math.hypot(p[0] - q[0], p[1] - q[1]);
export const straight = ({ from, to }: Run): number => away(from, to);

/** A curve's length by the spots that bend it, a little more than its own, in whole pitches. */
export const roughLength = (curve: Curve): number =>
  Math.max(3, Math.round(curve.reduce((sum, spot, i) => sum + away(curve[i - 1] ?? spot, spot), 0)));

/** Along the curve in about n steps, dealt to its pieces by their length, until `does` answers false. last: the other end. */
export function eachSpot(curve: Curve, n: number, does: (x: number, y: number, last: boolean) => boolean): void {
  const pieces = (curve.length - 1) / 3;
  const at = (i: number): Spot => curve[i] ?? [0, 0];
  const lengthOf = (k: number) => away(at(k), at(k + 1)) + away(at(k + 1), at(k + 2)) + away(at(k + 2), at(k + 3));
  let whole = 0;
  for (let k = 0; k < pieces; k++) whole += lengthOf(3 * k);
  if (!does(at(0)[0], at(0)[1], false)) return;
  for (let k = 0; k < pieces; k++) {
    const [a, b, c, d] = [at(3 * k), at(3 * k + 1), at(3 * k + 2), at(3 * k + 3)];
    const steps = pieces === 1 ? n : Math.max(1, Math.round((n * lengthOf(3 * k)) / (whole || 1)));
    for (let i = 1; i <= steps; i++) {
      const t = i / steps;
      const u = 1 - t;
      const [k0, k1, k2, k3] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
      const [x, y] = [k0 * a[0] + k1 * b[0] + k2 * c[0] + k3 * d[0], k0 * a[1] + k1 * b[1] + k2 * c[1] + k3 * d[1]];
      if (!does(x, y, k === pieces - 1 && i === steps)) return;
    }
  }
}

export function samples(curve: Curve, n: number): Spot[] {
  const spots: Spot[] = [];
  eachSpot(curve, n, (x, y) => spots.push([x, y]) > 0);
  return spots;
}

/** Straight runs from corner to corner. */
function through(corners: readonly Spot[]): Curve {
  const [first] = corners;
  if (!first) return [];
  return [
    first,
    ...corners.slice(1).flatMap((to, i): Spot[] => {
      const from = corners[i] ?? first;
      const [dx, dy] = [(to[0] - from[0]) / 3, (to[1] - from[1]) / 3];
      return [[from[0] + dx, from[1] + dy], [from[0] + 2 * dx, from[1] + 2 * dy], to];
    }),
  ];
}

/** Straight from hole to hole. */
export const direct = ({ from, to }: Run): Curve => through([from, to]);

/** Up or down to a lane at y, along it, and up or down to the other end. */
export const overLane = ({ from, to }: Run, y: number): Curve => through([from, [from[0], y], [to[0], y], to]);

/** Left or right to a lane at x, along it, and left or right to the other end. */
export const alongLane = ({ from, to }: Run, x: number): Curve => through([from, [x, from[1]], [x, to[1]], to]);

/** How far a wire goes out of its hole before it turns, and how much more for each pitch to its lane, so that lanes nest [pitch]. */
const REACH = 0.5;
const REACH_EACH = 0.5;
const MOST_REACH = 6;

/** Up (−1) or down (1) out of its hole, square to the lane at x, along it, and square into the other; undefined where the holes are too near for that. */
export function roundLane({ from, to }: Run, x: number, lane: number, leaves: number, comes: number): Curve | undefined {
  const reach = Math.min(MOST_REACH, REACH + REACH_EACH * lane);
  const [top, bottom] = [from[1] + leaves * reach, to[1] + comes * reach];
  const along = to[1] < from[1] ? -1 : 1;
  if (along * (bottom - top) < 0) return undefined;
  return through([from, [from[0], top], [x, top], [x, bottom], [to[0], bottom], to]);
}
