/** What an edit starts from: a bench that stands, what is taken on it, and whether a thing fits between the rest. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { Plan, PlanBoard, PlanPart, PlanWire } from '../../../shared/plan.ts';
import { holesOfPart, type Layout, layOut } from '../../board/layout.ts';
import type { PartLookup } from '../../board/part-lookup.ts';
import { type Hole, holeName, readHole, sameStrip, stripOf } from '../../board/tie-points.ts';

/** What an edit starts from: the plan, where everything on it is, and what the kinds of parts are. */
export interface EditContext {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly kinds: PartLookup;
}

/** The edit context of a plan, or why it does not fit its boards. */
export function editContext(plan: Plan, kinds: PartLookup): Outcome<EditContext> {
  const layout = layOut(plan, kinds.shapeOf);
  return layout.ok ? done({ plan, layout: layout.value, kinds }) : layout;
}

/** Holes and who is in them. Things are put in one after the other; a layer over it can be thrown away. */
export interface FreeRoom {
  occupant(hole: string): string | undefined;
  /** is anything in this piece of metal? */
  used(strip: string): boolean;
  hasTerminal(name: string): boolean;
  take(hole: string, strip: string, by: string): void;
  addTerminal(name: string): void;
}

function makeRoom(under?: FreeRoom): FreeRoom {
  const taken = new Map<string, string>();
  const strips = new Set<string>();
  const terminals = new Set<string>();
  return {
    occupant: (hole) => taken.get(hole) ?? under?.occupant(hole),
    used: (strip) => strips.has(strip) || (under?.used(strip) ?? false),
    hasTerminal: (name) => terminals.has(name) || (under?.hasTerminal(name) ?? false),
    take(hole, strip, by) {
      taken.set(hole, by);
      strips.add(strip);
    },
    addTerminal: (name) => void terminals.add(name),
  };
}

export const layer = (room: FreeRoom): FreeRoom => makeRoom(room);

/** What stands on the bench but for some things. */
export function roomBeside({ plan, layout }: EditContext, ids: ReadonlySet<string> = new Set()): FreeRoom {
  const room = makeRoom();
  for (const { part, pin, hole, strip } of layout.legs) {
    if (ids.has(part.id)) continue;
    if (hole) room.take(holeName(hole, plan.boards), strip, `${part.id} pin ${pin}`);
    else room.addTerminal(strip);
  }
  for (const { wire, hole, strip } of layout.ends)
    if (hole && !ids.has(wire.id)) room.take(holeName(hole, plan.boards), strip, `wire ${wire.id}`);
  return room;
}

/** Puts a part into the room, or names the first hole that is taken and by what. */
export function settlePart(room: FreeRoom, boards: readonly PlanBoard[], kinds: PartLookup, part: PlanPart): Outcome<readonly Hole[]> {
  const shape = kinds.shapeOf(part);
  if (!shape.ok) return shape;
  const { footprint, pins } = shape.value;
  if (footprint.shape === 'off-board') {
    for (const pin of pins) room.addTerminal(`${part.id}.${pin}`);
    return done([]);
  }
  const holes = holesOfPart(boards, part, footprint, part.id);
  if (!holes.ok) return holes;
  for (const [k, hole] of holes.value.entries()) {
    const refusal = takeHole(room, boards, hole, `${part.id} pin ${pins[k] ?? k + 1}`, footprint.shape === 'two-leg');
    if (refusal) return refusal;
  }
  return holes;
}

/**
 * Puts both ends of a wire into the room, or says what is in the way.
 * Fails with `edit/already-connected`, `edit/hole-taken` or `edit/unknown-hole`.
 */
export function settleWire(room: FreeRoom, boards: readonly PlanBoard[], wire: PlanWire): Outcome<void> {
  const strips: string[] = [];
  for (const end of ['from', 'to'] as const) {
    const name = wire[end];
    if (name.includes('.')) {
      if (!room.hasTerminal(name))
        return failed(
          'edit/unknown-hole',
          name,
          `There is no terminal ${name} on this bench. Give a tie point such as a12, or a terminal such as PS1.+.`,
        );
      strips.push(name);
      continue;
    }
    const hole = readHole(name, boards);
    if (!hole.ok) return hole;
    const refusal = takeHole(room, boards, hole.value, `wire ${wire.id}`, true);
    if (refusal) return refusal;
    strips.push(stripOf(hole.value));
  }
  if (strips[0] === strips[1])
    return failed(
      'edit/already-connected',
      wire.to,
      `${wire.from} and ${wire.to} are already connected on the board, so a wire between them does nothing.`,
    );
  return done(undefined);
}

/** bends: its legs can go into other holes than these */
function takeHole(room: FreeRoom, boards: readonly PlanBoard[], hole: Hole, by: string, bends: boolean): Outcome<never> | undefined {
  const name = holeName(hole, boards);
  const before = room.occupant(name);
  if (before === undefined) {
    room.take(name, stripOf(hole), by);
    return undefined;
  }
  if (!bends) return failed('edit/hole-taken', name, `${name} is taken by ${before}. Choose another place, or delete that first.`);
  const free = sameStrip(hole)
    .map((h) => holeName(h, boards))
    .filter((h) => room.occupant(h) === undefined)
    .slice(0, 3);
  const cure =
    free.length === 0 ? 'No hole of that row is free.' : `On the same strip ${free.join(', ')} ${free.length === 1 ? 'is' : 'are'} free.`;
  return failed('edit/hole-taken', name, `${name} is taken by ${before}. ${cure}`);
}
