/** Edits of a plan as values: a change can be applied, inverted, joined with others and sent. */
import type { Plan, PlanBoard, PlanCells, PlanMeter, PlanPart, PlanWire } from '../../shared/plan.ts';
import { insert, keyed, placeIn, placeOf } from './ordered-record.ts';
import { invertWantedRows, type SetWantedRows, withWantedRows } from './wanted-rows.ts';

/** The lists of a plan and what is in them; every item has an id. */
export interface ListItems {
  readonly boards: PlanBoard;
  readonly parts: PlanPart;
  readonly wires: PlanWire;
  readonly meters: PlanMeter;
}
export type ListName = keyof ListItems;
export const LISTS = ['boards', 'parts', 'wires', 'meters'] as const satisfies readonly ListName[];

/** The records of a plan, whose names are ids of parts, and what each name has; not named: erased, certain, or off. */
export interface RecordEntries {
  readonly memories: Plan['memories'][string];
  readonly cells: PlanCells;
  readonly switches: Plan['switches'][string];
}
export type RecordName = keyof RecordEntries;
export const RECORDS = ['memories', 'cells', 'switches'] as const satisfies readonly RecordName[];

/** What a plan has one of; undefined: it has none, or what is meant without it. */
export type FieldName = Exclude<keyof Plan, ListName | RecordName | 'format' | 'version'>;
export const FIELDS = ['title', 'wanted', 'proof', 'meant', 'notes', 'wiring', 'outputs'] as const satisfies readonly FieldName[];

/** An item comes into a list, at `index`, or goes from there. */
export interface Insert<L extends ListName> {
  readonly op: 'insert';
  readonly list: L;
  readonly item: ListItems[L];
  readonly index: number;
}
interface Remove<L extends ListName> extends Omit<Insert<L>, 'op'> {
  readonly op: 'remove';
}
/** One item becomes another with the same id, in the same place. */
interface Replace<L extends ListName> {
  readonly op: 'replace';
  readonly list: L;
  readonly before: ListItems[L];
  readonly after: ListItems[L];
}
/** A field, or the entry `id` of a record. index: where among the names it stands once it is there; absent: last. */
interface SetField<F extends FieldName | RecordName, T> {
  readonly op: 'set';
  readonly field: F;
  readonly before: T;
  readonly after: T;
  readonly index?: number;
}
interface SetEntry<R extends RecordName> extends SetField<R, RecordEntries[R] | undefined> {
  readonly id: string;
}

export type ListChange<L extends ListName = ListName> = { readonly [K in L]: Insert<K> | Remove<K> | Replace<K> }[L];
export type EntryChange<R extends RecordName = RecordName> = { readonly [K in R]: SetEntry<K> }[R];
export type FieldChange<F extends FieldName = FieldName> = { readonly [K in F]: SetField<K, Plan[K]> }[F];

/** One edit of a plan: a value that can be applied, inverted, joined, rebased and sent. */
export type Change = ListChange | EntryChange | FieldChange | SetWantedRows | { readonly op: 'all'; readonly changes: readonly Change[] };

type Records = { readonly [R in RecordName]: Readonly<Record<string, RecordEntries[R]>> };
export type Lists = { readonly [L in ListName]: ReadonlyArray<ListItems[L]> };
type Item = ListItems[ListName];

/** One change made of several: applied first to last, undone last to first. */
export const join = (...changes: readonly Change[]): Change => ({ op: 'all', changes });

/** The field becomes `after`; undefined: it goes. */
export const setField = <F extends FieldName>(plan: Plan, field: F, after: Plan[F]): FieldChange<F> => ({
  op: 'set',
  field,
  before: plan[field],
  after,
  ...placeOf(plan, field),
});

/** A plan's records, empty where it has none. */
export const recordsOf = ({ memories, cells = {}, switches }: Pick<Plan, RecordName>): Records => ({ memories, cells, switches });

/** The entry of this part becomes `after`; undefined: it goes. */
export function setEntry<R extends RecordName>(plan: Plan, field: R, id: string, after: RecordEntries[R] | undefined): EntryChange<R> {
  const record = recordsOf(plan)[field];
  return { op: 'set', field, id, before: record[id], after, ...placeOf(record, id) };
}

/** The items for which `goes` holds leave their list: the last first, so that every index holds when it is used. */
export const removals = <L extends ListName>(plan: Lists, list: L, goes: (item: ListItems[L]) => boolean): ListChange<L>[] =>
  plan[list].flatMap((item, index) => (goes(item) ? [{ op: 'remove', list, item, index } as const] : [])).reverse();

/** The same for the names of a record. */
export function clearings(plan: Plan, name: RecordName, goes: (id: string) => boolean): EntryChange[] {
  const ids = Object.keys(recordsOf(plan)[name]).filter(goes).reverse();
  return ids.map((id) => setEntry(plan, name, id, undefined));
}

/** The plan with these states of cells: beside its memories, or not at all if there are none. */
export const withCellStates = (plan: Plan, cells: NonNullable<Plan['cells']>): Plan =>
  keyed(plan, 'cells', Object.keys(cells).length > 0 ? cells : undefined, placeIn(plan, 'memories') + 1);

/** The plan after the change. The plan before it stays as it was. */
export function apply(plan: Plan, c: Change): Plan {
  switch (c.op) {
    case 'insert':
      return { ...plan, [c.list]: insert<Item>(plan[c.list], c.index, c.item) };
    case 'remove':
      return { ...plan, [c.list]: plan[c.list].filter((_, i) => i !== c.index) };
    case 'replace':
      return { ...plan, [c.list]: plan[c.list].map((x) => (x.id === c.before.id ? c.after : x)) };
    case 'set': {
      if (!('id' in c)) return keyed(plan, c.field, c.after, c.index);
      if (c.field === 'cells') return withCellStates(plan, keyed(plan.cells ?? {}, c.id, c.after, c.index));
      return { ...plan, [c.field]: keyed(plan[c.field], c.id, c.after, c.index) };
    }
    case 'set-rows':
      return plan.wanted ? { ...plan, wanted: withWantedRows(plan.wanted, c) } : plan;
    case 'all':
      return c.changes.reduce(apply, plan);
  }
}

/** apply(apply(p, c), invert(c)) equals p. */
export function invert(c: Change): Change {
  switch (c.op) {
    case 'insert':
      return { ...c, op: 'remove' };
    case 'remove':
      return { ...c, op: 'insert' };
    case 'replace':
    case 'set':
      return swapped(c);
    case 'set-rows':
      return invertWantedRows(c);
    case 'all':
      return { op: 'all', changes: [...c.changes].reverse().map(invert) };
  }
}

const swapped = <C extends { readonly before: unknown; readonly after: unknown }>(c: C): C => ({ ...c, before: c.after, after: c.before });

/** Is this value, which an earlier version may have kept, a change that this one can apply? */
export function isKnownChange(kept: unknown): boolean {
  if (typeof kept !== 'object' || kept === null) return false;
  const c: { readonly [key in 'op' | 'list' | 'field' | 'id' | 'changes']?: unknown } = kept;
  const has = (names: readonly unknown[], name: unknown) => names.includes(name);
  if (c.op === 'all') return Array.isArray(c.changes) && c.changes.every(isKnownChange);
  if (c.op === 'set') return has(c.id === undefined ? FIELDS : RECORDS, c.field);
  return c.op === 'set-rows' || (has(['insert', 'remove', 'replace'], c.op) && has(LISTS, c.list));
}
