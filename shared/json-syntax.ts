/** Where a text stops being JSON, by line and column: the parsers built into browsers and Node say it differently or not at all. */

export interface JsonFault {
  readonly line: number;
  readonly column: number;
  /** the text is right as far as it goes, and ends too early */
  readonly cutOff: boolean;
}

const SPACE = /[ \t\n\r]*/y;
const NUMBER = /-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids exactly these in a string
const STRING = /"[^"\\\u0000-\u001f]*(\\(["\\/bfnrt]|u[0-9a-fA-F]{4})[^"\\\u0000-\u001f]*)*"/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: as above
const OPEN_STRING = /"[^"\\\u0000-\u001f]*(\\(["\\/bfnrt]|u[0-9a-fA-F]{4})[^"\\\u0000-\u001f]*)*(\\(u[0-9a-fA-F]{0,3})?)?$/y;
const WORD = /true|false|null/y;
/** beginnings of a word or a number that more text could complete, at the very end */
const OPEN_WORD = /(t|tr|tru|f|fa|fal|fals|n|nu|nul|-|-?(0|[1-9]\d*)(\.|(\.\d+)?[eE][+-]?))$/y;

/** What may come next. 'value!' and 'key!' are after a comma, where the list or object may not end. */
type Want = 'value' | 'value!' | 'key' | 'key!' | 'colon' | 'comma' | 'end';

/** The first place where `text` cannot be JSON any more; undefined if it is JSON. */
export function findJsonFault(text: string): JsonFault | undefined {
  const stack: Array<'{' | '['> = [];
  let i = 0;
  let want: Want = 'value!';
  const eat = (pattern: RegExp): boolean => {
    pattern.lastIndex = i;
    if (!pattern.test(text)) return false;
    i = pattern.lastIndex;
    return true;
  };
  const afterValue = (): Want => (stack.length > 0 ? 'comma' : 'end');
  for (;;) {
    eat(SPACE);
    const c = text[i];
    const value = want === 'value' || want === 'value!';
    const key = want === 'key' || want === 'key!';
    if (c === undefined) return want === 'end' ? undefined : place(text, i, true);
    const inside = stack.at(-1);
    if (
      (c === '}' && inside === '{' && (want === 'key' || want === 'comma')) ||
      (c === ']' && inside === '[' && (want === 'value' || want === 'comma'))
    ) {
      stack.pop();
      i++;
      want = afterValue();
    } else if (want === 'comma' && c === ',') {
      i++;
      want = inside === '{' ? 'key!' : 'value!';
    } else if (want === 'colon' && c === ':') {
      i++;
      want = 'value!';
    } else if (key && eat(STRING)) want = 'colon';
    else if (value && (c === '{' || c === '[')) {
      stack.push(c);
      i++;
      want = c === '{' ? 'key' : 'value';
    } else if (value && eat(OPEN_WORD)) return place(text, i, true);
    else if (value && (eat(STRING) || eat(WORD) || eat(NUMBER))) want = afterValue();
    else {
      const open = (value || key) && eat(OPEN_STRING);
      return place(text, i, open);
    }
  }
}

function place(text: string, at: number, cutOff: boolean): JsonFault {
  const before = text.slice(0, at).split('\n');
  return { line: before.length, column: (before.at(-1) ?? '').length + 1, cutOff };
}
