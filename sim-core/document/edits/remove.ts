/** Deleting things with what depends on them: a memory's contents, where a switch stands, meters, wires to a terminal, all on a board. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanMeter } from '../../../shared/plan.ts';
import { readHole } from '../../board/tie-points.ts';
import { type Change, clearings, join, RECORDS, removals } from '../changes.ts';
import type { EditContext } from './edit-context.ts';

/** Deletes things, with what depends on them. Fails with `edit/nothing-selected`. */
export function remove({ plan, layout }: EditContext, ids: readonly string[]): Outcome<Change> {
  const gone = new Set(ids);
  for (const { part, hole } of layout.legs) if (hole && gone.has(hole.board.id)) gone.add(part.id);
  for (const { wire, hole, strip } of layout.ends)
    if ((hole && gone.has(hole.board.id)) || (!hole && gone.has(strip.split('.')[0] ?? ''))) gone.add(wire.id);

  const lost = (point: string): boolean => {
    if (point.includes('.')) return gone.has(point.split('.')[0] ?? '');
    const hole = readHole(point, plan.boards);
    return hole.ok && gone.has(hole.value.board.id);
  };
  const metersLost = (m: PlanMeter): boolean =>
    gone.has(m.id) ||
    (m.measures === 'amps' ? lost(m.leg) : lost(m.at) || (m.measures === 'volts' && m.against !== undefined && lost(m.against)));

  const changes: Change[] = [
    ...removals(plan, 'meters', metersLost),
    ...removals(plan, 'wires', (w) => gone.has(w.id)),
    ...RECORDS.flatMap((name) => clearings(plan, name, (id) => gone.has(id))),
    ...removals(plan, 'parts', (p) => gone.has(p.id)),
    ...removals(plan, 'boards', (b) => gone.has(b.id)),
  ];
  return changes.length > 0
    ? done(join(...changes))
    : failed('edit/nothing-selected', '', 'Nothing is selected to delete. Select a part, a wire or a board first.');
}
