/** Where a card stands beside the thing that it is about: there where it hides least of that thing, and then of the bench. */
import { type Box, overlap } from './geometry.ts';

/** From the thing to the card, and from the card to the window's edge [px]. */
const BESIDE = 14;
const EDGE = 8;
/** The plan's title above, the buttons below [px]. */
const [HEAD, FOOT] = [52, 60];
/** How much more the thing counts than the rest of the bench. */
const THE_THING = 4;

interface Size {
  readonly width: number;
  readonly height: number;
}

/** All in pixels of the room in which the card stands. */
export function placeBeside({ width, height }: Size, { thing, bench }: { readonly thing: Box; readonly bench: Box }, room: Size): Box {
  const [cx, cy] = [thing.x + thing.width / 2 - width / 2, thing.y + thing.height / 2 - height / 2];
  const inside = (v: number, size: number, whole: number, head: number, foot: number) => Math.max(head, Math.min(v, whole - size - foot));
  const places = [
    [cx, bench.y + bench.height + EDGE],
    [cx, bench.y - height - EDGE],
    [thing.x + thing.width + BESIDE, cy],
    [thing.x - width - BESIDE, cy],
    [cx, thing.y + thing.height + BESIDE],
    [cx, thing.y - height - BESIDE],
  ].map(([x = 0, y = 0]) => ({
    x: inside(x, width, room.width, EDGE, EDGE),
    y: inside(y, height, room.height, HEAD, FOOT),
    width,
    height,
  }));
  const hides = (b: Box) => THE_THING * overlap(b, thing) + overlap(b, bench);
  return places.reduce((a, b) => (hides(b) < hides(a) - 1 ? b : a));
}

export const laidAt = ({ x, y }: Box): string => `${Math.round(x)}px ${Math.round(y)}px`;
