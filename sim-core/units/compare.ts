/** The order of two texts by their characters, whatever the language of the machine. */

/** For `sort`: −1, 0 or 1. */
export const compareTexts = (a: string, b: string): number => Number(a > b) - Number(a < b);
