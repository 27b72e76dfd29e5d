/** Taking things off the bench with what hangs on them: a memory's contents, where a switch stands, meters, wires to a terminal, all on a board. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanMeter } from '../../../shared/plan.ts';
import { readHole } from '../../board/tie-points.ts';
import { type Change, join } from '../changes.ts';
import { placeIn } from '../ordered-record.ts';
import type { EditContext } from './edit-context.ts';

/** Takes things off the bench, with what hangs on them. Fails with `edit/nothing-selected`. */
export function remove({ plan, layout }: EditContext, ids: readonly string[]): Outcome<Change> {
  const gone = new Set(ids);
  for (const { part, hole } of layout.legs) if (hole && gone.has(hole.board.id)) gone.add(part.id);
  for (const { wire, hole, strip } of layout.ends)
    if ((hole && gone.has(hole.board.id)) || (!hole && gone.has(strip.split('.')[0] ?? ''))) gone.add(wire.id);

  const lost = (point: string): boolean => {
    if (point.includes('.')) return gone.has(point.split('.')[0] ?? '');
    const hole = readHole(point, plan.boards);
    return !('problem' in hole) && gone.has(hole.board.id);
  };
  const metersLost = (m: PlanMeter): boolean =>
    gone.has(m.id) ||
    (m.measures === 'amps' ? lost(m.leg) : lost(m.at) || (m.measures === 'volts' && m.against !== undefined && lost(m.against)));

  // from the last to the first, so that every index holds when it is used
  const changes: Change[] = [
    ...backwards(plan.meters, metersLost, (meter, index): Change => ({ op: 'remove-meter', meter, index })),
    ...backwards(
      plan.wires,
      (l) => gone.has(l.id),
      (wire, index): Change => ({ op: 'remove-wire', wire, index }),
    ),
    ...backwards(
      Object.keys(plan.memories),
      (id) => gone.has(id),
      (id): Change => ({ op: 'set-memory', id, before: plan.memories[id], after: undefined, index: placeIn(plan.memories, id) }),
    ),
    ...backwards(
      Object.keys(plan.switches),
      (id) => gone.has(id),
      (id): Change => ({ op: 'set-switches', id, before: plan.switches[id], after: undefined, index: placeIn(plan.switches, id) }),
    ),
    ...backwards(
      plan.parts,
      (p) => gone.has(p.id),
      (part, index): Change => ({ op: 'remove-part', part, index }),
    ),
    ...backwards(
      plan.boards,
      (b) => gone.has(b.id),
      (board, index): Change => ({ op: 'remove-board', board, index }),
    ),
  ];
  return changes.length > 0
    ? done(join(...changes))
    : failed('edit/nothing-selected', '', 'Nothing is selected to delete. Select a part, a wire or a board first.');
}

const backwards = <T>(list: readonly T[], fits: (t: T) => boolean, change: (t: T, index: number) => Change): Change[] =>
  list.flatMap((t, i) => (fits(t) ? [change(t, i)] : [])).reverse();
