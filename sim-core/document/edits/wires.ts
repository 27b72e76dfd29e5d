/** Wires from hole to hole: laid, re-ended, recoloured; and all rails of a bench joined in one act. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { PlanWire } from '../../../shared/plan.ts';
import { RAILS, type Rail } from '../../board/boards.ts';
import { type Hole, holeName, holesOf, isRailHole, nearestPair, stripOf } from '../../board/tie-points.ts';
import { type Change, type Insert, join } from '../changes.ts';
import { type EditContext, roomBeside, settleWire } from './edit-context.ts';
import { namer, readPoint } from './ids.ts';

/** As many as the plan's schema takes. */
const MOST_WIRES = 5000;
const LETTER = 'W';

/** A wire between two holes or terminals. Fails with `edit/…`. */
export function addWire(context: EditContext, from: string, to: string, colour: string): Outcome<Insert<'wires'>> {
  const { plan } = context;
  if (plan.wires.length >= MOST_WIRES)
    return failed('edit/too-many', 'wires', `This bench has ${MOST_WIRES} wires, the most a plan can have. Delete some first.`);
  const [a, b] = [readPoint(context, from), readPoint(context, to)];
  if (!a.ok) return a;
  if (!b.ok) return b;
  const wire: PlanWire = { id: namer(plan)(LETTER), from: a.value, to: b.value, colour };
  const settled = settleWire(roomBeside(context), plan.boards, wire);
  return settled.ok ? done({ op: 'insert', list: 'wires', item: wire, index: plan.wires.length }) : settled;
}

/** Moves one end of a wire to another hole. Fails with `edit/…`. */
export function reEnd(context: EditContext, id: string, end: 'from' | 'to', point: string): Outcome<Change> {
  const { plan } = context;
  const before = plan.wires.find((l) => l.id === id);
  if (!before) return failed('edit/gone', id, `There is no wire ${id} on this bench any more.`);
  const to = readPoint(context, point);
  if (!to.ok) return to;
  const after: PlanWire = { ...before, [end]: to.value };
  const settled = settleWire(roomBeside(context, new Set([id])), plan.boards, after);
  return settled.ok ? done({ op: 'replace', list: 'wires', before, after }) : settled;
}

/** Gives wires another colour. Fails with `edit/not-a-colour`. */
export function recolour({ plan }: EditContext, ids: readonly string[], colour: string): Outcome<Change> {
  if (!/^[a-z]{3,10}$/.test(colour))
    return failed('edit/not-a-colour', colour, `"${colour}" is not a colour: write it in small letters, such as red.`);
  const wires = plan.wires.filter((l) => ids.includes(l.id) && l.colour !== colour);
  return done(join(...wires.map((before): Change => ({ op: 'replace', list: 'wires', before, after: { ...before, colour } }))));
}

/**
 * One net of all plus rails and one of all minus rails: as many wires as that takes, each from a rail to the nearest that is not yet joined to it.
 * Fails with `edit/…`.
 */
export function joinRails(context: EditContext): Outcome<Change> {
  const { plan, layout } = context;
  const room = roomBeside(context);
  const name = namer(plan);
  const group = new Map<string, string>();
  const rootOf = (strip: string): string => {
    const up = group.get(strip);
    return up === undefined ? strip : rootOf(up);
  };
  const tie = (a: string, b: string) => {
    if (rootOf(a) !== rootOf(b)) group.set(rootOf(b), rootOf(a));
  };
  for (const wire of plan.wires) {
    const [from, to] = layout.ends.filter((e) => e.wire === wire);
    if (from && to) tie(from.strip, to.strip);
  }
  const changes: Change[] = [];
  for (const sign of ['+', '-']) {
    const rails = railsOf(context, (r) => r.startsWith(sign));
    for (const [i, rail] of rails.entries()) {
      const before = rails[i - 1];
      if (!before || rootOf(before[0]) === rootOf(rail[0])) continue;
      // of equals the farthest to the right, where wires are in the way of nothing
      const free = (holes: readonly Hole[]) => holes.filter((h) => room.occupant(holeName(h, plan.boards)) === undefined).reverse();
      const pair = nearestPair(free(before[1]), free(rail[1]));
      if (!pair) return failed('edit/no-free-hole', rail[0], 'A rail has no free hole left for a connection. Delete a wire from it first.');
      const wire: PlanWire = {
        id: name(LETTER),
        from: holeName(pair[0], plan.boards),
        to: holeName(pair[1], plan.boards),
        colour: sign === '+' ? 'red' : 'black',
      };
      const settled = settleWire(room, plan.boards, wire);
      if (!settled.ok) return settled;
      tie(before[0], rail[0]);
      changes.push({ op: 'insert', list: 'wires', item: wire, index: plan.wires.length + changes.length });
    }
  }
  return changes.length > 0
    ? done(join(...changes))
    : failed('edit/already-connected', '', 'All rails are already connected: every + with every +, every − with every −.');
}

/** Pieces of rail, each with its holes. */
function railsOf({ plan }: EditContext, fits: (r: Rail) => boolean): ReadonlyArray<readonly [strip: string, holes: readonly Hole[]]> {
  const pieces = new Map<string, Hole[]>();
  for (const board of plan.boards)
    for (const rail of RAILS.filter(fits))
      for (const hole of holesOf(board)) {
        if (!isRailHole(hole) || hole.rail !== rail) continue;
        const holes = pieces.get(stripOf(hole));
        if (holes) holes.push(hole);
        else pieces.set(stripOf(hole), [hole]);
      }
  return [...pieces];
}
