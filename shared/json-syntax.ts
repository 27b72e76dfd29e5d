/** Where a text stops being JSON, by line and column: the parsers built into browsers and Node say it differently or not at all. */

export interface JsonFault {
  /** characters before it */
  readonly offset: number;
  readonly line: number;
  readonly column: number;
  /** the text is right as far as it goes, and ends too early */
  readonly cutOff: boolean;
}

const SPACE = /[ \t\n\r]*/y;
const NUMBER = /-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids exactly these in a string
const PLAIN = /[^"\\\u0000-\u001f]*/y;
const ESCAPE = /\\(["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const OPEN_ESCAPE = /\\(u[0-9a-fA-F]{0,3})?$/y;
const WORD = /true|false|null/y;
/** beginnings of a word or a number that more text could complete, at the very end */
const OPEN_WORD = /(t|tr|tru|f|fa|fal|fals|n|nu|nul|-|-?(0|[1-9]\d*)(\.|(\.\d+)?[eE][+-]?))$/y;

/** What may come next. 'value!' and 'key!' are after a comma, where the list or object may not end. */
type Want = 'value' | 'value!' | 'key' | 'key!' | 'colon' | 'comma' | 'end';
/** How a piece of the text came out: read; ending too early; or not what it should be, and nothing of it is passed. */
type Piece = 'read' | 'cut off' | 'wrong';

/** The first place where `text` cannot be JSON any more; undefined if it is JSON. */
export const findJsonFault = (text: string): JsonFault | undefined => new JsonScanner(text).fault();

class JsonScanner {
  private at = 0;
  /** what is open, the outermost first */
  private readonly open: Array<'{' | '['> = [];
  private want: Want = 'value!';

  constructor(private readonly text: string) {}

  fault(): JsonFault | undefined {
    for (;;) {
      this.eat(SPACE);
      if (this.at === this.text.length) return this.want === 'end' ? undefined : this.here(true);
      const piece = this.sign() ? 'read' : this.value();
      if (piece !== 'read') return this.here(piece === 'cut off');
    }
  }

  /** Passes a bracket, a comma or a colon that may stand here. */
  private sign(): boolean {
    const c = this.text[this.at];
    const inside = this.open.at(-1);
    const { want } = this;
    if ((c === '}' && inside === '{' && want === 'key') || (c === ']' && inside === '[' && want === 'value')) return this.close();
    if ((c === '}' && inside === '{' && want === 'comma') || (c === ']' && inside === '[' && want === 'comma')) return this.close();
    if (want === 'comma' && c === ',') return this.pass(inside === '{' ? 'key!' : 'value!');
    if (want === 'colon' && c === ':') return this.pass('value!');
    if ((want !== 'value' && want !== 'value!') || (c !== '{' && c !== '[')) return false;
    this.open.push(c);
    return this.pass(c === '{' ? 'key' : 'value');
  }

  private close(): boolean {
    this.open.pop();
    return this.pass(this.afterValue());
  }

  private pass(next: Want): boolean {
    this.at++;
    this.want = next;
    return true;
  }

  /** Passes a string, a number or a word, or the key of an object. */
  private value(): Piece {
    const { want } = this;
    const key = want === 'key' || want === 'key!';
    if (!key && want !== 'value' && want !== 'value!') return 'wrong';
    const next = key ? 'colon' : this.afterValue();
    if (this.text[this.at] === '"') {
      const piece = this.string();
      if (piece === 'read') this.want = next;
      return piece;
    }
    if (key) return 'wrong';
    if (this.eat(OPEN_WORD)) return 'cut off';
    if (!this.eat(WORD) && !this.eat(NUMBER)) return 'wrong';
    this.want = next;
    return 'read';
  }

  /** Piece by piece: one pattern for the whole would fill the stack with the escapes of a long string. */
  private string(): Piece {
    const { text, at: begun } = this;
    this.at++;
    do this.eat(PLAIN);
    while (this.eat(ESCAPE));
    if (text[this.at] === '"') {
      this.at++;
      return 'read';
    }
    if (this.at === text.length || this.eat(OPEN_ESCAPE)) return 'cut off';
    this.at = begun;
    return 'wrong';
  }

  private afterValue(): Want {
    return this.open.length > 0 ? 'comma' : 'end';
  }

  private eat(pattern: RegExp): boolean {
    pattern.lastIndex = this.at;
    if (!pattern.test(this.text)) return false;
    this.at = pattern.lastIndex;
    return true;
  }

  private here(cutOff: boolean): JsonFault {
    const before = this.text.slice(0, this.at);
    let line = 1;
    for (let i = before.indexOf('\n'); i >= 0; i = before.indexOf('\n', i + 1)) line++;
    return { offset: this.at, line, column: this.at - before.lastIndexOf('\n'), cutOff };
  }
}
