/** Whether straight wires cross, come close to each other's ends, or go over a part; all in pitches. */

/** From one end to the other. */
export interface Segment {
  ax: number;
  ay: number;
  bx: number;
  by: number;
}

/** What a part covers of the board. */
export interface Body {
  left: number;
  readonly top: number;
  right: number;
  readonly bottom: number;
}

/** A wire's end so close to another wire is hard to tell from it. */
export const NEAR = 0.45;

/** On which side of a line a spot is: positive, negative, or 0 upon it. */
const side = (l: Segment, x: number, y: number): number => (l.bx - l.ax) * (y - l.ay) - (l.by - l.ay) * (x - l.ax);

const apart = (a: Segment, b: Segment, margin: number): boolean =>
  Math.max(a.ax, a.bx) + margin < Math.min(b.ax, b.bx) ||
  Math.max(b.ax, b.bx) + margin < Math.min(a.ax, a.bx) ||
  Math.max(a.ay, a.by) + margin < Math.min(b.ay, b.by) ||
  Math.max(b.ay, b.by) + margin < Math.min(a.ay, a.by);

/** They cross between their ends, or lie upon each other for a while. */
export function cross(a: Segment, b: Segment): boolean {
  if (apart(a, b, 0)) return false;
  const [a1, a2, b1, b2] = [side(b, a.ax, a.ay), side(b, a.bx, a.by), side(a, b.ax, b.ay), side(a, b.bx, b.by)];
  if (a1 === 0 && a2 === 0) return overlap(a, b);
  return a1 * a2 < 0 && b1 * b2 < 0;
}

/** Both along one row or one column of holes, for a while together. */
export const onOneLine = (a: Segment, b: Segment): boolean =>
  ((a.ax === a.bx && b.ax === b.bx && a.ax === b.ax) || (a.ay === a.by && b.ay === b.by && a.ay === b.ay)) && overlap(a, b);

/** Of two lines on one straight line: is the stretch that both have longer than a spot? */
function overlap(a: Segment, b: Segment): boolean {
  const flat = Math.abs(a.bx - a.ax) >= Math.abs(a.by - a.ay);
  const [a1, a2, b1, b2] = flat ? [a.ax, a.bx, b.ax, b.bx] : [a.ay, a.by, b.ay, b.by];
  return Math.min(Math.max(a1, a2), Math.max(b1, b2)) > Math.max(Math.min(a1, a2), Math.min(b1, b2));
}

/** How many ends of either lie close to the other. */
export function nearEnds(a: Segment, b: Segment): number {
  if (apart(a, b, NEAR)) return 0;
  return near(a.ax, a.ay, b) + near(a.bx, a.by, b) + near(b.ax, b.ay, a) + near(b.bx, b.by, a);
}

/** Of two paths: how often they cross, and how many ends of either lie close to the other. */
export function conflicts(a: readonly Segment[], b: readonly Segment[]): { readonly crossings: number; readonly near: number } {
  let crossings = 0;
  for (const s of a) for (const t of b) if (cross(s, t)) crossings += 1;
  return { crossings, near: endsNear(a, b) + endsNear(b, a) };
}

function endsNear(a: readonly Segment[], b: readonly Segment[]): number {
  const [first, last] = [a[0], a.at(-1)];
  if (!first || !last) return 0;
  const close = (x: number, y: number) => (b.some((part) => distance(x, y, part) < NEAR) ? 1 : 0);
  return close(first.ax, first.ay) + close(last.bx, last.by);
}

const near = (x: number, y: number, l: Segment): number => (distance(x, y, l) < NEAR ? 1 : 0);

/** From a spot to the nearest place of a line. */
function distance(x: number, y: number, l: Segment): number {
  const [dx, dy] = [l.bx - l.ax, l.by - l.ay];
  const whole = dx * dx + dy * dy;
  const t = whole === 0 ? 0 : Math.max(0, Math.min(1, ((x - l.ax) * dx + (y - l.ay) * dy) / whole));
  const [ex, ey] = [l.ax + t * dx - x, l.ay + t * dy - y];
  return Math.sqrt(ex * ex + ey * ey);
}

/** So long a stretch of a line in line with another, or an end of it so near, lies upon it [pitch]. */
const UPON = 0.3;

/** The other line, or an end of it, lies upon the first between its ends. */
export function liesOn(l: Segment, other: Segment): boolean {
  if (apart(l, other, 0)) return false;
  return (
    isUpon(other.ax, other.ay, l) ||
    isUpon(other.bx, other.by, l) ||
    (side(l, other.ax, other.ay) === 0 && side(l, other.bx, other.by) === 0 && overlap(l, other))
  );
}

/** A spot lies upon a line, and not at its ends. */
function isUpon(x: number, y: number, l: Segment): boolean {
  const atEnd = Math.min(Math.hypot(x - l.ax, y - l.ay), Math.hypot(x - l.bx, y - l.by));
  return atEnd > UPON && distance(x, y, l) < UPON;
}

/** A stretch of the line is inside what the part covers. */
export const goesOver = (l: Segment, body: Body): boolean => shareOver(l, body) > 0;

/** Length of the stretch that is inside what the part covers [pitch]. */
export const stretchOver = (l: Segment, body: Body): number => shareOver(l, body) * lengthOf(l);

function shareOver(l: Segment, body: Body): number {
  const { left, top, right, bottom } = body;
  if ((l.ax <= left && l.bx <= left) || (l.ax >= right && l.bx >= right)) return 0;
  if ((l.ay <= top && l.by <= top) || (l.ay >= bottom && l.by >= bottom)) return 0;
  const [dx, dy] = [l.bx - l.ax, l.by - l.ay];
  let [from, to] = [0, 1];
  if (dx !== 0) {
    const [one, other] = [(left - l.ax) / dx, (right - l.ax) / dx];
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
  }
  if (dy !== 0) {
    const [one, other] = [(top - l.ay) / dy, (bottom - l.ay) / dy];
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
  }
  return Math.max(0, to - from);
}

export const lengthOf = (l: Segment): number => Math.hypot(l.bx - l.ax, l.by - l.ay);
