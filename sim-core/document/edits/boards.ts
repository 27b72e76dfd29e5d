/** Boards added, moved, and cut at the middle of their rails. Taking one off is in remove.ts, with all that stands on it. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanBoard } from '../../../shared/plan.ts';
import { BOARDS, boardSize } from '../../board/boards.ts';
import type { Change } from '../changes.ts';
import type { EditContext } from './edit-context.ts';
import { namer } from './ids.ts';

/** From one board to the next below it [pitch]. */
const STEP = 21;
/** As many as the plan's schema takes. */
const MOST = 16;

/** A board more, where there is room. Fails with `edit/too-many`. */
export function addBoard({ plan }: EditContext, kind: PlanBoard['kind'], splitRails = false): Outcome<Change> {
  if (plan.boards.length >= MOST)
    return failed('edit/too-many', 'boards', `This bench has ${MOST} boards, the most a plan can have. Delete one first.`);
  const lowest = [...plan.boards].sort((a, b) => b.spot[1] - a.spot[1])[0];
  const spot: PlanBoard['spot'] = lowest ? [lowest.spot[0], lowest.spot[1] + STEP] : [0, 0];
  return done({ op: 'insert', list: 'boards', item: { id: namer(plan)('B'), kind, spot, splitRails }, index: plan.boards.length });
}

/** To a spot in whole pitches, clear of the other boards. Fails with `edit/boards-overlap`, `edit/gone` or `edit/off-board`. */
export function moveBoard({ plan }: EditContext, id: string, [x, y]: readonly [number, number]): Outcome<Change> {
  const before = plan.boards.find((b) => b.id === id);
  if (!before) return failed('edit/gone', id, `There is no board ${id} on this bench any more.`);
  const after: PlanBoard = { ...before, spot: [Math.round(x), Math.round(y)] };
  if (Math.max(...after.spot.map(Math.abs)) > 1000)
    return failed('edit/off-board', id, 'The bench ends 1000 pitches from its middle. Move the board a shorter distance.');
  const other = plan.boards.find((b) => b.id !== id && overlaps(b, after));
  if (other) return failed('edit/boards-overlap', id, `${id} would overlap ${other.id} there. Move it clear of that board.`);
  return done({ op: 'replace', list: 'boards', before, after });
}

/** A board whose rails are split in the middle, or not. Fails with `edit/gone`. */
export function cutRails({ plan }: EditContext, id: string, splitRails: boolean): Outcome<Change> {
  const before = plan.boards.find((b) => b.id === id);
  return before
    ? done({ op: 'replace', list: 'boards', before, after: { ...before, splitRails } })
    : failed('edit/gone', id, `There is no board ${id} on this bench any more.`);
}

function overlaps(a: PlanBoard, b: PlanBoard): boolean {
  const box = (p: PlanBoard) => {
    const { x, y, width, height } = boardSize(BOARDS[p.kind]);
    return { left: x + p.spot[0], right: x + p.spot[0] + width, top: y + p.spot[1], bottom: y + p.spot[1] + height };
  };
  const [p, q] = [box(a), box(b)];
  return p.left < q.right && q.left < p.right && p.top < q.bottom && q.top < p.bottom;
}
