/** Places along a wire's path, for what follows it: the pointer, names, teeth. */
import type { WirePath } from '../../sim-core/index.ts';
import type { Spot } from './geometry.ts';

const away = (p: Spot, q: Spot) => Math.hypot(p[0] - q[0], p[1] - q[1]);

const lengthOf = (path: WirePath): number => path.reduce((sum, spot, i) => sum + away(path[i - 1] ?? spot, spot), 0);

/** A path's length in whole pitches, three at least. */
export const roughLength = (path: WirePath): number => Math.max(3, Math.round(lengthOf(path)));

/** Along the path in about n steps, dealt to its straight runs by their length; both ends and all corners among them. */
export function samples(path: WirePath, n: number): Spot[] {
  const whole = lengthOf(path) || 1;
  const spots: Spot[] = path.slice(0, 1);
  for (const [k, to] of path.slice(1).entries()) {
    const from = path[k] ?? to;
    const steps = Math.max(1, Math.round((n * away(from, to)) / whole));
    for (let i = 1; i <= steps; i++) spots.push([from[0] + (i / steps) * (to[0] - from[0]), from[1] + (i / steps) * (to[1] - from[1])]);
  }
  return spots;
}
