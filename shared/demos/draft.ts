/** A plan being drawn up: parts and leads in the order they are put down, leads numbered as they come. */
import type { PlanLead, PlanPart } from '../plan.ts';

export interface Draft {
  readonly parts: PlanPart[];
  readonly leads: PlanLead[];
}

export const newDraft = (): Draft => ({ parts: [], leads: [] });

export function put(draft: Draft, part: PlanPart): void {
  draft.parts.push(part);
}

export function lead(draft: Draft, from: string, to: string, colour: string): void {
  draft.leads.push({ id: `W${draft.leads.length + 1}`, from, to, colour });
}

export const resistor = (id: string, at: string, to: string, ohms: number): PlanPart => ({
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
