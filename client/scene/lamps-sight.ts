/** Where the lamps of a bench are, whether they are in sight, and what to look at to see them. */
import type { Standing } from '../standing.ts';
import { type Box, overlap, union } from './geometry.ts';
import type { Drawn } from './picks.ts';

/** The edge behind which the lamps are, if they are out of sight. */
export type LampsAway = 'left' | 'right' | undefined;

/** One lamp alone is shown with so much of the bench round it [pitch]. */
const LEAST_WIDTH = 24;

/** Round all of them; undefined where there are none. */
export const lampsBox = (standing: Standing | undefined, drawn: Drawn | undefined): Box | undefined =>
  union((standing?.specimens ?? []).flatMap((s) => (s.lamps.length > 0 ? (drawn?.faces.get(s.part.id)?.box ?? []) : [])));

function lampsAway(lamps: Box | undefined, sight: Box): LampsAway {
  if (!lamps || overlap(lamps, sight) > 0.25 * lamps.width * lamps.height) return undefined;
  return lamps.x < sight.x ? 'left' : 'right';
}

/** Tells where they are whenever that has changed. */
export function watchLamps(tell: (where: LampsAway) => void): (lamps: Box | undefined, sight: Box) => void {
  let last: LampsAway;
  return (lamps, sight) => {
    const where = lampsAway(lamps, sight);
    if (where === last) return;
    last = where;
    tell(where);
  };
}

/** A sight with the lamps in its middle. */
export function roundLamps({ x, y, width, height }: Box): Box {
  const wide = Math.max(width + 2, LEAST_WIDTH);
  return { x: x + (width - wide) / 2, y: y - 3, width: wide, height: height + 6 };
}
