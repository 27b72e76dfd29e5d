/** Whether two values of plain data, as JSON has it, are the same. */

/** Names count in their order; one whose value is undefined counts as one that is not there. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (a === b || Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((x, i) => x === b[i] || sameValue(x, b[i]));
  const [is, other] = [entriesOf(a), entriesOf(b)];
  return (
    Array.isArray(a) === Array.isArray(b) &&
    is.length === other.length &&
    is.every(([name, value], i) => name === other[i]?.[0] && sameValue(value, other[i][1]))
  );
}

const entriesOf = (thing: object): [string, unknown][] => Object.entries(thing).filter(([, value]) => value !== undefined);
