/**
 * A change as it must be now, of a plan that has moved on since the change was made: hands have set switches, chips have written bytes, overload has
 * damaged parts, and none of that is taken back with it. Where the plan has not moved on, the change stays as it is.
 */
import type { Plan } from '../../shared/plan.ts';
import { apply, type Change } from './changes.ts';
import { digitsByAddress, isByteAlike, ROW, rowAddress } from './memory-rows.ts';
import { placeIn } from './ordered-record.ts';
import { rebasedWantedRows } from './wanted-rows.ts';

/** Changes that say what they find in their way as it is now, so that `invert` of the answer leads back to exactly this plan. */
export function rebase(plan: Plan, c: Change): Change {
  switch (c.op) {
    case 'add-board':
      return { ...c, index: Math.min(c.index, plan.boards.length) };
    case 'add-part':
      return { ...c, index: Math.min(c.index, plan.parts.length) };
    case 'add-wire':
      return { ...c, index: Math.min(c.index, plan.wires.length) };
    case 'add-meter':
      return { ...c, index: Math.min(c.index, plan.meters.length) };
    case 'remove-board':
      return asFound(plan.boards, c.board.id, (board, index) => ({ ...c, board, index }));
    case 'remove-wire':
      return asFound(plan.wires, c.wire.id, (wire, index) => ({ ...c, wire, index }));
    case 'remove-meter':
      return asFound(plan.meters, c.meter.id, (meter, index) => ({ ...c, meter, index }));
    case 'remove-part':
      return asFound(plan.parts, c.part.id, (part, index) => withWhatItHolds(plan, { ...c, part, index }));
    case 'replace-part':
      return asFound(plan.parts, c.before.id, (before) => ({ ...c, before, after: merge(before, c.before, c.after) }));
    case 'replace-wire':
      return asFound(plan.wires, c.before.id, (before) => ({ ...c, before, after: merge(before, c.before, c.after) }));
    case 'replace-board':
      return asFound(plan.boards, c.before.id, (before) => ({ ...c, before, after: merge(before, c.before, c.after) }));
    case 'replace-meter':
      return asFound(plan.meters, c.before.id, (before) => ({ ...c, before, after: merge(before, c.before, c.after) }));
    case 'set-memory': {
      const before = plan.memories[c.id];
      const after = same(before, c.before) ? c.after : mergeBytes(before, c.before, c.after);
      return { ...c, before, after, ...placeOf(plan.memories, c.id) };
    }
    case 'set-cells': {
      const before = plan.cells?.[c.id];
      return {
        ...c,
        before,
        after: before && c.before && c.after ? merge(before, c.before, c.after) : c.after,
        ...placeOf(plan.cells ?? {}, c.id),
      };
    }
    case 'set-switches': {
      const before = plan.switches[c.id];
      const after = same(before, c.before) ? c.after : mergePoles(before ?? [], c.before ?? [], c.after ?? []);
      return { ...c, before, after, ...placeOf(plan.switches, c.id) };
    }
    case 'set-wanted':
      return { ...c, before: plan.wanted, ...placeOf(plan, 'wanted') };
    case 'set-proof':
      return { ...c, before: plan.proof, ...placeOf(plan, 'proof') };
    case 'set-wanted-rows':
      return rebasedWantedRows(plan.wanted, c) ?? NOTHING;
    case 'set-choice':
      return { ...c, before: plan[c.name], ...placeOf(plan, c.name) } as Change;
    case 'set-title':
      return { ...c, before: plan.title };
    case 'set-notes':
      return { ...c, before: plan.notes };
    case 'all': {
      let now = plan;
      const changes = c.changes.map((part) => {
        const fitting = rebase(now, part);
        now = apply(now, fitting);
        return fitting;
      });
      return { op: 'all', changes: changes.flatMap((part) => (part.op === 'all' ? part.changes : [part])) };
    }
  }
}

const NOTHING: Change = { op: 'all', changes: [] };

/** What is not there any more needs no change. */
function asFound<T extends { readonly id: string }>(list: readonly T[], id: string, make: (found: T, index: number) => Change): Change {
  const index = list.findIndex((x) => x.id === id);
  const found = list[index];
  return found ? make(found, index) : NOTHING;
}

/** With a part go its bytes and its switches, which the plan would otherwise keep for nothing; coming back, it brings them along. */
function withWhatItHolds(plan: Plan, remove: Extract<Change, { op: 'remove-part' }>): Change {
  const { id } = remove.part;
  const [image, cells, switches] = [plan.memories[id], plan.cells?.[id], plan.switches[id]];
  if (!image && !cells && !switches) return remove;
  return {
    op: 'all',
    changes: [
      ...(image ? [{ op: 'set-memory', id, before: image, after: undefined, ...placeOf(plan.memories, id) } as const] : []),
      ...(cells ? [{ op: 'set-cells', id, before: cells, after: undefined, ...placeOf(plan.cells ?? {}, id) } as const] : []),
      ...(switches ? [{ op: 'set-switches', id, before: switches, after: undefined, ...placeOf(plan.switches, id) } as const] : []),
      remove,
    ],
  };
}

/** Where a name stands, if it does: a change that has to put it back then knows its place. */
function placeOf(record: Readonly<Record<string, unknown>>, id: string): { readonly index?: number } {
  const index = placeIn(record, id);
  return index < 0 ? {} : { index };
}

const same = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);

/** What the change was about becomes as it says; all else stays as it is now. */
function merge<T extends object>(now: T, before: T, after: T): T {
  if (same(now, before)) return after;
  const merged: Record<string, unknown> = Object.fromEntries(Object.entries(now));
  const [was, becomes] = [Object.entries(before), new Map(Object.entries(after))];
  for (const [key] of was) if (!becomes.has(key)) delete merged[key];
  for (const [key, value] of becomes) if (!same(value, was.find(([k]) => k === key)?.[1])) merged[key] = value;
  return merged as T;
}

type Image = Readonly<Record<string, string>> | undefined;

/** Bytes that have been written since stay written; the others that the change was about become as it says. */
function mergeBytes(now: Image, before: Image, after: Image): Image {
  const [here, was, becomes] = [digitsByAddress(now), digitsByAddress(before), digitsByAddress(after)];
  for (const address of new Set([...was.keys(), ...becomes.keys()])) {
    const to = becomes.get(address);
    if (isByteAlike(was, becomes, address) || !isByteAlike(here, was, address)) continue;
    if (to === undefined) here.delete(address);
    else here.set(address, to);
  }
  return here.size === 0 && after === undefined ? undefined : imageOf(here);
}

function imageOf(bytes: ReadonlyMap<number, string>): Record<string, string> {
  const rows: Record<string, string> = {};
  let row = '';
  let last = -2;
  for (const [address, byte] of [...bytes].sort(([a], [b]) => a - b)) {
    if (address !== last + 1 || address % ROW === 0) row = rowAddress(address);
    rows[row] = (rows[row] ?? '') + byte;
    last = address;
  }
  return rows;
}

/** A pole that a hand has moved since stays where it was put. */
function mergePoles(now: readonly boolean[], before: readonly boolean[], after: readonly boolean[]): boolean[] {
  const at = (poles: readonly boolean[], i: number) => poles[i] ?? false;
  return Array.from({ length: Math.max(now.length, after.length) }, (_, i) => (at(now, i) === at(before, i) ? at(after, i) : at(now, i)));
}
