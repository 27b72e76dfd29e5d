/** The words of a typed line: how they are split, and which place after an action's name each of them fills. */
import type { Slot } from './command.ts';

/** Splits at spaces; what stands in quotes is one word. */
export const splitWords = (text: string): string[] => [...text.matchAll(/"([^"]*)"?|(\S+)/g)].map((m) => m[1] ?? m[2] ?? '');

export const quoted = (word: string): string => (/\s/.test(word) ? `"${word}"` : word);

/** What a line's words amount to. */
export interface Filled {
  /** one for each place; all words of a last place that takes each */
  readonly values: ReadonlyArray<string | undefined>;
  /** the first place that must be filled and is not */
  readonly lacks?: Slot;
  /** a word that fits no place, and the place that should have come, if there is one */
  readonly over?: { readonly word: string; readonly wants?: Slot };
  /** places that one more word could fill; `led`: their small word has been typed */
  readonly open: ReadonlyArray<{ readonly slot: Slot; readonly led: boolean }>;
}

/** Gives each word its place. A place without its small word is empty, and a text ends where the small word of a later place begins. */
export function fillSlots(takes: readonly Slot[], words: readonly string[]): Filled {
  const values: Array<string | undefined> = [];
  const open: Array<{ slot: Slot; led: boolean }> = [];
  let at = 0;
  let lacks: Slot | undefined;
  for (const [i, slot] of takes.entries()) {
    const small = slot.before?.includes(words[at]?.toLowerCase() ?? '') ?? false;
    const led = slot.before === undefined || small || (slot.bare === true && words[at] !== undefined);
    const from = small ? at + 1 : at;
    const later = takes.slice(i + 1).flatMap((s) => s.before ?? []);
    const taken = led ? wordsOf(slot, words.slice(from), later) : [];
    const ends = from + taken.length >= words.length;
    if (ends && lacks === undefined && (taken.length === 0 || slot.many)) open.push({ slot, led: slot.before !== undefined && led });
    if (taken.length === 0 && !slot.optional) lacks ??= slot;
    // what comes after a missing small word is meant for no later place
    if (!led && lacks) break;
    if (slot.many === 'each') values.push(...taken);
    else values.push(taken.length === 0 ? undefined : taken.join(' '));
    at = led && (taken.length > 0 || small) ? from + taken.length : at;
  }
  const word = words[at];
  return {
    values,
    ...(lacks ? { lacks } : {}),
    ...(word === undefined ? {} : { over: { word, ...(lacks ? { wants: lacks } : {}) } }),
    open,
  };
}

function wordsOf({ many, pin }: Slot, words: readonly string[], later: readonly string[]): readonly string[] {
  if (pin && words[1]?.toLowerCase() === 'pin' && words[2] !== undefined) return words.slice(0, 3);
  if (!many) return words.slice(0, 1);
  const end = words.findIndex((w) => later.includes(w.toLowerCase()));
  return end < 0 ? words : words.slice(0, end);
}
