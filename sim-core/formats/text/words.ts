/** One line of the text notation as words: bare ones, quoted ones and commas; what follows a # is for people only. */
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { shortened } from '../../../shared/quoted.ts';

export interface TextToken {
  /** without its quotes; a comma after a word is a token of its own */
  readonly text: string;
  readonly quoted: boolean;
}

const SPACE = /\s*/y;
/** commas within a bare word belong to it: `@0,-10` */
const TOKEN = /"(?:[^"\\]|\\.)*"|[^\s",]+(?:,+[^\s",]+)*|,/y;

/** All words of a line. */
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
    const token = eat(TOKEN);
    const quoted = token.startsWith('"');
    const text = quoted ? unquote(token) : token;
    if (token === '')
      return failed(
        'text/bad-quotes',
        '',
        `the quotes before ${shortened(line.slice(at + 1).trim()) || 'the end'} are not closed. Put " at the end of that text, or remove the one before it.`,
      );
    if (text === undefined)
      return failed(
        'text/bad-quotes',
        '',
        `${shortened(token)} has a \\ that means nothing here. Write \\\\ for the character itself, \\" for quotes, \\n for a new line.`,
      );
    if (token !== ',' && /[^\s,]/.test(line[at] ?? ' '))
      return failed(
        'text/bad-quotes',
        '',
        `${shortened(token)} runs into ${shortened(line.slice(at))}. Put a space between them, or remove a quotation mark that is too many.`,
      );
    words.push({ text, quoted });
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
export function readRest(rest: string): Outcome<TextToken> {
  const said = rest.trim();
  if (!said.startsWith('"')) return done({ text: said.replace(/(^|\s)#.*$/, '').trim(), quoted: false });
  const words = wordsOf(said);
  if (!words.ok) return words;
  const [only, more] = words.value;
  return only && !more
    ? done(only)
    : failed(
        'text/bad-quotes',
        '',
        `"${shortened(more?.text ?? said)}" comes after the closing quote. Put all of the text inside the quotes, or leave them out.`,
      );
}

/** A text that stands alone to the end of a line. */
export const writeRest = (text: string): string =>
  text === '' || text.startsWith('"') || text !== text.trim() || /(^|\s)#/.test(text) || UNPRINTED.test(text) ? JSON.stringify(text) : text;

/** Space that is none, and signs that do not show. */
const UNPRINTED = /[^\S ]|\p{C}/u;

/** A word bare where it can stand so; `reserved`: it would mean something else. */
export const writeWord = (text: string, reserved = false): string =>
  /^[^\s"#,@][^\s",]*$/.test(text) && !UNPRINTED.test(text) && !reserved ? text : JSON.stringify(text);
