/** Where the marks of findings stand: beside their things, on no control, chip, LED, level or word, and off wires and legs where there is room. */
import { type Box, holds, overlap, type Spot } from './geometry.ts';

/** What marks keep off. */
export interface MarkRoom {
  /** controls, chips, displays, LEDs, levels at pins, words: no mark lies on them */
  readonly never: readonly Box[];
  /** legs and bodies of other parts */
  readonly rather: readonly Box[];
  /** places on wires */
  readonly wires: readonly Spot[];
}

/** Half of a mark's side at its usual size, and as large as it gets [pitch]. */
const [HALF, GROWN] = [0.45, 0.85];
/** From a thing's edge to the middle of its mark, at least and at most, and the steps between [pitch]. */
const [NEAREST, FARTHEST, STEP] = [0.5, 6, 0.5];
/** What lies under it costs, for each pitch²; a place on a wire; a pitch away from the thing. */
const ON_NEVER = 40;
const ON_NEVER_GROWN = 3;
const ON_RATHER = 4;
const ON_WIRE = 0.15;
const PER_PITCH = 0.8;
/** Above and to the right is looked at first: so much cheaper. */
const USUAL = 0.2;

const square = ([x, y]: Spot, half: number): Box => ({ x: x - half, y: y - half, width: 2 * half, height: 2 * half });

/** How far a place is from a box; 0 within [pitch]. */
const away = ([x, y]: Spot, b: Box): number =>
  Math.hypot(Math.max(b.x - x, 0, x - b.x - b.width), Math.max(b.y - y, 0, y - b.y - b.height));

/** What a mark at a place covers at its usual size. */
export const markBox = (at: Spot): Box => square(at, HALF);

const near = (b: Box, by: number): Box => ({ x: b.x - by, y: b.y - by, width: b.width + 2 * by, height: b.height + 2 * by });

/** The place for the mark of each thing, in their order; a later one keeps off the earlier ones. */
export function placeMarks(things: readonly Box[], room: MarkRoom): readonly Spot[] {
  const placed: Box[] = [];
  return things.map((thing) => {
    const at = bestPlace(thing, room, placed);
    placed.push(markBox(at));
    return at;
  });
}

function bestPlace(thing: Box, room: MarkRoom, placed: readonly Box[]): Spot {
  const round = near(thing, FARTHEST + GROWN);
  const within = (all: readonly Box[]) => all.filter((b) => overlap(round, b) > 0);
  const [never, rather] = [[...within(room.never), ...placed], within(room.rather)];
  const wires = room.wires.filter((s) => holds(round, s));
  let best: Spot = [thing.x + thing.width + NEAREST, thing.y - NEAREST];
  let least = Number.POSITIVE_INFINITY;
  for (const [spot, sure] of placesRound(thing)) {
    // all that follow cost more
    if (sure >= least) break;
    const [own, grown] = [square(spot, HALF), square(spot, GROWN)];
    let cost = sure;
    for (const b of never) cost += ON_NEVER * overlap(own, b) + ON_NEVER_GROWN * overlap(grown, b);
    if (cost >= least) continue;
    for (const b of rather) cost += ON_RATHER * overlap(own, b);
    for (const w of wires) if (holds(grown, w)) cost += ON_WIRE;
    if (cost < least) [best, least] = [spot, cost];
  }
  return best;
}

/** Every place beside a thing with what it costs for itself, the cheapest first. */
function placesRound(thing: Box): ReadonlyArray<readonly [Spot, number]> {
  const places: Array<readonly [Spot, number]> = [];
  for (let x = thing.x - FARTHEST; x <= thing.x + thing.width + FARTHEST; x += STEP)
    for (let y = thing.y - FARTHEST; y <= thing.y + thing.height + FARTHEST; y += STEP) {
      const far = away([x, y], thing);
      if (far < NEAREST || far > FARTHEST) continue;
      places.push([[x, y], far * PER_PITCH + (x < thing.x + thing.width ? USUAL : 0) + (y > thing.y ? USUAL : 0)]);
    }
  return places.sort((a, b) => a[1] - b[1]);
}
