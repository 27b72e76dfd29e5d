/** A position in the tokens of a line that only moves on, and the first thing that could not be read there. */
import type { FailureCode } from '../../../shared/failure-codes.ts';
import type { Failure } from '../../../shared/outcome.ts';
import { constant, type Expression } from './expression.ts';
import { ended } from './names.ts';
import type { Token } from './tokens.ts';

/** Brackets and signs inside each other; more are a slip, and would fill the stack. */
const MOST_OPEN = 60;

export const shown = (t: Token): string => (t.kind === 'end' ? t.text : `"${t.text}"`);

/** What a parser of expressions stands on. */
export class TokenReader {
  protected failure: Failure | undefined;
  private depth = 0;
  private readonly end: Token;

  constructor(
    protected readonly tokens: readonly Token[],
    protected at: number,
    private readonly line: number,
  ) {
    this.end = { kind: 'end', text: 'the end of the line', value: 0, column: tokens.at(-1)?.column ?? 0 };
  }

  protected peek(): Token {
    return this.tokens[this.at] ?? this.end;
  }
  protected is(...signs: readonly string[]): boolean {
    const { kind, text } = this.peek();
    return kind === 'sign' && signs.includes(text);
  }
  protected take(...signs: readonly string[]): Token | undefined {
    return this.is(...signs) ? this.tokens[this.at++] : undefined;
  }
  protected need(sign: string, why: string) {
    const found = this.peek();
    if (!this.take(sign)) this.fail('rules/syntax', found.column, `${why}, but found ${shown(found)}. Put "${sign}" there`);
  }
  /** The first failure wins; the rest of the line is left alone. */
  protected fail(code: FailureCode, column: number, says: string): Expression {
    const place = `line ${this.line}, column ${column}`;
    this.failure ??= { code, at: place, says: `${place}: ${ended(says)}` };
    this.at = this.tokens.length - 1;
    return constant(0, column);
  }

  /** Reads what is nested one step deeper. */
  protected nested(what: 'brackets' | 'operators', inner: () => Expression): Expression {
    if (++this.depth > MOST_OPEN)
      return this.fail(
        'rules/too-deep',
        this.peek().column,
        `more than ${MOST_OPEN} ${what} are nested. Name parts of the rule separately`,
      );
    const made = inner();
    this.depth--;
    return made;
  }
}
