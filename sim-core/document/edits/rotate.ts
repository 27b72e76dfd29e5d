/** Turning parts on the spot, and changing round the two legs of one that has a right way in. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanPart } from '../../../shared/plan.ts';
import { holesOfPart } from '../../board/layout.ts';
import { holeName, holeSpot, readHole } from '../../board/tie-points.ts';
import { apply, type Change, join } from '../changes.ts';
import { type EditContext, editContext, layer, roomBeside, settlePart } from './edit-context.ts';
import { secondHoles } from './place.ts';

/**
 * A quarter turn for what stands on two wires, clockwise (1) or anticlockwise (-1); end for end within its own holes for all else.
 * Fails with `edit/cannot-rotate`, `edit/hole-taken`, `edit/nothing-selected` or `plan/…`.
 */
export function turn(context: EditContext, ids: readonly string[], way: 1 | -1 = 1): Outcome<Change> {
  return each(context, ids, (g, part) => turned(g, part, way));
}

/** The two legs change holes. Fails with `edit/cannot-rotate`, `edit/nothing-selected` or `plan/…`. */
export function flip(context: EditContext, ids: readonly string[]): Outcome<Change> {
  return each(context, ids, (_, part) => {
    if (part.at === undefined || part.to === undefined)
      return failed('edit/cannot-rotate', part.id, `${part.id} does not have two legs to swap. Rotate it instead.`);
    return done({ ...part, at: part.to, to: part.at });
  });
}

/** One after the other, each beside the others as they stand by then. */
function each(
  start: EditContext,
  ids: readonly string[],
  act: (context: EditContext, part: PlanPart) => Outcome<PlanPart>,
): Outcome<Change> {
  const changes: Change[] = [];
  let context = start;
  for (const before of start.plan.parts.filter((p) => ids.includes(p.id))) {
    const after = act(context, before);
    if (!after.ok) return after;
    const change: Change = { op: 'replace', list: 'parts', before, after: after.value };
    changes.push(change);
    const next = editContext(apply(context.plan, change), context.kinds);
    if (!next.ok) return next;
    context = next.value;
  }
  return changes.length > 0
    ? done(join(...changes))
    : failed('edit/nothing-selected', '', 'No part is selected to rotate. Select one first.');
}

function turned(context: EditContext, part: PlanPart, sense: 1 | -1): Outcome<PlanPart> {
  const { plan, kinds } = context;
  const shape = kinds.shapeOf(part);
  if (!shape.ok) return shape;
  const { footprint } = shape.value;
  if (footprint.shape === 'off-board')
    return failed('edit/cannot-rotate', part.id, `${part.id} is beside the boards and has only one orientation.`);
  if (footprint.shape === 'two-leg') return quarter(context, part, sense);
  const holes = holesOfPart(plan.boards, part, footprint, part.id);
  if (!holes.ok) return holes;
  const n = holes.value.length;
  const facing = holes.value[footprint.shape === 'in-line' ? n - 1 : n / 2];
  if (!facing) return failed('edit/cannot-rotate', part.id, `${part.id} cannot be rotated.`);
  const { rotated: before, ...rest } = part;
  const after: PlanPart = { ...rest, at: holeName(facing, plan.boards), ...(before ? {} : { rotated: true as const }) };
  const settled = settlePart(roomBeside(context, new Set([part.id])), plan.boards, kinds, after);
  return settled.ok ? done(after) : settled;
}

/** The first of the other ways, going round in the given sense, in which the second leg finds a free hole. */
function quarter(context: EditContext, part: PlanPart, sense: 1 | -1): Outcome<PlanPart> {
  const { plan, kinds } = context;
  const [first, second] = [part.at, part.to].map((p) => readHole(p ?? '', plan.boards));
  if (!first?.ok || !second?.ok) return failed('edit/cannot-rotate', part.id, `${part.id} cannot be rotated.`);
  const [[x, y], [tx, ty]] = [holeSpot(first.value), holeSpot(second.value)];
  const [dx, dy] = [tx - x, ty - y];
  const span = Math.max(1, Math.round(Math.max(Math.abs(dx), Math.abs(dy))));
  const way = Math.abs(dx) >= Math.abs(dy) ? (dx >= 0 ? 'right' : 'left') : dy >= 0 ? 'down' : 'up';
  const CLOCKWISE = ['right', 'down', 'left', 'up'] as const;
  /** as `secondHoles` counts the ways */
  const NUMBER = { right: 0, left: 1, down: 2, up: 3 } as const;
  const room = roomBeside(context, new Set([part.id]));
  for (const step of [1, 2, 3]) {
    const next = CLOCKWISE[(CLOCKWISE.indexOf(way) + sense * step + 4) % 4] ?? 'right';
    for (const hole of secondHoles(first.value, span, plan.boards, NUMBER[next]).slice(0, 4)) {
      const [hx, hy] = holeSpot(hole);
      const goes = Math.abs(hx - x) >= Math.abs(hy - y) ? (hx >= x ? 'right' : 'left') : hy >= y ? 'down' : 'up';
      const after = { ...part, to: holeName(hole, plan.boards) };
      if (goes === next && settlePart(layer(room), plan.boards, kinds, after).ok) return done(after);
    }
  }
  return failed(
    'edit/cannot-rotate',
    part.id,
    `${part.id} cannot be rotated about ${part.at}: no free hole is beside it in another direction. Move it first.`,
  );
}
