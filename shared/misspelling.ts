/** What a person may have meant by a name that does not exist: how far one word is from another, and the names near it. */

/** How many letters must be put in, left out, changed, or swapped with the next to make one word of the other. */
export function misspelling(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const cell = (i: number, j: number) => rows[i]?.[j] ?? Number.POSITIVE_INFINITY;
  for (let i = 1; i <= a.length; i++) {
    rows.push([i]);
    for (let j = 1; j <= b.length; j++) {
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? cell(i - 2, j - 2) + 1 : Number.POSITIVE_INFINITY;
      rows[i]?.push(Math.min(cell(i - 1, j) + 1, cell(i, j - 1) + 1, cell(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1), swapped));
    }
  }
  return cell(a.length, b.length);
}

/** Names at most one slip away (two in longer words), the nearest first, then those that begin so. */
export function nearestNames(typed: string, names: readonly string[], most = 3): readonly string[] {
  const want = typed.toLowerCase();
  const slips = want.length <= 4 ? 1 : 2;
  // letters too many or too few are slips already
  const farFrom = (name: string) => (Math.abs(name.length - want.length) > slips ? Number.POSITIVE_INFINITY : misspelling(want, name));
  return names
    .map((name, i) => ({ name, i, far: farFrom(name.toLowerCase()), begins: name.toLowerCase().startsWith(want) }))
    .filter((n) => n.far <= slips || (n.begins && want !== ''))
    .sort((a, b) => Math.min(a.far, slips + 1) - Math.min(b.far, slips + 1) || a.i - b.i)
    .slice(0, most)
    .map((n) => n.name);
}

/** " Did you mean delete or deselect?"; empty for none. */
export function didYouMean(names: readonly string[]): string {
  const last = names.at(-1);
  if (last === undefined) return '';
  return ` Did you mean ${names.length === 1 ? last : `${names.slice(0, -1).join(', ')} or ${last}`}?`;
}
