/** Texts: their order, names one after the other in a sentence, and a first letter as a sentence begins. */

/** For `sort`: −1, 0 or 1. */
export const compareTexts = (a: string, b: string): number => Number(a > b) - Number(a < b);

const PIECES = /\d+|\D+/g;
/** As a person counts: D2 before D10. */
export function compareCounting(a: string, b: string): number {
  const [as, bs] = [a.match(PIECES) ?? [], b.match(PIECES) ?? []];
  for (let i = 0; i < Math.max(as.length, bs.length); i++) {
    const [x = '', y = ''] = [as[i], bs[i]];
    const order = Number(x) - Number(y) || compareTexts(x, y);
    if (order !== 0) return order;
  }
  return 0;
}

/** "A", "A and B", "A, B and C"; nothing for none. */
export const enumeration = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** The text with its first letter as a sentence begins. */
export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
