/** Leads from hole to hole: laid, re-ended, recoloured; and all rails of a bench joined in one act. */
import type { PlanLead } from '../../../shared/plan.ts';
import { done, failed, type Outcome } from '../../outcome.ts';
import { RAILS, type Rail } from '../boards.ts';
import { type Change, join } from '../changes.ts';
import { type Hole, holeName, holeSpot, holesOf, isRailHole, stripOf } from '../points.ts';
import { type Ground, type Room, roomBeside, settleLead } from './ground.ts';
import { namer, readPoint } from './names.ts';

/** As many as the plan's schema takes. */
const MOST_LEADS = 5000;
const LETTER = 'W';

export function addLead(ground: Ground, from: string, to: string, colour: string): Outcome<Change> {
  const { plan } = ground;
  if (plan.leads.length >= MOST_LEADS)
    return failed('leads', `This bench has ${MOST_LEADS} leads, and no plan takes more. Take some out first.`);
  const [a, b] = [readPoint(ground, from), readPoint(ground, to)];
  if (!a.ok) return a;
  if (!b.ok) return b;
  const lead: PlanLead = { id: namer(plan)(LETTER), from: a.value, to: b.value, colour };
  const settled = settleLead(roomBeside(ground), plan.boards, lead);
  return settled.ok ? done({ op: 'add-lead', lead, index: plan.leads.length }) : settled;
}

export function reEnd(ground: Ground, id: string, end: 'from' | 'to', point: string): Outcome<Change> {
  const { plan } = ground;
  const before = plan.leads.find((l) => l.id === id);
  if (!before) return failed(id, `There is no lead ${id} on this bench any more.`);
  const to = readPoint(ground, point);
  if (!to.ok) return to;
  const after: PlanLead = { ...before, [end]: to.value };
  const settled = settleLead(roomBeside(ground, new Set([id])), plan.boards, after);
  return settled.ok ? done({ op: 'replace-lead', before, after }) : settled;
}

export function recolour({ plan }: Ground, ids: readonly string[], colour: string): Outcome<Change> {
  if (!/^[a-z]{3,10}$/.test(colour)) return failed(colour, `"${colour}" is not a colour: write it in small letters, such as red.`);
  const leads = plan.leads.filter((l) => ids.includes(l.id) && l.colour !== colour);
  return done(join(...leads.map((before): Change => ({ op: 'replace-lead', before, after: { ...before, colour } }))));
}

/** One net of all plus rails and one of all minus rails: as many leads as that takes, each from a rail to the nearest that is not yet joined to it. */
export function joinRails(ground: Ground): Outcome<Change> {
  const { plan, layout } = ground;
  const room = roomBeside(ground);
  const name = namer(plan);
  const group = new Map<string, string>();
  const rootOf = (strip: string): string => {
    const up = group.get(strip);
    return up === undefined ? strip : rootOf(up);
  };
  const tie = (a: string, b: string) => {
    if (rootOf(a) !== rootOf(b)) group.set(rootOf(b), rootOf(a));
  };
  for (const lead of plan.leads) {
    const [from, to] = layout.ends.filter((e) => e.lead === lead);
    if (from && to) tie(from.strip, to.strip);
  }
  const changes: Change[] = [];
  for (const sign of ['+', '-']) {
    const rails = railsOf(ground, (r) => r.startsWith(sign));
    for (const [i, rail] of rails.entries()) {
      const before = rails[i - 1];
      if (!before || rootOf(before[0]) === rootOf(rail[0])) continue;
      const pair = nearestPair(before[1], rail[1], ground, room);
      if (!pair) return failed(rail[0], 'A rail has no free hole left to join it by. Take a lead out of it first.');
      const lead: PlanLead = { id: name(LETTER), from: pair[0], to: pair[1], colour: sign === '+' ? 'red' : 'black' };
      const settled = settleLead(room, plan.boards, lead);
      if (!settled.ok) return settled;
      tie(before[0], rail[0]);
      changes.push({ op: 'add-lead', lead, index: plan.leads.length + changes.length });
    }
  }
  return changes.length > 0
    ? done(join(...changes))
    : failed('', 'All rails are joined already: every plus with every plus, every minus with every minus.');
}

/** Pieces of rail, each with its holes. */
function railsOf({ plan }: Ground, fits: (r: Rail) => boolean): ReadonlyArray<readonly [strip: string, holes: readonly Hole[]]> {
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

/** Two free holes, nearest to each other; of equals those farthest to the right, where leads are in nobody's way. */
function nearestPair(a: readonly Hole[], b: readonly Hole[], { plan }: Ground, room: Room): readonly [string, string] | undefined {
  const free = (holes: readonly Hole[]) => holes.filter((h) => room.occupant(holeName(h, plan.boards)) === undefined).reverse();
  let best: readonly [string, string] | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const p of free(a))
    for (const q of free(b)) {
      const [[px, py], [qx, qy]] = [holeSpot(p), holeSpot(q)];
      const away = Math.hypot(px - qx, py - qy);
      if (away >= least - 1e-9) continue;
      least = away;
      best = [holeName(p, plan.boards), holeName(q, plan.boards)];
    }
  return best;
}
