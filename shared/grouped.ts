/** Counts as people read them: from five digits on in groups of three, with a thin space between (SI Brochure, 9th edition, 5.4.4). */

/** A whole number: 8192, but 65 536. Not for addresses, file formats, and what is typed. */
export const grouped = (count: number): string => {
  const digits = String(count);
  return Math.abs(count) < 10_000 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, '\u202f');
};
