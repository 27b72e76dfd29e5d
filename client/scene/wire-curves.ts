/** The curves of wires: as a hand bows one from hole to hole, and as one is led round the end of a chip. */
import type { Spot } from './geometry.ts';

/** Cubic curves end to end: a spot, and three more for each [pitch]. */
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

export function bowed(run: Run, bow: number): Curve {
  const { from, to } = run;
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = straight(run) || 1;
  // the normal always points the same way for wires that run alike, so that bundles nest
  const side = (dx < 0 || (dx === 0 && dy < 0) ? -1.33 : 1.33) * bow;
  const [nx, ny] = [(-dy / long) * side, (dx / long) * side];
  return [from, [from[0] + dx * 0.2 + nx, from[1] + dy * 0.2 + ny], [from[0] + dx * 0.8 + nx, from[1] + dy * 0.8 + ny], to];
}

/** The bow that a hand gives a wire of such a length, with nothing in its way. */
export const usualBow = (long: number): number => Math.min(0.09 * long, 1.8);

export const handCurve = (run: Run): Curve => bowed(run, usualBow(straight(run)));

/** How far a bend reaches above its hole, and how much more for each pitch to its lane; how much of that the lane begins beyond the hole. */
const REACH = 0.9;
const REACH_EACH = 0.06;
const REACH_LANE = 0.35;
const MOST_REACH = 5;
const BEYOND = 0.4;

/** The bend between a hole and its lane at x, as its two inner spots and where it joins the lane. leaves: up (−1) or down (1); along: which way the lane goes from here. */
function bend([hx, hy]: Spot, x: number, lane: number, leaves: number, along: number): readonly [Spot, Spot, Spot] {
  const wide = Math.abs(hx - x);
  const reach = Math.min(MOST_REACH, REACH + REACH_EACH * wide + REACH_LANE * lane);
  if (leaves !== along)
    return [
      [hx, hy + leaves * reach * 1.33],
      [x, hy + leaves * reach * 1.33],
      [x, hy + along * BEYOND],
    ];
  const drop = 1.2 + 0.35 * wide;
  return [
    [hx, hy + along * drop * 0.6],
    [x, hy + along * drop * 0.4],
    [x, hy + along * drop],
  ];
}

/** Up or down out of its hole, along the lane at x, and up or down into the other; undefined where the holes are too near for that. */
export function rounded({ from, to }: Run, x: number, lane: number, leaves: number, comes: number): Curve | undefined {
  const along = to[1] < from[1] ? -1 : 1;
  const [a, b, top] = bend(from, x, lane, leaves, along);
  const [d, c, bottom] = bend(to, x, lane, comes, -along);
  if (along * (bottom[1] - top[1]) < 0) return undefined;
  const third = (bottom[1] - top[1]) / 3;
  return [from, a, b, top, [x, top[1] + third], [x, bottom[1] - third], bottom, c, d, to];
}
