/** How near typed letters come to a name: for the list under the line. */

/**
 * How near typed letters come to a text: 0 if they are not all in it in their order. A letter counts more at the beginning of a word and right after
 * the one before it; of two texts that match alike the shorter is nearer.
 */
export function likeness(typed: string, text: string): number {
  const [want, have] = [typed.toLowerCase().replace(/\s+/g, ''), text.toLowerCase()];
  if (want === '') return 0;
  let score = 0;
  let at = -1;
  for (const letter of want) {
    const next = have[at + 1] === letter ? at + 1 : startOf(have, letter, at + 1);
    if (next < 0) return 0;
    score += next === at + 1 ? 3 : /[\w.]/.test(have[next - 1] ?? ' ') ? 0.5 : 2;
    at = next;
  }
  return score / (want.length * 3) + 1 / (10 + have.length);
}

/** The next place of a letter: at the beginning of a word if there is one, else anywhere. */
function startOf(text: string, letter: string, from: number): number {
  for (let i = text.indexOf(letter, from); i >= 0; i = text.indexOf(letter, i + 1))
    if (i === 0 || !/[\w.]/.test(text[i - 1] ?? '')) return i;
  return text.indexOf(letter, from);
}
