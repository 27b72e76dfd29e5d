/** Edits of a plan as values: a change can be applied, inverted, joined with others and sent. */
import type { Plan, PlanBoard, PlanCells, PlanMeter, PlanPart, PlanProof, PlanWanted, PlanWire } from '../../shared/plan.ts';
import { insert, keyed, placeIn } from './ordered-record.ts';
import { invertWantedRows, type SetWantedRows, withWantedRows } from './wanted-rows.ts';

/** One edit of a plan: a value that can be applied, inverted, joined, rebased and sent. */
export type Change =
  | { readonly op: 'add-board'; readonly board: PlanBoard; readonly index: number }
  | { readonly op: 'remove-board'; readonly board: PlanBoard; readonly index: number }
  | { readonly op: 'replace-board'; readonly before: PlanBoard; readonly after: PlanBoard }
  | { readonly op: 'add-part'; readonly part: PlanPart; readonly index: number }
  | { readonly op: 'remove-part'; readonly part: PlanPart; readonly index: number }
  | { readonly op: 'replace-part'; readonly before: PlanPart; readonly after: PlanPart }
  | { readonly op: 'add-wire'; readonly wire: PlanWire; readonly index: number }
  | { readonly op: 'remove-wire'; readonly wire: PlanWire; readonly index: number }
  | { readonly op: 'replace-wire'; readonly before: PlanWire; readonly after: PlanWire }
  | { readonly op: 'add-meter'; readonly meter: PlanMeter; readonly index: number }
  | { readonly op: 'remove-meter'; readonly meter: PlanMeter; readonly index: number }
  | { readonly op: 'replace-meter'; readonly before: PlanMeter; readonly after: PlanMeter }
  | { readonly op: 'set-memory'; readonly id: string; readonly before: Image; readonly after: Image; readonly index?: number }
  | {
      readonly op: 'set-cells';
      readonly id: string;
      readonly before: PlanCells | undefined;
      readonly after: PlanCells | undefined;
      readonly index?: number;
    }
  | { readonly op: 'set-switches'; readonly id: string; readonly before: Hands; readonly after: Hands; readonly index?: number }
  | { readonly op: 'set-wanted'; readonly before: PlanWanted | undefined; readonly after: PlanWanted | undefined; readonly index?: number }
  | { readonly op: 'set-proof'; readonly before: PlanProof | undefined; readonly after: PlanProof | undefined; readonly index?: number }
  | SetWantedRows
  | { readonly op: 'set-title'; readonly before: string; readonly after: string }
  | { readonly op: 'set-notes'; readonly before: readonly string[]; readonly after: readonly string[] }
  | SetChoice
  | { readonly op: 'all'; readonly changes: readonly Change[] };

/** How the whole bench is taken: one of the words that a plan may say, or undefined for what is meant without it. */
export type SetChoice = {
  [K in 'wiring' | 'outputs']: {
    readonly op: 'set-choice';
    readonly name: K;
    readonly before: Plan[K];
    readonly after: Plan[K];
    readonly index?: number;
  };
}['wiring' | 'outputs'];

/** undefined: not named in the plan, which means erased, or off. `index` of a change: where among the names it stands; absent: last. */
type Image = Plan['memories'][string] | undefined;
type Hands = Plan['switches'][string] | undefined;

/** One change made of several: applied first to last, undone last to first. */
export const join = (...changes: readonly Change[]): Change => ({ op: 'all', changes });

const without = <T>(list: readonly T[], index: number): T[] => [...list.slice(0, index), ...list.slice(index + 1)];
const swap = <T extends { id: string }>(list: readonly T[], before: T, after: T): T[] => list.map((x) => (x.id === before.id ? after : x));

/** The plan with these states of cells: beside its memories, or not at all if there are none. */
export function withCellStates({ cells: _, ...plan }: Plan, cells: NonNullable<Plan['cells']>): Plan {
  if (Object.keys(cells).length === 0) return plan;
  const at = placeIn(plan, 'memories') + 1;
  return Object.fromEntries(insert<[string, unknown]>(Object.entries(plan), at, ['cells', cells])) as unknown as Plan;
}

/** The plan after the change. The plan before it stays as it was. */
export function apply(plan: Plan, c: Change): Plan {
  switch (c.op) {
    case 'add-board':
      return { ...plan, boards: insert(plan.boards, c.index, c.board) };
    case 'remove-board':
      return { ...plan, boards: without(plan.boards, c.index) };
    case 'replace-board':
      return { ...plan, boards: swap(plan.boards, c.before, c.after) };
    case 'add-part':
      return { ...plan, parts: insert(plan.parts, c.index, c.part) };
    case 'remove-part':
      return { ...plan, parts: without(plan.parts, c.index) };
    case 'replace-part':
      return { ...plan, parts: swap(plan.parts, c.before, c.after) };
    case 'add-wire':
      return { ...plan, wires: insert(plan.wires, c.index, c.wire) };
    case 'remove-wire':
      return { ...plan, wires: without(plan.wires, c.index) };
    case 'replace-wire':
      return { ...plan, wires: swap(plan.wires, c.before, c.after) };
    case 'add-meter':
      return { ...plan, meters: insert(plan.meters, c.index, c.meter) };
    case 'remove-meter':
      return { ...plan, meters: without(plan.meters, c.index) };
    case 'replace-meter':
      return { ...plan, meters: swap(plan.meters, c.before, c.after) };
    case 'set-memory':
      return { ...plan, memories: keyed(plan.memories, c.id, c.after, c.index) };
    case 'set-cells':
      return withCellStates(plan, keyed(plan.cells ?? {}, c.id, c.after, c.index));
    case 'set-switches':
      return { ...plan, switches: keyed(plan.switches, c.id, c.after, c.index) };
    case 'set-wanted':
      return keyed({ ...plan }, 'wanted', c.after, c.index) as unknown as Plan;
    case 'set-proof':
      return keyed({ ...plan }, 'proof', c.after, c.index) as unknown as Plan;
    case 'set-wanted-rows':
      return plan.wanted ? { ...plan, wanted: withWantedRows(plan.wanted, c) } : plan;
    case 'set-title':
      return { ...plan, title: c.after };
    case 'set-notes':
      return { ...plan, notes: [...c.after] };
    case 'set-choice':
      return keyed({ ...plan }, c.name, c.after, c.index) as unknown as Plan;
    case 'all':
      return c.changes.reduce(apply, plan);
  }
}

/** apply(apply(p, c), invert(c)) equals p. */
export function invert(c: Change): Change {
  switch (c.op) {
    case 'add-board':
      return { ...c, op: 'remove-board' };
    case 'remove-board':
      return { ...c, op: 'add-board' };
    case 'add-part':
      return { ...c, op: 'remove-part' };
    case 'remove-part':
      return { ...c, op: 'add-part' };
    case 'add-wire':
      return { ...c, op: 'remove-wire' };
    case 'remove-wire':
      return { ...c, op: 'add-wire' };
    case 'add-meter':
      return { ...c, op: 'remove-meter' };
    case 'remove-meter':
      return { ...c, op: 'add-meter' };
    case 'replace-board':
      return { op: 'replace-board', before: c.after, after: c.before };
    case 'replace-part':
      return { op: 'replace-part', before: c.after, after: c.before };
    case 'replace-wire':
      return { op: 'replace-wire', before: c.after, after: c.before };
    case 'replace-meter':
      return { op: 'replace-meter', before: c.after, after: c.before };
    case 'set-memory':
      return { ...c, before: c.after, after: c.before };
    case 'set-cells':
      return { ...c, before: c.after, after: c.before };
    case 'set-switches':
      return { ...c, before: c.after, after: c.before };
    case 'set-wanted':
      return { ...c, before: c.after, after: c.before };
    case 'set-proof':
      return { ...c, before: c.after, after: c.before };
    case 'set-wanted-rows':
      return invertWantedRows(c);
    case 'set-title':
      return { op: 'set-title', before: c.after, after: c.before };
    case 'set-notes':
      return { op: 'set-notes', before: c.after, after: c.before };
    case 'set-choice':
      return { ...c, before: c.after, after: c.before } as Change;
    case 'all':
      return { op: 'all', changes: [...c.changes].reverse().map(invert) };
  }
}
