/** Metal that should be one: halves of a rail, a rail and what should feed it, two supplies' minus, a chip's supply pins and their rails. */
import { BOARDS, type Rail } from '../board/boards.ts';
import { type Hole, holeName } from '../board/tie-points.ts';
import { apply, type Change, join } from '../document/changes.ts';
import { editContext } from '../document/edits/edit-context.ts';
import { addWire } from '../document/edits/wires.ts';
import type { Curing, FixContext, FixRule } from './fix.ts';
import { freeBeside, freeOfSupply, freeOn, legOf, nearestPair } from './free-holes.ts';

const [PLUS, MINUS] = ['red', 'black'];

const wire = (about: FixContext, from: string, to: string, high: boolean): readonly FixRule[] => {
  const change = addWire(about.ground, from, to, (high ? PLUS : MINUS) ?? '');
  return change.ok ? [{ deed: { does: 'join', from, to }, change: change.value }] : [];
};

export const joinHalves: Curing = (about) => {
  const [from, to] = about.finding.at;
  return from && to ? wire(about, from.id, to.id, String(about.finding.data.rail).startsWith('+')) : [];
};

/** From the nearest hole that the supply feeds, so that no second wire goes to its terminal. */
export const feedRail: Curing = (about) => {
  const { circuit, finding } = about;
  const rail = String(finding.data.rail) as Rail;
  const board = circuit.plan.boards.find((b) => b.id === finding.at[0]?.id);
  if (!board) return [];
  const holes = Array.from({ length: BOARDS[board.kind].railHoles }, (_, i): Hole => ({ board, rail, k: i + 1 }));
  const high = rail.startsWith('+');
  const name = (h: Hole) => holeName(h, circuit.plan.boards);
  const pair = nearestPair(
    holes.filter((h) => !about.ground.layout.taken.has(name(h))),
    freeOfSupply(about, high),
  );
  return pair ? wire(about, name(pair[1]), name(pair[0]), high) : [];
};

export const joinSupplies: Curing = (about) => {
  const [a, b] = [legOf(about, about.finding.at[2]), legOf(about, about.finding.at[3])];
  if (!a || !b) return [];
  const pair = nearestPair(freeOn(about, about.circuit.netOf(a)), freeOn(about, about.circuit.netOf(b)));
  const name = (h: Hole) => holeName(h, about.circuit.plan.boards);
  return pair ? wire(about, name(pair[0]), name(pair[1]), false) : [];
};

/** The chip's own two pins, each to its rail where it is joined to none. */
export const feedChip: Curing = (about) => {
  const { circuit, finding, ground } = about;
  const [what, ...pins] = finding.at;
  const chip = circuit.chips.find((c) => c.placed.part.id === what?.id);
  if (!what || !chip) return [];
  let now = about;
  const changes: Change[] = [];
  for (const ref of pins) {
    const leg = legOf(about, ref);
    const high = leg === chip.supply.leg;
    const pair = leg && nearestPair(freeBeside(now, leg), freeOfSupply(now, high));
    if (!pair) return [];
    const [from, to] = pair.map((h) => holeName(h, circuit.plan.boards));
    const change = addWire(now.ground, from ?? '', to ?? '', (high ? PLUS : MINUS) ?? '');
    if (!change.ok) return [];
    const after = editContext(apply(now.ground.plan, change.value), ground.kinds);
    if (!after.ok) return [];
    changes.push(change.value);
    now = { ...now, ground: after.value };
  }
  return [{ deed: { does: 'feed', what }, change: join(...changes) }];
};
