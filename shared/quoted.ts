/** Values as sentences quote them: what is long is shortened, so that a sentence stays one. */
import { grouped } from './grouped.ts';

/** Longest value that a sentence quotes whole [characters]. */
const MOST = 40;

/** A text in one line, or its beginning where it is long. */
export function shortened(given: string, most = MOST): string {
  const text = given.replace(/[\r\n]+/g, ' ');
  // no half of a sign that takes two places
  return text.length > most ? `${text.slice(0, most - 3).replace(/[\ud800-\udbff]$/, '')}…` : text;
}

/** A value of a document as JSON writes it; a list or an object by what it is. */
export function quotedValue(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${grouped(value.length)}`;
  if (typeof value === 'object' && value !== null) return 'an object in braces';
  const text = JSON.stringify(value);
  return text.length > MOST ? `${shortened(text)}"` : text;
}
