/** The faces of all parts, each with the levels at its pins: what has not changed since the last drawing is taken over from it. */

import type { PlanBoard, PlanPart } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import { holeSpot } from '../../sim-core/index.ts';
import type { BenchModel, PlacedPart } from '../state/bench-model.ts';
import { faceFor } from './faces/catalogue.ts';
import type { Face, FaceActions } from './faces/face.ts';
import type { Box, Spot } from './geometry.ts';
import { drawPinLevels, type PinLevels } from './pin-levels.ts';
import { nameBody, readingOrder } from './reading-order.ts';

export interface DrawnPart {
  readonly specimen: PlacedPart;
  readonly face: Face;
  readonly levels: PinLevels | undefined;
  /** its legs and terminals by pin */
  readonly spots: ReadonlyMap<string, Spot>;
  /** what it was drawn from */
  readonly from: From;
}

interface From {
  readonly part: PlanPart;
  readonly boards: readonly PlanBoard[];
  readonly names: string;
  readonly spot: string;
  readonly all: unknown;
}

/** In the order in which a keyboard reaches them and a reader reads them. */
export function drawParts(
  model: BenchModel,
  actions: FaceActions,
  whole: Box,
  before: ReadonlyMap<string, DrawnPart> = new Map(),
): ReadonlyMap<string, DrawnPart> {
  const middle: Spot = [whole.x + whole.width / 2, whole.y + whole.height / 2];
  const free = freeSpots(whole);
  const order = readingOrder(model.specimens, model.plan.boards);
  return new Map(
    order.map((s): readonly [string, DrawnPart] => {
      const off = s.part.at === undefined;
      const spot = off ? (s.part.spot ?? free()) : undefined;
      const now = placing(s, model.plan.boards, `${spot}${off ? middle : ''}`);
      const old = before.get(s.part.id);
      const from = old && sameAtSight(old.from, now) ? old.from : inFull(s, now);
      if (old && sameValue(from.all, old.from.all)) {
        old.levels?.join(s);
        return [s.part.id, { ...old, specimen: s, from }];
      }
      const legs = new Map(s.legs.flatMap((l) => (l.hole ? [[l.pin.pin, holeSpot(l.hole)] as const] : [])));
      const placed = spot ? { ...s, part: { ...s.part, spot } } : s;
      const face = faceFor(placed)(placed, { legs, middle, actions });
      for (const drawn of [face.body, face.over]) drawn?.setAttribute('data-part', s.part.id);
      nameBody(s, face, model.plan.boards);
      const spots = new Map([...legs, ...(face.terminals ?? [])]);
      const levels = s.isChip ? drawPinLevels(s, spots, face) : undefined;
      return [s.part.id, { specimen: s, face, levels, spots, from }];
    }),
  );
}

const placing = (s: PlacedPart, boards: readonly PlanBoard[], spot: string): From => ({
  part: s.part,
  boards,
  names: s.contacts.map((c) => c.name ?? '').join(),
  spot,
  all: undefined,
});

/** The same objects as before: nothing has to be compared in full. */
const sameAtSight = (a: From, b: From): boolean => a.part === b.part && a.boards === b.boards && a.names === b.names && a.spot === b.spot;

function inFull(s: PlacedPart, now: From): From {
  const { damaged: _, ...part } = s.part;
  const legs = s.legs.map((l) => l.hole && holeSpot(l.hole));
  return { ...now, all: [part, legs, s.contacts, s.leds, now.spot] };
}

/** Where parts stand that are off the boards and have no place in the plan: in a row above them. */
function freeSpots({ x, y }: Box): () => [number, number] {
  let next = x + 0.5;
  return () => {
    const spot: [number, number] = [next, y - 5.4];
    next += 14;
    return spot;
  };
}
