/** One line of a bench's text as words: bare ones, quoted ones, and bare ones that end in a quoted text; what follows a # is for people only. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';

export interface TextToken {
  /** what stands bare, or before the quotes: 'a12', 'ohms=', '' */
  readonly bare: string;
  /** what stands in the quotes, if there are any */
  readonly quoted?: string;
  /** as it stands in the line */
  readonly text: string;
}

const BARE = /[^\s"]*/y;
const QUOTED = /"(?:[^"\\]|\\.)*"/y;
const SPACE = /\s*/y;

/** All words of a line, or the second half of a sentence that says what is amiss. */
export function wordsOf(line: string): Outcome<readonly TextToken[]> {
  const words: TextToken[] = [];
  let at = 0;
  const eat = (pattern: RegExp): string => {
    pattern.lastIndex = at;
    const [found = ''] = pattern.exec(line) ?? [];
    at += found.length;
    return found;
  };
  for (eat(SPACE); at < line.length && line[at] !== '#'; eat(SPACE)) {
    const start = at;
    const bare = eat(BARE);
    if (line[at] !== '"') {
      words.push({ bare, text: bare });
      continue;
    }
    const quotes = eat(QUOTED);
    if (quotes === '')
      return failed('', `the quotes before ${line.slice(at + 1).trim() || 'the end'} are not closed. Put " at the end of that text.`);
    const text = line.slice(start, at);
    if (at < line.length && !/\s/.test(line[at] ?? ''))
      return failed('', `${text} runs into "${line.slice(at)}". Put a space after the quotes.`);
    const quoted = unquote(quotes);
    if (quoted === undefined)
      return failed('', `${text} has a \\ that means nothing here. Write \\\\ for the sign itself, \\" for quotes, \\n for a new line.`);
    words.push({ bare, quoted, text });
  }
  return done(words);
}

/** Quotes as JSON has them, and tabs may stand in them as they are. */
function unquote(quotes: string): string | undefined {
  try {
    return JSON.parse(quotes.replaceAll('\t', '\\t')) as string;
  } catch {
    return undefined;
  }
}

/** Text to the end of the line: as it stands, or in quotes where it has to be. */
export function readRest(rest: string): Outcome<string> {
  const said = rest.trim();
  if (!said.startsWith('"')) return done(said.replace(/(^|\s)#.*$/, '').trim());
  const words = wordsOf(said);
  if (!words.ok) return words;
  const [only, more] = words.value;
  return only?.quoted !== undefined && !more
    ? done(only.quoted)
    : failed('', `${more?.text ?? said} stands after the quotes. Put all of the text into them, or leave them out.`);
}

/** A text that stands alone to the end of a line. */
export const writeRest = (text: string): string =>
  text === '' || text.startsWith('"') || text !== text.trim() || /(^|\s)#/.test(text) || UNPRINTED.test(text) ? JSON.stringify(text) : text;

/** Space that is none, and signs that do not show. */
const UNPRINTED = /[^\S ]|\p{C}/u;

/** A word bare where it can stand so. */
export const writeWord = (text: string): string => (/^[^\s"#][^\s"]*$/.test(text) && !UNPRINTED.test(text) ? text : JSON.stringify(text));
