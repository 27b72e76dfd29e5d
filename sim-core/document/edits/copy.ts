/** Copies: things taken as a small plan of their own, set down again where there is room, or repeated along the rows in one act. */

import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import type { Plan, PlanPart, PlanWire } from '../../../shared/plan.ts';
import { namedPoles } from '../../../shared/pole-names.ts';
import { BOARDS } from '../../board/boards.ts';
import { holeSpot, readHole, stripOf } from '../../board/tie-points.ts';
import { type Change, join, setEntry } from '../changes.ts';
import { type EditContext, type FreeRoom, layer, roomBeside, settlePart, settleWire } from './edit-context.ts';
import { namer, readPoint } from './ids.ts';
import { planned } from './place.ts';
import { type By, shiftPart, shiftPoint } from './shift.ts';

/** The chosen things and the wires that run between them, with their boards, so that it can be carried to another bench. */
export function copy({ plan, layout }: EditContext, ids: readonly string[]): Plan {
  const chosen = new Set(ids);
  const strips = new Set(layout.legs.filter((l) => chosen.has(l.part.id)).map((l) => l.strip));
  const between = (wire: PlanWire) => layout.ends.filter((e) => e.wire === wire).every((e) => strips.has(e.strip));
  const kept = <T>(record: Readonly<Record<string, T>>) => Object.fromEntries(Object.entries(record).filter(([id]) => chosen.has(id)));
  return {
    format: plan.format,
    version: plan.version,
    title: 'Part of a bench',
    boards: plan.boards,
    parts: plan.parts.filter((p) => chosen.has(p.id)),
    wires: plan.wires.filter((l) => chosen.has(l.id) || between(l)),
    memories: kept(plan.memories),
    meters: [],
    notes: [],
    switches: kept(plan.switches),
  };
}

/** What a copy has become: one change, and the ids of the new things. */
export interface Pasted {
  readonly change: Change;
  readonly ids: readonly string[];
}

/**
 * Sets a copy down with its first leg at `at`; without it, in the nearest place whose rows are empty, or at least whose holes are free.
 * Fails with `edit/…`, `plan/does-not-fit`, `plan/no-place` or `plan/unknown-hole`.
 */
export function paste(context: EditContext, clip: Plan, at?: string): Outcome<Pasted> {
  if (clip.parts.length + clip.wires.length === 0)
    return failed('edit/nothing-copied', '', 'Nothing has been copied yet. Select a part or a wire first.');
  const first = clip.parts.find((p) => p.at !== undefined)?.at ?? clip.wires.flatMap((l) => [l.from, l.to]).find((p) => !p.includes('.'));
  const home = first === undefined ? undefined : readHole(first, clip.boards);
  if (at !== undefined && home?.ok) {
    const point = readPoint(context, at);
    if (!point.ok) return point;
    const hole = readHole(point.value, context.plan.boards);
    if (!hole.ok) return hole;
    const [[x, y], [hx, hy]] = [holeSpot(hole.value), holeSpot(home.value)];
    return setDown(context, clip, [[x - hx, y - hy]]);
  }
  const room = roomBeside(context);
  const ways = shifts(context.plan, clip);
  const by = ways.find((w) => fits(context, clip, w, room, true)) ?? ways.find((w) => fits(context, clip, w, room, false));
  return by
    ? setDown(context, clip, [by])
    : failed('edit/no-room', '', 'No board has room for a copy of that. Add a board, or make room first.');
}

/**
 * So many copies beside each other, each `step` rows further on.
 * Fails with `edit/…`, `plan/does-not-fit`, `plan/no-place` or `plan/unknown-hole`.
 */
export function repeatAlongRows(context: EditContext, ids: readonly string[], times: number, step: number): Outcome<Pasted> {
  if (!Number.isInteger(times) || times < 1 || times > 62)
    return failed('edit/bad-count', '', `${times} copies cannot be made: give a whole number from 1 to 62.`);
  if (!Number.isInteger(step) || step === 0)
    return failed('edit/bad-count', '', `A step of ${step} rows has no effect: give a whole number of rows, such as 3.`);
  const clip = copy(context, ids);
  if (clip.parts.length + clip.wires.length === 0)
    return failed('edit/nothing-selected', '', 'Nothing is selected to repeat. Select a part or a wire first.');
  return setDown(
    context,
    clip,
    Array.from({ length: times }, (_, i): By => [step * (i + 1), 0]),
    true,
  );
}

/** Half a board is seven pitches from the other: column a comes to f, e to j. */
const HALF = 7;

/** Ways to carry a copy, the nearest first: along its rows, to the other half, to other boards. */
function shifts(plan: Plan, clip: Plan): readonly By[] {
  const from = clip.boards[0]?.spot ?? [0, 0];
  const downs = [...new Set([0, ...plan.boards.map((b) => b.spot[1] - from[1])])].flatMap((dy) => [dy, dy - HALF, dy + HALF]);
  const most = Math.max(...plan.boards.map((b) => BOARDS[b.kind].rows), 1);
  const alongs = Array.from({ length: most + 1 }, (_, i) => (i === 0 ? [0] : [i, -i])).flat();
  return downs.flatMap((dy) => alongs.map((dx): By => [dx, dy]));
}

/** empty: touches no row that anything stands in */
function fits({ plan, kinds }: EditContext, clip: Plan, by: By, under: FreeRoom, empty: boolean): boolean {
  const room = layer(under);
  const isEmpty = (point: string): boolean => {
    const hole = readHole(point, plan.boards);
    return !hole.ok || 'rail' in hole.value || !under.used(stripOf(hole.value));
  };
  for (const part of clip.parts) {
    if (part.at === undefined) continue;
    const moved = shiftPart(part, by, clip.boards, plan.boards, room);
    if (!moved) return false;
    const holes = settlePart(room, plan.boards, kinds, moved);
    if (!holes.ok || (empty && holes.value.some((h) => !('rail' in h) && under.used(stripOf(h))))) return false;
  }
  for (const wire of clip.wires) {
    const [from, to] = [wire.from, wire.to].map((p) => shiftPoint(p, by, clip.boards, plan.boards, room));
    if (from === undefined || to === undefined || (empty && !(isEmpty(from) && isEmpty(to)))) return false;
    if (from.includes('.') || to.includes('.')) continue;
    if (!settleWire(room, plan.boards, { ...wire, from, to }).ok) return false;
  }
  return true;
}

function setDown(context: EditContext, clip: Plan, ways: readonly By[], numbered = false): Outcome<Pasted> {
  const { plan, kinds } = context;
  const room = roomBeside(context);
  const name = namer(plan);
  const taken = new Set(namedPoles(plan).keys());
  const changes: Change[] = [];
  const ids: string[] = [];
  let [parts, wires] = [plan.parts.length, plan.wires.length];
  for (const [n, by] of ways.entries()) {
    const named = new Map<string, string>();
    for (const part of clip.parts) {
      const id = name(kinds.lettersOf(part.kind));
      named.set(part.id, id);
      const label = numbered && part.label !== undefined ? { label: numberedLabel(part.label, n + 1) } : {};
      const moved = part.at === undefined ? planned(context, part, id) : done(shiftPart(part, by, clip.boards, plan.boards, room));
      if (!moved.ok) return moved;
      if (!moved.value)
        return failed(
          'edit/off-board',
          part.id,
          `There is no hole for a copy of ${part.id} ${by[0]} rows further on: it would leave the board. Make fewer, or a smaller step.`,
        );
      const { poleNames, ...copied } = moved.value;
      const after: PlanPart = { ...copied, ...label, ...freeNames(poleNames, taken), id };
      const settled = settlePart(room, plan.boards, kinds, after);
      if (!settled.ok) return settled;
      changes.push({ op: 'insert', list: 'parts', item: after, index: parts++ });
      ids.push(id);
      const [bytes, hand] = [clip.memories[part.id], clip.switches[part.id]];
      if (bytes) changes.push(setEntry(plan, 'memories', id, bytes));
      if (hand) changes.push(setEntry(plan, 'switches', id, hand));
    }
    for (const wire of clip.wires) {
      const ends = [wire.from, wire.to].map((p) => {
        const [part = '', pin] = p.split('.');
        return pin === undefined ? shiftPoint(p, by, clip.boards, plan.boards, room) : `${named.get(part) ?? part}.${pin}`;
      });
      const [from, to] = ends;
      if (from === undefined || to === undefined)
        return failed('edit/off-board', wire.id, `There is no hole for a copy of wire ${wire.id} there: it would leave the board.`);
      // a wire to a terminal that this bench does not have is left behind
      if ([from, to].some((p) => p.includes('.') && !room.hasTerminal(p))) continue;
      const after: PlanWire = { ...wire, id: name('W'), from, to };
      const settled = settleWire(room, plan.boards, after);
      if (!settled.ok) return settled;
      changes.push({ op: 'insert', list: 'wires', item: after, index: wires++ });
      ids.push(after.id);
    }
  }
  return done({ change: join(...changes), ids });
}

/** A copy of a switch keeps the names that no other pole has; they are taken then. */
function freeNames(names: PlanPart['poleNames'], taken: Set<string>): Pick<PlanPart, 'poleNames'> {
  const free = (names ?? []).map((n) => (taken.has(n.toLowerCase()) ? '' : n));
  for (const n of free) if (n !== '') taken.add(n.toLowerCase());
  return free.some((n) => n !== '') ? { poleNames: free } : {};
}

/** 'LED 1' → 'LED 2', 'LED 3', …; 'LED' → 'LED 2', … */
function numberedLabel(label: string, n: number): string {
  const m = /^(.*?)(\d+)$/.exec(label);
  return m ? `${m[1]}${Number(m[2]) + n}`.slice(0, 40) : `${label} ${n + 1}`.slice(0, 40);
}
