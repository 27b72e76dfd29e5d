/** Texts: their order, names one after the other in a sentence, and a first letter as a sentence begins. */

/** For `sort`: −1, 0 or 1. */
export const compareTexts = (a: string, b: string): number => Number(a > b) - Number(a < b);

/** "A", "A and B", "A, B and C"; nothing for none. */
export const enumeration = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** The text with its first letter as a sentence begins. */
export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
