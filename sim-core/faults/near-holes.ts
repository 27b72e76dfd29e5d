/** Where a hand errs to: the row beside, the rail beside. Only free holes count. */
import type { Rail } from '../board/boards.ts';
import { type Hole, holeBeside, holeName, holeSpot, isRailHole, railHoleNear, readHole, sameStrip } from '../board/tie-points.ts';
import type { FaultBench } from './fault-bench.ts';

const isFree = ({ plan, room }: FaultBench, hole: Hole): boolean => room.occupant(holeName(hole, plan.boards)) === undefined;

/** A free hole so many rows along, of the same column if that is free. */
export function besideRow(bench: FaultBench, hole: Hole, by: number): string | undefined {
  const along = holeBeside(hole, by, 0);
  if (!along) return undefined;
  const free = [along, ...sameStrip(along)].find((h) => isFree(bench, h));
  return free && holeName(free, bench.plan.boards);
}

/** The piece of metal so many rows along: one of its holes, taken or not. */
export const metalBeside = (hole: Hole, by: number): Hole | undefined => holeBeside(hole, by, 0);

const BESIDE: Readonly<Record<Rail, Rail>> = { '+j': '-j', '-j': '+j', '+a': '-a', '-a': '+a' };

/** The nearest free hole of the rail beside this one. */
export function besideRail(bench: FaultBench, hole: Hole): string | undefined {
  if (!isRailHole(hole)) return undefined;
  const other = railHoleNear(hole.board, BESIDE[hole.rail], holeSpot(hole)[0], (h) => isFree(bench, h));
  return other && holeName(other, bench.plan.boards);
}

/** The hole of this name, where the plan has it. */
export function holeCalled({ plan }: FaultBench, name: string): Hole | undefined {
  const read = readHole(name, plan.boards);
  return read.ok ? read.value : undefined;
}

/** A free hole of the same metal. */
export function freeIn(bench: FaultBench, hole: Hole | undefined): string | undefined {
  const free = hole && sameStrip(hole).find((h) => isFree(bench, h));
  return free && holeName(free, bench.plan.boards);
}
