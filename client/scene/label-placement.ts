/** Names beside the parts on strips of paper, placed so that none lies on another or on a body, and large enough to be read from afar. */
import { presenting } from '../theme/presentation.ts';
import { type Box, holds, overlap, type Spot, U } from './geometry.ts';
import { el, short } from './svg.ts';

type Look = 'led-name' | 'damaged-name' | 'part-name';

export interface LabelRequest {
  /** the part that it names */
  readonly id: string;
  readonly text: string;
  /** what it is called where that finds no room; a small name that finds none even so is left out */
  readonly short?: string;
  /** what it names */
  readonly about: Box;
  readonly look: Look;
  /** where it may stand at its own size, best first; the middle of the text, relative to the middle of the thing, [pitch] */
  readonly places: readonly Spot[];
}

/** Letters' size of each look [drawing units], a letter's width, a little more than the fonts' own, and the strip's height [pitch]. */
const LOOKS: Readonly<Record<Look, { readonly size: number; readonly letter: number; readonly height: number }>> = {
  'led-name': { size: 14, letter: 0.365, height: 0.8 },
  'damaged-name': { size: 14, letter: 0.4, height: 0.8 },
  'part-name': { size: 8.5, letter: 0.28, height: 0.56 },
};
/** From the text to the strip's edge [pitch]. */
const MARGIN = 0.16;
/** Letters are no smaller than this on the screen where there is room [px], but grow no more than so many times. */
const [LEAST_LETTER, LEAST_PRESENTED] = [10.5, 22];
export const leastLetter = (): number => (presenting() ? LEAST_PRESENTED : LEAST_LETTER);
const MOST_GROWTH = 2;
/** Cost of a pitch² of another label, of one of a body, of one beside the boards, of a wire's sample, of a lesser place; and the cost from which on there is no room. */
const ON_LABEL = 20;
const ON_BODY = 6;
const ON_WIRE = 0.07;
const OFF_BOARD = 6;
const PER_PLACE = 0.45;
const NO_ROOM = 2.5;
/** Two small names that share more than this cannot both be read [pitch²]. */
const UNREADABLE = 0.05;

interface Placed {
  readonly box: Box;
  readonly place: Spot;
  readonly growth: number;
  /** of other words [pitch²] */
  readonly covers: number;
}

/** What names keep off, and the boards that they had better stand on. */
export interface LabelRoom {
  readonly bodies: readonly Box[];
  /** words that stand already, as those beside a switch's poles */
  readonly writing: readonly Box[];
  /** places on wires */
  readonly busy: readonly Spot[];
  readonly boards: readonly Box[];
}

/** Where a name stands, and in what size. */
export interface Label {
  readonly request: LabelRequest;
  /** the request's text, its short one, or nothing */
  readonly text: string;
  readonly box: Box;
  readonly growth: number;
  /** which of the request's places it has */
  readonly place: Spot;
}

/** Places the requests in their order; a later one gives way to an earlier one, and all to those that were placed before. scale: pixels to a drawing unit. */
export function placeLabels(
  requests: readonly LabelRequest[],
  room: LabelRoom,
  scale: number,
  placedBefore: readonly Label[] = [],
): readonly Label[] {
  const placed: Box[] = [...room.writing, ...placedBefore.filter((l) => l.text !== '').map((l) => l.box)];
  const found = { boards: room.boards, crossings: counter(room.busy), shared: sharer(room.bodies) };
  return requests.map((request) => {
    const least = request.look === 'part-name' ? LEAST_LETTER : leastLetter();
    const most = Math.min(MOST_GROWTH, Math.max(1, least / (LOOKS[request.look].size * scale)));
    const growths = most === 1 ? [1] : [most, (1 + most) / 2, 1];
    for (const text of request.short === undefined ? [request.text] : [request.text, request.short]) {
      let at: Placed | undefined;
      for (const growth of growths) {
        const best = bestPlace(request, text, growth, placed, found);
        at = best ?? at;
        if (best && best.crowding < NO_ROOM) break;
      }
      if (!at || (request.look === 'part-name' && at.covers > UNREADABLE)) continue;
      const { box, growth, place } = at;
      placed.push(box);
      return { request, text, box, growth, place };
    }
    return { request, text: '', box: { ...request.about, width: 0, height: 0 }, growth: 1, place: [0, 0] };
  });
}

export function drawLabel({ request, text, box: { x, y, width, height }, growth }: Label): SVGGElement {
  const margin = MARGIN * growth;
  const size = LOOKS[request.look].size * growth;
  return el(
    'g',
    { class: `label ${request.look}` },
    el('rect', { x: short((x - margin) * U), y: short(y * U), width: short((width + 2 * margin) * U), height: short(height * U), rx: 3 }),
    el('text', { x: short((x + width / 2) * U), y: short((y + height / 2) * U + size * 0.345), style: `font-size:${short(size)}px` }, text),
  );
}

/** The cheapest of a request's places at a growth, and how much of that is other labels and bodies. */
function bestPlace(
  { about, look, places }: LabelRequest,
  text: string,
  growth: number,
  placed: readonly Box[],
  {
    boards,
    crossings,
    shared,
  }: Pick<LabelRoom, 'boards'> & { readonly crossings: (b: Box) => number; readonly shared: (b: Box) => number },
) {
  const [side, down] = [about.width / 2, about.height / 2];
  const middle: Spot = [about.x + side, about.y + down];
  const width = text.length * LOOKS[look].letter * growth;
  const height = LOOKS[look].height * growth;
  /** as far from the thing's edge as the text has grown */
  const away = (d: number, half: number) => (d === 0 ? 0 : Math.sign(d) * (half + (Math.abs(d) - half) * growth));
  let best: (Placed & { readonly crowding: number }) | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const [rank, place] of places.entries()) {
    const [dx, dy] = place;
    const box = { x: middle[0] + away(dx, side) - width / 2, y: middle[1] + away(dy, down) - height / 2, width, height };
    const grown = { x: box.x - 0.14, y: box.y, width: width + 0.28, height };
    let covers = 0;
    for (const other of placed) covers += overlap(grown, other);
    let crowding = covers * ON_LABEL;
    crowding += ON_BODY * shared(grown);
    const onBoards = boards.reduce((sum, board) => sum + overlap(box, board), 0);
    crowding += Math.max(0, width * height - onBoards) * OFF_BOARD;
    let cost = crowding + rank * PER_PLACE;
    if (cost < least) cost += ON_WIRE * crossings(box);
    if (cost >= least) continue;
    least = cost;
    best = { box, place, growth, covers, crowding };
  }
  return best;
}

/** Counts the spots in a box; they are looked up by squares of a pitch, since on a full bench there are tens of thousands. */
function counter(spots: readonly Spot[]): (b: Box) => number {
  const squares = new Map<number, Spot[]>();
  const key = (i: number, j: number) => i * 10_000 + j;
  for (const spot of spots) {
    const k = key(Math.floor(spot[0]), Math.floor(spot[1]));
    const list = squares.get(k);
    if (list) list.push(spot);
    else squares.set(k, [spot]);
  }
  return (b) => {
    let count = 0;
    for (let i = Math.floor(b.x); i <= b.x + b.width; i++)
      for (let j = Math.floor(b.y); j <= b.y + b.height; j++)
        for (const spot of squares.get(key(i, j)) ?? []) if (holds(b, spot)) count += 1;
    return count;
  };
}

/** Side of the squares in which bodies are looked up [pitch]. */
const SQUARE = 4;

/** The area that a box shares with all bodies together [pitch²]. */
function sharer(bodies: readonly Box[]): (b: Box) => number {
  const squares = new Map<number, number[]>();
  const each = ({ x, y, width, height }: Box, visit: (square: number) => void) => {
    for (let i = Math.floor(x / SQUARE); i <= (x + width) / SQUARE; i++)
      for (let j = Math.floor(y / SQUARE); j <= (y + height) / SQUARE; j++) visit(i * 10_000 + j);
  };
  for (const [n, body] of bodies.entries())
    each(body, (square) => {
      const list = squares.get(square);
      if (list) list.push(n);
      else squares.set(square, [n]);
    });
  return (b) => {
    const near = new Set<number>();
    each(b, (square) => {
      for (const n of squares.get(square) ?? []) near.add(n);
    });
    let area = 0;
    for (const n of near) area += overlap(b, bodies[n] ?? b);
    return area;
  };
}
