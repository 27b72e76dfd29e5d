/** Putting a part on the bench: its next free id, where its second leg goes, and a free place if none is named. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanBoard, PlanPart } from '../../../shared/plan.ts';
import { BOARDS, boardSize, type Column } from '../../board/boards.ts';
import type { Footprint } from '../../board/footprints.ts';
import { holesOfPart } from '../../board/layout.ts';
import { type Hole, holeAt, holeName, holeSpot, isRailHole, readHole, stripOf } from '../../board/tie-points.ts';
import type { Insert } from '../changes.ts';
import { type EditContext, type FreeRoom, layer, roomBeside, settlePart } from './edit-context.ts';
import { namer, readPoint } from './ids.ts';

/** A part to be; what is left out is chosen. */
export type Placing = Pick<PlanPart, 'kind' | 'at' | 'to' | 'rotated' | 'spot' | 'params' | 'label'>;

/** As many as the plan's schema takes. */
const MOST_PARTS = 2000;

/**
 * Puts a part on the bench: where it was asked for, or in the first free place.
 * Fails with `edit/…`, `plan/does-not-fit`, `plan/no-place` or `plan/unknown-hole`.
 */
export function place(context: EditContext, placing: Placing): Outcome<Insert<'parts'>> {
  const part = planned(context, placing, namer(context.plan)(context.kinds.lettersOf(placing.kind)));
  return part.ok ? done({ op: 'insert', list: 'parts', item: part.value, index: context.plan.parts.length }) : part;
}

/** The part as it would stand, or why it cannot. */
export function planned(context: EditContext, placing: Placing, id: string): Outcome<PlanPart> {
  const { plan, kinds } = context;
  if (plan.parts.length >= MOST_PARTS)
    return failed('edit/too-many', 'parts', `This bench has ${MOST_PARTS} parts, the most a plan can have. Delete some first.`);
  const bare: PlanPart = {
    id,
    kind: placing.kind,
    ...(placing.params ? { params: placing.params } : {}),
    ...(placing.label ? { label: placing.label } : {}),
  };
  const shape = kinds.shapeOf(bare);
  if (!shape.ok) return shape;
  const { footprint } = shape.value;
  if (footprint.shape === 'off-board') return done({ ...bare, spot: placing.spot ?? freeSpot(context) });
  const room = roomBeside(context);
  const turned = placing.rotated ? ({ rotated: true } as const) : {};
  if (placing.at === undefined) {
    const found = freePlace(context, room, { ...bare, ...turned }, footprint);
    return found
      ? done(found)
      : failed('edit/no-room', '', `No board has a free place for ${id}. Add a board, or name a tie point that it may share a row with.`);
  }
  const at = readPoint(context, placing.at);
  if (!at.ok) return at;
  const to = placing.to === undefined ? done(undefined) : readPoint(context, placing.to);
  if (!to.ok) return to;
  const candidate: PlanPart = { ...bare, at: at.value, ...(to.value ? { to: to.value } : {}), ...turned };
  const first = readHole(at.value, plan.boards);
  if (footprint.shape === 'two-leg' && to.value === undefined && first.ok) {
    const whole = secondHoles(first.value, footprint.span, plan.boards)
      .map((h) => ({ ...candidate, to: holeName(h, plan.boards) }))
      .find((p) => settlePart(layer(room), plan.boards, kinds, p).ok);
    if (whole) return done(whole);
    // what is in the way of the first leg is said by settling it with any second
    const any = secondHoles(first.value, footprint.span, plan.boards)[0];
    const settled = settlePart(room, plan.boards, kinds, { ...candidate, to: any ? holeName(any, plan.boards) : at.value });
    return settled.ok
      ? failed('edit/no-free-hole', at.value, `${at.value} has no free hole beside it for the second leg. Name one.`)
      : settled;
  }
  const settled = settlePart(room, plan.boards, kinds, candidate);
  return settled.ok ? done(candidate) : settled;
}

/** Right, left, down, up. */
const WAYS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

/** Holes for a second leg, best first: so many pitches away, or a few more; never in a rail, nor on the first leg's own metal. first: the way to begin with. */
export function secondHoles(from: Hole, span: number, boards: readonly PlanBoard[], first = 0): readonly Hole[] {
  const [x, y] = holeSpot(from);
  const ways = [...WAYS.slice(first), ...WAYS.slice(0, first)];
  return ways.flatMap(([dx, dy]) =>
    [span, span + 1, span + 2, span + 3].flatMap((s) => {
      const hole = holeAt([x + dx * s, y + dy * s], boards);
      return hole && !isRailHole(hole) && stripOf(hole) !== stripOf(from) ? [hole] : [];
    }),
  );
}

/** Columns for pin 1, best first: narrow chips straddle the trench from e, wide ones from d; what bends stands in the middle of a half. */
const COLUMNS: Readonly<Record<'narrow' | 'wide' | 'bent', readonly Column[]>> = {
  narrow: ['e', 'd', 'c', 'b'],
  wide: ['d', 'e', 'c', 'b'],
  bent: ['c', 'h', 'b', 'i'],
};

/** The first place whose rows are all empty, one row away from what stands before it. */
function freePlace({ plan, kinds }: EditContext, room: FreeRoom, part: PlanPart, footprint: Footprint): PlanPart | undefined {
  const columns =
    COLUMNS[
      footprint.shape === 'two-leg' || footprint.shape === 'in-line'
        ? 'bent'
        : 'span' in footprint && footprint.span > 3
          ? 'wide'
          : 'narrow'
    ];
  const empty = (h: Hole) => !room.used(stripOf(h));
  for (const board of plan.boards)
    for (const column of columns)
      for (let row = 2; row <= BOARDS[board.kind].rows; row++) {
        const first: Hole = { board, column, row };
        if (!empty(first)) continue;
        const name = (h: Hole) => holeName(h, plan.boards);
        const before: Hole = { board, column, row: row - 1 };
        const ends = footprint.shape === 'two-leg' ? [holeAt([holeSpot(first)[0] + footprint.span, holeSpot(first)[1]], [board])] : [];
        if (footprint.shape === 'two-leg' && !ends[0]) continue;
        const whole: PlanPart = { ...part, at: name(first), ...(ends[0] ? { to: name(ends[0]) } : {}) };
        const holes = holesOfPart(plan.boards, whole, footprint, part.id);
        if (!holes.ok || !holes.value.every(empty) || !empty(before)) continue;
        if (settlePart(layer(room), plan.boards, kinds, whole).ok) return whole;
      }
  return undefined;
}

/** Parts beside the boards stand above them, so far apart [pitch]. */
const STEP = 14;
const ABOVE = 5.8;

function freeSpot({ plan, layout }: EditContext): [number, number] {
  const x = Math.min(0, ...plan.boards.map((b) => b.spot[0])) + 0.5;
  const y = Math.min(0, ...plan.boards.map((b) => b.spot[1] + boardSize(BOARDS[b.kind]).y)) - ABOVE;
  const beside = [...new Set(layout.legs.filter((l) => !l.hole).map((l) => l.part))];
  let unnamed = 0;
  const spots = beside.map((p): readonly [number, number] => p.spot ?? [x + STEP * unnamed++, y]);
  let n = 0;
  while (spots.some(([sx, sy]) => Math.abs(sx - x - STEP * n) < STEP - 1 && Math.abs(sy - y) < 5)) n++;
  return [x + STEP * n, y];
}
