/** How a rule spells names, ranges of them such as A3..A0 or g..a, and what a person may have meant by a name that is not there. */
import { misspelling } from '../../../shared/misspelling.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { WORDS } from './tokens.ts';

const NUMBERED = /^(.*?)(\d+)$/;
const LONGEST = 32;

/** "A3", "A0" → A3 A2 A1 A0, in the order written. */
export function namesBetween(first: string, last: string): Outcome<readonly string[]> {
  const [a, b] = [NUMBERED.exec(first), NUMBERED.exec(last)];
  const figures = a && b && a[1] === b[1];
  const letters = first.length === 1 && last.length === 1 && /^[a-z]{2}$|^[A-Z]{2}$/.test(first + last);
  if (!figures && !letters)
    return failed(
      'rules/bad-range',
      `${first}..${last}`,
      `${first}..${last} does not count from one name to another. Write such as A3..A0 or g..a, or list the names in { }`,
    );
  const [from, to] = figures ? [Number(a[2]), Number(b[2])] : [first.charCodeAt(0), last.charCodeAt(0)];
  const count = Math.abs(from - to) + 1;
  if (count > LONGEST) return failed('rules/bad-range', `${first}..${last}`, `${first}..${last} names ${count} bits, and ${LONGEST} fit`);
  return done(
    Array.from({ length: count }, (_, i) => {
      const at = from < to ? from + i : from - i;
      return figures ? `${a[1]}${at}` : String.fromCharCode(at);
    }),
  );
}

/** With a full stop, where a question mark does not end it. */
export const ended = (says: string): string => (says.endsWith('?') ? says : `${says}.`);

/** A cure for a name that nothing is called; only a question brings its own mark. */
export function meant(name: string, known: readonly string[]): string {
  const alike = known.find((k) => k.toLowerCase() === name.toLowerCase());
  if (alike !== undefined) return `Write ${alike}; small and capital letters differ`;
  const spaced = known.find((k) => /\s/.test(k) && k.toLowerCase().split(/\s+/).includes(name.toLowerCase()));
  if (spaced !== undefined) return `If ${spaced} is meant, write "${spaced}" in quotation marks`;
  const letters = [...name];
  if (letters.length > 1 && letters.every((l) => known.includes(l))) return `Write ${letters.join(' ')} with spaces for AND`;
  const near = known.find((k) => Math.min(k.length, name.length) > 1 && misspelling(k.toLowerCase(), name.toLowerCase()) <= 1);
  return near !== undefined ? `Did you mean ${quotedName(near)}?` : `Known names: ${known.slice(0, 20).map(quotedName).join(', ')}`;
}

const PLAIN_NAME = /^[\p{L}_][\p{L}\p{N}_]*$/u;
/** A name as a rule spells it: in quotation marks where it is not one plain word. */
export const quotedName = (name: string): string => (PLAIN_NAME.test(name) && !WORDS.includes(name.toLowerCase()) ? name : `"${name}"`);
