/** Where the LEDs of a bench are, whether they are in sight, and what to look at to see them. */
import type { BenchModel } from '../state/bench-model.ts';
import { type Box, overlap, union } from './geometry.ts';
import type { Drawn } from './highlights.ts';

/** The edge behind which the LEDs are, if they are out of sight. */
export type LedsAway = 'left' | 'right' | undefined;

/** One LED alone is shown with so much of the bench round it [pitch]. */
const LEAST_WIDTH = 24;

/** Round all of them; undefined where there are none. */
export const ledsBox = (model: BenchModel | undefined, drawn: Drawn | undefined): Box | undefined =>
  union((model?.specimens ?? []).flatMap((s) => (s.leds.length > 0 ? (drawn?.faces.get(s.part.id)?.box ?? []) : [])));

function ledsAway(leds: Box | undefined, sight: Box): LedsAway {
  if (!leds || overlap(leds, sight) > 0.25 * leds.width * leds.height) return undefined;
  return leds.x < sight.x ? 'left' : 'right';
}

/** Tells where they are whenever that has changed. */
export function watchLeds(tell: (where: LedsAway) => void): (leds: Box | undefined, sight: Box) => void {
  let last: LedsAway;
  return (leds, sight) => {
    const where = ledsAway(leds, sight);
    if (where === last) return;
    last = where;
    tell(where);
  };
}

/** A sight with the LEDs in its middle. */
export function roundLeds({ x, y, width, height }: Box): Box {
  const wide = Math.max(width + 2, LEAST_WIDTH);
  return { x: x + (width - wide) / 2, y: y - 3, width: wide, height: height + 6 };
}
