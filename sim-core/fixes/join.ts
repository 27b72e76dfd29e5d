/** Metal that should be one: halves of a rail, a rail and its supply, two supplies' minus, a chip's supply pins and their rails. */
import { BOARDS, type Rail } from '../board/boards.ts';
import { type Hole, holeName, nearestPair } from '../board/tie-points.ts';
import { apply, type Change, join } from '../document/changes.ts';
import { editContext } from '../document/edits/edit-context.ts';
import { addWire } from '../document/edits/wires.ts';
import { type Ref, say } from '../sentence/wording.ts';
import type { Fix, FixBench } from './fix.ts';
import { freeBeside, freeOfSupply, freeOn, legOf } from './free-holes.ts';

const COLOUR = { plus: 'red', minus: 'black' } as const;
type Side = keyof typeof COLOUR;
const sideOfRail = (rail: Rail): Side => (rail.startsWith('+') ? 'plus' : 'minus');

const wired = ({ context }: FixBench, from: string, to: string, side: Side): readonly Fix[] => {
  const change = addWire(context, from, to, COLOUR[side]);
  return change.ok ? [{ says: say`Connect ${from} and ${to} with a wire`, change: change.value }] : [];
};

/** from, to: free holes of the two halves */
export const joinHalves = (bench: FixBench, rail: Rail, from: Ref, to: Ref): readonly Fix[] =>
  wired(bench, from.id, to.id, sideOfRail(rail));

/** From the nearest hole that the supply feeds, so that no second wire goes to its terminal. */
export function feedRail(bench: FixBench, boardRef: Ref, rail: Rail): readonly Fix[] {
  const { boards } = bench.circuit.plan;
  const board = boards.find((b) => b.id === boardRef.id);
  if (!board) return [];
  const holes = Array.from({ length: BOARDS[board.kind].railHoles }, (_, i): Hole => ({ board, rail, k: i + 1 }));
  const pair = nearestPair(
    holes.filter((h) => !bench.context.layout.taken.has(holeName(h, boards))),
    freeOfSupply(bench, sideOfRail(rail) === 'plus'),
  );
  return pair ? wired(bench, holeName(pair[1], boards), holeName(pair[0], boards), sideOfRail(rail)) : [];
}

/** Two terminals, or what is connected to them. */
export function joinMinus(bench: FixBench, one: Ref, other: Ref): readonly Fix[] {
  const [a, b] = [legOf(bench, one), legOf(bench, other)];
  const pair = a && b && nearestPair(freeOn(bench, bench.circuit.netOf(a)), freeOn(bench, bench.circuit.netOf(b)));
  const name = (h: Hole) => holeName(h, bench.circuit.plan.boards);
  return pair ? wired(bench, name(pair[0]), name(pair[1]), 'minus') : [];
}

/** Each of these supply pins of the chip to its rail. */
export function feedChip(bench: FixBench, chip: Ref, pins: readonly Ref[]): readonly Fix[] {
  const site = bench.circuit.chipById.get(chip.id);
  const side = (pin: Ref): Side => (legOf(bench, pin) === site?.supply.leg ? 'plus' : 'minus');
  return feedPins(bench, pins, side, say`Wire ${chip} to the supply`);
}

/** Each of these pins to one side of the supply, in one act. */
export function feedPins(bench: FixBench, pins: readonly Ref[], sideOf: Side | ((pin: Ref) => Side), says: Fix['says']): readonly Fix[] {
  const { circuit, context } = bench;
  let now = bench;
  const changes: Change[] = [];
  for (const pin of pins) {
    const leg = legOf(bench, pin);
    const side = typeof sideOf === 'string' ? sideOf : sideOf(pin);
    const pair = leg && nearestPair(freeBeside(now, leg), freeOfSupply(now, side === 'plus'));
    if (!pair) return [];
    const [from, to] = [holeName(pair[0], circuit.plan.boards), holeName(pair[1], circuit.plan.boards)];
    const change = addWire(now.context, from, to, COLOUR[side]);
    if (!change.ok) return [];
    const after = editContext(apply(now.context.plan, change.value), context.kinds);
    if (!after.ok) return [];
    changes.push(change.value);
    now = { ...now, context: after.value };
  }
  return [{ says, change: join(...changes) }];
}
