/** A plan being drawn up: parts and wires in the order they are put down, wires numbered as they come. */
import type { PlanPart, PlanWire } from '../../shared/plan.ts';

export interface Draft {
  readonly parts: PlanPart[];
  readonly wires: PlanWire[];
}

export const newDraft = (): Draft => ({ parts: [], wires: [] });

export function put(draft: Draft, part: PlanPart): void {
  draft.parts.push(part);
}

export function layWire(draft: Draft, from: string, to: string, colour: string): void {
  draft.wires.push({ id: `W${draft.wires.length + 1}`, from, to, colour });
}

export const resistorFrom = (id: string, at: string, to: string, ohms: number): PlanPart => ({
  id,
  kind: 'resistor',
  at,
  to,
  params: { ohms },
});

type Rail = '+j' | '-j' | '+a' | '-a';

/** x of a rail's first hole by board, in rows; six rows on, the next group of five begins. */
const FIRST = { 'board-63': 3, 'board-30': 2 } as const;

/** The rail hole that stands beside row `row`; every sixth row has none. */
function railHole(board: keyof typeof FIRST, rail: Rail, row: number): string {
  const along = row - FIRST[board];
  if (along < 0 || along % 6 === 5) throw new Error(`rail ${rail} has no hole beside row ${row}`);
  return `${rail}${along - Math.floor(along / 6) + 1}`;
}

export const rail = (which: Rail, row: number): string => railHole('board-63', which, row);
/** The same on the second, small board. */
export const rail2 = (which: Rail, row: number): string => `B2:${railHole('board-30', which, row)}`;
