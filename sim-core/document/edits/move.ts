/** Moving things along the bench. A chip keeps its wires: their ends go to the rows that its pins have come to. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanPart, PlanWire } from '../../../shared/plan.ts';
import type { WireEnd } from '../../board/layout.ts';
import { type Hole, holeName, stripOf } from '../../board/tie-points.ts';
import { type Change, join } from '../changes.ts';
import { type EditContext, roomBeside, settlePart, settleWire } from './edit-context.ts';
import { type By, follow, shiftPart, shiftPoint } from './shift.ts';

/** Parts and wires by id, so many whole pitches. Fails with `edit/…`, `plan/does-not-fit`, `plan/no-place` or `plan/unknown-hole`. */
export function move(context: EditContext, ids: readonly string[], by: By): Outcome<Change> {
  const { plan, layout, kinds } = context;
  const { boards } = plan;
  const chosen = new Set(ids);
  const parts = plan.parts.filter((p) => chosen.has(p.id));
  const carried = new Set(wiresOf(context, chosen).filter((id) => !chosen.has(id)));
  const room = roomBeside(context, new Set([...chosen, ...carried]));
  const changes: Change[] = [];

  const leaves = stripsOf(context, chosen);
  const stays = (end: WireEnd) => carried.has(end.wire.id) && !leaves.has(end.strip);
  for (const end of layout.ends) if (end.hole && stays(end)) room.take(holeName(end.hole, boards), end.strip, `wire ${end.wire.id}`);

  /** strip that a leg of a moved chip stood in → the hole that the leg has come to */
  const cameTo = new Map<string, Hole>();
  for (const before of parts) {
    const after = shiftPart(before, by, boards, boards, room);
    if (!after) return noHole(before, before.id);
    const holes = settlePart(room, boards, kinds, after);
    if (!holes.ok) return holes;
    if (isSocketed(context, before))
      for (const [i, leg] of layout.legs.filter((l) => l.part === before).entries()) {
        const hole = holes.value[i];
        if (hole && !cameTo.has(leg.strip)) cameTo.set(leg.strip, hole);
      }
    changes.push({ op: 'replace', list: 'parts', before, after });
  }
  for (const before of plan.wires) {
    if (!chosen.has(before.id) && !carried.has(before.id)) continue;
    const ends: Partial<Record<'from' | 'to', string>> = {};
    for (const end of layout.ends.filter((e) => e.wire === before)) {
      const pin = cameTo.get(end.strip);
      if (chosen.has(before.id)) ends[end.end] = shiftPoint(before[end.end], by, boards, boards, room);
      else if (pin && end.hole) {
        const hole = follow(end.hole, pin, by, boards, room);
        if (!hole)
          return failed(
            'edit/no-free-hole',
            before.id,
            `The row of ${holeName(pin, boards)} has no free hole for wire ${before.id}, which goes with the chip. Take something out of it.`,
          );
        ends[end.end] = holeName(hole, boards);
        room.take(holeName(hole, boards), stripOf(hole), `wire ${before.id}`);
      } else ends[end.end] = before[end.end];
    }
    if (ends.from === undefined || ends.to === undefined) return noHole(before, before.id);
    const after: PlanWire = { ...before, from: ends.from, to: ends.to };
    if (chosen.has(before.id)) {
      const settled = settleWire(room, boards, after);
      if (!settled.ok) return settled;
    }
    if (after.from !== before.from || after.to !== before.to) changes.push({ op: 'replace', list: 'wires', before, after });
  }
  return done(join(...changes));
}

const noHole = (at: PlanPart | PlanWire, id: string): Outcome<never> =>
  failed(
    'edit/off-board',
    id,
    `${'kind' in at ? id : `Wire ${id}`} has no holes there: it would leave the board or cross the trench. Move it a shorter distance, or the other way.`,
  );

/** True for parts with rows of legs, which wires are led to; a two-leg part is moved alone. */
function isSocketed({ kinds }: EditContext, part: PlanPart): boolean {
  const shape = kinds.shapeOf(part);
  return shape.ok && shape.value.footprint.shape !== 'two-leg' && shape.value.footprint.shape !== 'off-board';
}

/** The wires that go along when these parts are moved. */
export function wiresOf(context: EditContext, ids: ReadonlySet<string>): readonly string[] {
  const strips = stripsOf(context, ids);
  return [...new Set(context.layout.ends.filter((e) => strips.has(e.strip)).map((e) => e.wire.id))];
}

/** The metal that the legs of chips among these parts stand in. */
function stripsOf(context: EditContext, ids: ReadonlySet<string>): ReadonlySet<string> {
  return new Set(context.layout.legs.filter((l) => ids.has(l.part.id) && l.hole && isSocketed(context, l.part)).map((l) => l.strip));
}
