/** The ways of wires: straight from hole to hole, or in straight runs with square corners, beside or round what is in the way. */
import type { Spot } from './geometry.ts';

/** From one end to the other by its corners, straight from each to the next [pitch]. */
export type WirePath = readonly Spot[];

export interface Run {
  readonly id: string;
  readonly from: Spot;
  readonly to: Spot;
}

const away = (p: Spot, q: Spot) => Math.hypot(p[0] - q[0], p[1] - q[1]);
export const straight = ({ from, to }: Run): number => away(from, to);

const lengthOf = (path: WirePath): number => path.reduce((sum, spot, i) => sum + away(path[i - 1] ?? spot, spot), 0);

/** A path's length in whole pitches, three at least. */
export const roughLength = (path: WirePath): number => Math.max(3, Math.round(lengthOf(path)));

/** Along the path in about n steps, dealt to its runs by their length, until `does` answers false. last: the other end. */
export function eachSpot(path: WirePath, n: number, does: (x: number, y: number, last: boolean) => boolean): void {
  const whole = lengthOf(path) || 1;
  const [[x0, y0] = [0, 0]] = path;
  if (!does(x0, y0, false)) return;
  for (let k = 1; k < path.length; k++) {
    const [from = [0, 0], to = [0, 0]] = [path[k - 1], path[k]];
    const steps = Math.max(1, Math.round((n * away(from, to)) / whole));
    for (let i = 1; i <= steps; i++) {
      const t = i / steps;
      if (!does(from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1]), k === path.length - 1 && i === steps)) return;
    }
  }
}

export function samples(path: WirePath, n: number): Spot[] {
  const spots: Spot[] = [];
  eachSpot(path, n, (x, y) => spots.push([x, y]) > 0);
  return spots;
}

/** Straight from hole to hole. */
export const direct = ({ from, to }: Run): WirePath => [from, to];

/** Up or down to a lane at y, along it, and up or down to the other end. */
export const overLane = ({ from, to }: Run, y: number): WirePath => [from, [from[0], y], [to[0], y], to];

/** Left or right to a lane at x, along it, and left or right to the other end. */
export const alongLane = ({ from, to }: Run, x: number): WirePath => [from, [x, from[1]], [x, to[1]], to];
