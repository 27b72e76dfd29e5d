/** The drawing's unit and its boxes: bench coordinates are pitches of 0.1 inch, the drawing has 20 units to the pitch. */

export const U = 20;

export type Spot = readonly [x: number, y: number];

/** In pitches. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The smallest box round some spots, grown by `by` on every side. */
export function around(spots: readonly Spot[], by = 0): Box {
  const xs = spots.map((s) => s[0]);
  const ys = spots.map((s) => s[1]);
  const x = Math.min(...xs) - by;
  const y = Math.min(...ys) - by;
  return { x, y, width: Math.max(...xs) + by - x, height: Math.max(...ys) + by - y };
}

export function union(boxes: readonly Box[]): Box | undefined {
  if (boxes.length === 0) return undefined;
  return around(
    boxes.flatMap((b): Spot[] => [
      [b.x, b.y],
      [b.x + b.width, b.y + b.height],
    ]),
  );
}

export const holds = (b: Box, [x, y]: Spot, margin = 0): boolean =>
  x > b.x - margin && x < b.x + b.width + margin && y > b.y - margin && y < b.y + b.height + margin;

/** Area two boxes share [pitch²]. */
export function overlap(a: Box, b: Box): number {
  const w = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}
