/** Records whose names have an order, changed one name at a time, so that taking a name out can be undone to the bit. */

export const insert = <T>(list: readonly T[], index: number, item: T): T[] => [...list.slice(0, index), item, ...list.slice(index)];

/** A record with one name set, or taken out if its value is undefined. What is new comes at `index` among the names, or last. */
export function keyed<R extends object>(record: R, name: string, value: R[keyof R] | undefined, index = Number.POSITIVE_INFINITY): R {
  const all = Object.entries(record);
  const at = placeIn(record, name);
  if (value !== undefined && at >= 0) return { ...record, [name]: value };
  const rest = all.filter((_, i) => i !== at);
  return Object.fromEntries(value === undefined ? rest : insert<[string, unknown]>(rest, index, [name, value])) as R;
}

/** Where a name stands in a record; -1: nowhere. */
export const placeIn = (record: object, name: string): number => Object.keys(record).indexOf(name);

/** The same as part of a change that may have to put the name back there; nothing: it is not in the record. */
export const placeOf = (record: object, name: string): { readonly index?: number } => {
  const index = placeIn(record, name);
  return index < 0 ? {} : { index };
};
