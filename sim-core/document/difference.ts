/** The change that makes one plan into another: one value, made of as little as it takes, so that a text typed again is one edit and one undo. */
import type { Plan } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import {
  type Change,
  clearings,
  FIELDS,
  join,
  LISTS,
  type ListChange,
  type ListName,
  type Lists,
  RECORDS,
  type RecordName,
  recordsOf,
  removals,
  setEntry,
  setField,
} from './changes.ts';

/** apply(before, difference(before, after)) equals after, to the bit. */
export function difference(before: Plan, after: Plan): Change {
  // what a part holds goes before the part and comes after it, so that none is left without the other in between
  const parts = keptNames(idsOf(before.parts), idsOf(after.parts));
  const leaving = new Set(idsOf(before.parts).filter((id) => !parts.has(id)));
  const records = RECORDS.map((name) => recordDifference(before, after, name, leaving));
  return join(
    ...records.flatMap((r) => r.gone),
    ...LISTS.flatMap((list) => listDifference(before, after, list)),
    ...records.flatMap((r) => r.come),
    ...FIELDS.flatMap((field) => (sameValue(before[field], after[field]) ? [] : [setField(before, field, after[field])])),
  );
}

/** The names of `before` that stay where they are: as many as keep their order in `after` (a longest increasing run of places). */
function keptNames(before: readonly string[], after: readonly string[]): ReadonlySet<string> {
  const places = new Map(after.map((id, i) => [id, i]));
  const common = before.flatMap((id) => {
    const place = places.get(id);
    return place === undefined ? [] : [{ id, place }];
  });
  /** ends[n]: the entry with the least place at which a run of n + 1 ends; back: the one before each in its run */
  const ends: Array<{ readonly id: string; readonly place: number }> = [];
  const back = new Map<string, string | undefined>();
  for (const { id, place } of common) {
    let n = ends.length;
    while (n > 0 && (ends[n - 1]?.place ?? -1) > place) n--;
    ends[n] = { id, place };
    back.set(id, ends[n - 1]?.id);
  }
  const kept = new Set<string>();
  for (let id = ends.at(-1)?.id; id !== undefined; id = back.get(id)) kept.add(id);
  return kept;
}

const idsOf = (things: readonly { readonly id: string }[]): string[] => things.map((t) => t.id);

/** What is gone goes from the end on, so that indices hold; what is new comes from the beginning on. */
function listDifference<L extends ListName>(before: Lists, after: Lists, list: L): ListChange<L>[] {
  const [was, is] = [before[list], after[list]];
  const now = new Map(is.map((item) => [item.id, item]));
  const kept = keptNames(idsOf(was), idsOf(is));
  const replaced = was.flatMap((t) => {
    const next = kept.has(t.id) ? now.get(t.id) : undefined;
    return next && !sameValue(t, next) ? [{ op: 'replace', list, before: t, after: next } as const] : [];
  });
  const inserted = is.flatMap((item, index) => (kept.has(item.id) ? [] : [{ op: 'insert', list, item, index } as const]));
  return [...removals(before, list, (item) => !kept.has(item.id)), ...replaced, ...inserted];
}

/** The same for a record, whose names have an order too. leaving: ids whose parts go, or go and come back. */
function recordDifference(
  before: Plan,
  after: Plan,
  name: RecordName,
  leaving: ReadonlySet<string>,
): { readonly gone: readonly Change[]; readonly come: readonly Change[] } {
  const [record, next] = [recordsOf(before)[name], recordsOf(after)[name]];
  const [was, now] = [Object.keys(record), Object.keys(next)];
  const kept = keptNames(
    was.filter((id) => !leaving.has(id)),
    now,
  );
  return {
    gone: clearings(before, name, (id) => !kept.has(id)),
    come: [
      ...was.flatMap((id) => (kept.has(id) && !sameValue(record[id], next[id]) ? [setEntry(before, name, id, next[id])] : [])),
      ...now.flatMap((id, index) => (kept.has(id) ? [] : [{ ...setEntry(before, name, id, next[id]), before: undefined, index }])),
    ],
  };
}
