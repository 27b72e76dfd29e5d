/** Names for new things: the next free id by its letters, and tie points as a person types them. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { Plan } from '../../../shared/plan.ts';
import { holeName, readHole, sameStrip } from '../../board/tie-points.ts';
import { type EditContext, roomBeside } from './edit-context.ts';

/** Gives out ids that nothing on the bench has, each once: 'R' → R1, R2, … */
export function namer(plan: Plan): (letters: string) => string {
  const taken = new Set([plan.boards, plan.parts, plan.wires, plan.meters].flatMap((list) => list.map(({ id }) => id)));
  return (letters) => {
    let n = 1;
    while (taken.has(`${letters}${n}`)) n++;
    taken.add(`${letters}${n}`);
    return `${letters}${n}`;
  };
}

/**
 * A point as typed, in small or capital letters: `E14`, `b2:e14`, `ps1.+`. A leg such as `U1.8` means a free hole of its row, or its own where none is.
 */
export function readPoint(context: EditContext, typed: string): Outcome<string> {
  const { plan, layout } = context;
  const text = typed.trim();
  if (text === '')
    return failed('edit/unknown-hole', '', 'There is nothing here: give a tie point such as e14, or a terminal such as PS1.+.');
  if (text.includes('.')) {
    const leg = layout.legs.find((l) => `${l.part.id}.${l.pin}`.toLowerCase() === text.toLowerCase());
    if (!leg)
      return failed(
        'edit/unknown-hole',
        text,
        `There is no leg or terminal ${text} on this bench. Write a part and a pin, such as U1.8 or PS1.+.`,
      );
    if (!leg.hole) return done(leg.strip);
    const room = roomBeside(context);
    const free = sameStrip(leg.hole).find((h) => room.occupant(holeName(h, plan.boards)) === undefined);
    return done(holeName(free ?? leg.hole, plan.boards));
  }
  const [first = '', second] = text.split(':');
  const board = second === undefined ? undefined : plan.boards.find((b) => b.id.toLowerCase() === first.trim().toLowerCase());
  const local = (second ?? first).trim().toLowerCase().replace('−', '-');
  const hole = readHole(second === undefined ? local : `${board?.id ?? first.trim()}:${local}`, plan.boards);
  return hole.ok ? done(holeName(hole.value, plan.boards)) : hole;
}
