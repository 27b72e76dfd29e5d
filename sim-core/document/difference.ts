/** The change that makes one plan into another: one value, made of as little as it takes, so that a text typed again is one edit and one undo. */
import type { Plan } from '../../shared/plan.ts';
import { type Change, join } from './changes.ts';

/** apply(before, difference(before, after)) equals after, to the bit. */
export function difference(before: Plan, after: Plan): Change {
  // what a part holds goes before the part and comes after it, so that none is left without the other in between
  const leaving = removedIds(before.parts, after.parts);
  const memories = record(before.memories, after.memories, leaving, (id, a, b, index) => ({
    op: 'set-memory',
    id,
    before: a,
    after: b,
    index,
  }));
  const cells = record(before.cells ?? {}, after.cells ?? {}, leaving, (id, a, b, index) => ({
    op: 'set-cells',
    id,
    before: a,
    after: b,
    index,
  }));
  const switches = record(before.switches, after.switches, leaving, (id, a, b, index) => ({
    op: 'set-switches',
    id,
    before: a,
    after: b,
    index,
  }));
  const changes: Change[] = [
    ...[memories, cells, switches].flatMap((r) => r.gone),
    ...list(before.boards, after.boards, {
      add: (board, index) => ({ op: 'add-board', board, index }),
      remove: (board, index) => ({ op: 'remove-board', board, index }),
      replace: (a, b) => ({ op: 'replace-board', before: a, after: b }),
    }),
    ...list(before.parts, after.parts, {
      add: (part, index) => ({ op: 'add-part', part, index }),
      remove: (part, index) => ({ op: 'remove-part', part, index }),
      replace: (a, b) => ({ op: 'replace-part', before: a, after: b }),
    }),
    ...list(before.wires, after.wires, {
      add: (wire, index) => ({ op: 'add-wire', wire, index }),
      remove: (wire, index) => ({ op: 'remove-wire', wire, index }),
      replace: (a, b) => ({ op: 'replace-wire', before: a, after: b }),
    }),
    ...list(before.meters, after.meters, {
      add: (meter, index) => ({ op: 'add-meter', meter, index }),
      remove: (meter, index) => ({ op: 'remove-meter', meter, index }),
      replace: (a, b) => ({ op: 'replace-meter', before: a, after: b }),
    }),
    ...[memories, cells, switches].flatMap((r) => r.come),
  ];
  if (before.title !== after.title) changes.push({ op: 'set-title', before: before.title, after: after.title });
  if (!same(before.wanted, after.wanted)) changes.push({ op: 'set-wanted', before: before.wanted, after: after.wanted });
  if (!same(before.proof, after.proof)) changes.push({ op: 'set-proof', before: before.proof, after: after.proof });
  if (before.wiring !== after.wiring) changes.push({ op: 'set-choice', name: 'wiring', before: before.wiring, after: after.wiring });
  if (before.outputs !== after.outputs) changes.push({ op: 'set-choice', name: 'outputs', before: before.outputs, after: after.outputs });
  if (!same(before.notes, after.notes)) changes.push({ op: 'set-notes', before: before.notes, after: after.notes });
  return join(...changes);
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

interface Ops<T> {
  add(thing: T, index: number): Change;
  remove(thing: T, index: number): Change;
  replace(before: T, after: T): Change;
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

function removedIds(before: readonly { readonly id: string }[], after: readonly { readonly id: string }[]): ReadonlySet<string> {
  const kept = keptNames(idsOf(before), idsOf(after));
  return new Set(idsOf(before).filter((id) => !kept.has(id)));
}

/** What is gone goes from the end on, so that indices hold; what is new comes from the beginning on. */
function list<T extends { readonly id: string }>(before: readonly T[], after: readonly T[], { add, remove, replace }: Ops<T>): Change[] {
  const now = new Map(after.map((t) => [t.id, t]));
  const kept = keptNames(idsOf(before), idsOf(after));
  const removed = before.flatMap((t, i) => (kept.has(t.id) ? [] : [remove(t, i)])).reverse();
  const replaced = before.flatMap((t) => {
    const next = kept.has(t.id) ? now.get(t.id) : undefined;
    return next && !same(t, next) ? [replace(t, next)] : [];
  });
  const added = after.flatMap((t, i) => (kept.has(t.id) ? [] : [add(t, i)]));
  return [...removed, ...replaced, ...added];
}

/** The same for a record, whose names have an order too. leaving: ids whose parts go, or go and come back. */
function record<T>(
  before: Readonly<Record<string, T>>,
  after: Readonly<Record<string, T>>,
  leaving: ReadonlySet<string>,
  set: (id: string, before: T | undefined, after: T | undefined, index: number) => Change,
): { readonly gone: readonly Change[]; readonly come: readonly Change[] } {
  const [was, now] = [Object.keys(before), Object.keys(after)];
  const kept = keptNames(
    was.filter((id) => !leaving.has(id)),
    now,
  );
  return {
    gone: was.flatMap((id, i) => (kept.has(id) ? [] : [set(id, before[id], undefined, i)])).reverse(),
    come: [
      ...was.flatMap((id, i) => (kept.has(id) && !same(before[id], after[id]) ? [set(id, before[id], after[id], i)] : [])),
      ...now.flatMap((id, i) => (kept.has(id) ? [] : [set(id, undefined, after[id], i)])),
    ],
  };
}
