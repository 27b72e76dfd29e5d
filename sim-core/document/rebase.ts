/**
 * A change as it must be now, of a plan that has moved on since the change was made: hands have set switches, chips have written bytes, overload has
 * damaged parts, and none of that is taken back with it. Where the plan has not moved on, the change stays as it is.
 */
import type { Plan } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import {
  apply,
  type Change,
  clearings,
  type EntryChange,
  join,
  RECORDS,
  type RecordEntries,
  type RecordName,
  recordsOf,
} from './changes.ts';
import { digitsByAddress, isByteAlike, ROW, rowAddress } from './memory-rows.ts';
import { placeOf } from './ordered-record.ts';
import { rebasedWantedRows } from './wanted-rows.ts';

/** Changes that say what they find in their way as it is now, so that `invert` of the answer leads back to exactly this plan. What is gone needs none. */
export function rebase(plan: Plan, c: Change): Change {
  switch (c.op) {
    case 'insert':
      return { ...c, index: Math.min(c.index, plan[c.list].length) };
    case 'remove': {
      const index = plan[c.list].findIndex((x) => x.id === c.item.id);
      const item = plan[c.list][index];
      if (!item) return join();
      const found = fitted(c, { item, index });
      return c.list === 'parts' ? withContents(plan, item.id, found) : found;
    }
    case 'replace': {
      const before = plan[c.list].find((x) => x.id === c.before.id);
      return before ? fitted(c, { before, after: merge<object>(before, c.before, c.after) }) : join();
    }
    case 'set':
      return 'id' in c ? rebasedEntry(plan, c) : fitted(c, { before: plan[c.field], ...placeOf(plan, c.field) });
    case 'set-rows':
      return rebasedWantedRows(plan.wanted, c) ?? join();
    case 'all':
      return rebasedAll(plan, c.changes);
  }
}

const fitted = <C extends object, F extends object>(c: C, found: F): C & F => ({ ...c, ...found });

/** Each one after those before it. */
function rebasedAll(plan: Plan, changes: readonly Change[]): Change {
  let now = plan;
  return join(
    ...changes.flatMap((c) => {
      const fitting = rebase(now, c);
      now = apply(now, fitting);
      return fitting.op === 'all' ? fitting.changes : [fitting];
    }),
  );
}

/** With a part go its bytes and its switches, which the plan would otherwise keep for nothing; coming back, it brings them along. */
function withContents(plan: Plan, part: string, remove: Change): Change {
  const cleared = RECORDS.flatMap((name) => clearings(plan, name, (id) => id === part));
  return cleared.length > 0 ? join(...cleared, remove) : remove;
}

function rebasedEntry<R extends RecordName>(plan: Plan, c: EntryChange<R>): EntryChange<R> {
  const record = recordsOf(plan)[c.field];
  const before = record[c.id];
  const after = sameValue(before, c.before) ? c.after : MERGED[c.field](before, c.before, c.after);
  return fitted(c, { before, after, ...placeOf(record, c.id) });
}

/** What the plan has since got stays; the rest becomes as the change says. */
const MERGED: { readonly [R in RecordName]: (...nowBeforeAfter: Three<RecordEntries[R] | undefined>) => RecordEntries[R] | undefined } = {
  memories: mergeBytes,
  cells: (now, before, after) => (now && before && after ? merge(now, before, after) : after),
  switches: (now = [], before = [], after = []) => mergePoles(now, before, after),
};
type Three<T> = [now: T, before: T, after: T];

/** What the change was about becomes as it says; all else stays as it is now. */
function merge<T extends object>(now: T, before: T, after: T): T {
  if (sameValue(now, before)) return after;
  const merged: Record<string, unknown> = Object.fromEntries(Object.entries(now));
  const [was, becomes] = [Object.entries(before), new Map(Object.entries(after))];
  for (const [key] of was) if (!becomes.has(key)) delete merged[key];
  for (const [key, value] of becomes) if (!sameValue(value, was.find(([k]) => k === key)?.[1])) merged[key] = value;
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
