/** Places moved along the bench: holes by pitches, rail ends along their rail, and a chip's leads into the rows that its pins have come to. */
import type { PlanBoard, PlanPart } from '../../../shared/plan.ts';
import { LINE_Y } from '../../board/boards.ts';
import { type Hole, holeAt, holeName, holeSpot, isRailHole, railHoleNear, readHole, sameStrip, stripOf } from '../../board/tie-points.ts';
import type { FreeRoom } from './edit-context.ts';

/** [pitch], x to the right, y down */
export type By = readonly [dx: number, dy: number];

/**
 * The name of a point after a move, in another plan if its boards are others. What stands in a rail stays on a rail of that name and takes the nearest free
 * hole there; what stands in a row moves exactly. Terminals stay. undefined: there is no hole.
 */
export function shiftPoint(
  name: string,
  [dx, dy]: By,
  from: readonly PlanBoard[],
  boards: readonly PlanBoard[],
  room: FreeRoom,
): string | undefined {
  if (name.includes('.')) return name;
  const read = readHole(name, from);
  if (!read.ok) return undefined;
  const hole = read.value;
  const [x, y] = holeSpot(hole);
  const moved = isRailHole(hole) ? railBeside(hole, x + dx, y + dy, boards, room) : holeAt([x + dx, y + dy], boards);
  return moved && !(isRailHole(moved) && !isRailHole(hole)) ? holeName(moved, boards) : undefined;
}

function railBeside(
  { rail }: Extract<Hole, { rail: unknown }>,
  x: number,
  y: number,
  boards: readonly PlanBoard[],
  room: FreeRoom,
): Hole | undefined {
  const away = (b: PlanBoard) => Math.abs(b.spot[1] + LINE_Y[rail] - y);
  const board = [...boards].sort((a, b) => away(a) - away(b))[0];
  return board && railHoleNear(board, rail, x, (h) => room.occupant(holeName(h, boards)) === undefined);
}

/** A part after a move; undefined: it has no hole there. */
export function shiftPart(
  part: PlanPart,
  by: By,
  from: readonly PlanBoard[],
  boards: readonly PlanBoard[],
  room: FreeRoom,
): PlanPart | undefined {
  if (part.at === undefined) return part.spot ? { ...part, spot: [part.spot[0] + by[0], part.spot[1] + by[1]] } : part;
  const at = shiftPoint(part.at, by, from, boards, room);
  if (at === undefined) return undefined;
  if (part.to === undefined) return { ...part, at };
  const to = shiftPoint(part.to, by, from, boards, room);
  return to === undefined ? undefined : { ...part, at, to };
}

/** Where a wire's end goes whose pin has come to another hole: as far from it as before if that is free, else into any free hole of that row. */
export function follow(end: Hole, pin: Hole, by: By, boards: readonly PlanBoard[], room: FreeRoom): Hole | undefined {
  const free = (h: Hole) => room.occupant(holeName(h, boards)) === undefined;
  const strip = stripOf(pin);
  if (strip === stripOf(end) && free(end)) return end;
  const [x, y] = holeSpot(end);
  const along = holeAt([x + by[0], y + by[1]], boards);
  if (along && stripOf(along) === strip && free(along)) return along;
  const away = (h: Hole) => Math.abs(holeSpot(h)[1] - y - by[1]);
  return [...sameStrip(pin)].sort((a, b) => away(a) - away(b)).find(free);
}
