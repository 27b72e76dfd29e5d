/** The hole at a spot of the bench, looked up in all holes of its boards. */
import type { PlanBoard } from '../../shared/plan.ts';
import { holeName, holeSpot, holesOf, stripOf } from '../../sim-core/index.ts';
import type { Spot } from './geometry.ts';

export interface FoundHole {
  /** 'a12' */
  readonly name: string;
  readonly strip: string;
}

/** The nearest hole, if the spot is on it. */
export type HoleIndex = (spot: Spot) => FoundHole | undefined;

export function indexHoles(boards: PlanBoard[]): HoleIndex {
  const holes = new Map<string, FoundHole>();
  for (const board of boards)
    for (const hole of holesOf(board)) holes.set(holeSpot(hole).join(), { name: holeName(hole, boards), strip: stripOf(hole) });
  return ([x, y]) => holes.get([Math.round(x), Math.round(y)].join());
}
