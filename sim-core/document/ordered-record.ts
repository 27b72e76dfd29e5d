/** Records whose names have an order, changed one name at a time, so that taking a name out can be undone to the bit. */

export const insert = <T>(list: readonly T[], index: number, thing: T): T[] => [...list.slice(0, index), thing, ...list.slice(index)];

/** A record with one name set or taken out. What is new comes at `index` among the names, or last. */
export function keyed<T>(
  record: Readonly<Record<string, T>>,
  id: string,
  value: T | undefined,
  index = Number.POSITIVE_INFINITY,
): Record<string, T> {
  const { [id]: before, ...rest } = record;
  if (value === undefined) return rest;
  if (before !== undefined) return { ...record, [id]: value };
  return Object.fromEntries(insert(Object.entries(rest), index, [id, value]));
}

/** Where a name stands in a record, for a change that may have to put it back there. */
export const placeIn = (record: Readonly<Record<string, unknown>>, id: string): number => Object.keys(record).indexOf(id);
