/**
 * The grammar of a rule's right side. From loose to tight: if, OR, XOR, AND, comparison, + −, × div mod, NOT, brackets.
 * + and * between bits are OR and AND as textbooks write them; between numbers they count. A + between bits is as loose as OR.
 */
import type { Failure } from '../../../shared/outcome.ts';
import {
  applyOperation,
  areBits,
  arithmetic,
  bracketed,
  comparison,
  constant,
  DEEPEST,
  depthOf,
  type Expression,
  type Fitted,
  gate,
  group,
  inverted,
  isBit,
  isComparison,
  isMisfit,
} from './expression.ts';
import { namesBetween } from './names.ts';
import { FUNCTIONS, type Operation } from './operations.ts';
import { shown, TokenReader } from './token-reader.ts';
import type { Token } from './tokens.ts';

export interface Reading {
  readonly expression: Expression;
  /** the first thing that could not be read */
  readonly failure: Failure | undefined;
}

/** What a name stands for; a string says why it stands for nothing. */
export type Resolve = (name: string) => Expression | string;

/** The right side that begins at the token `from`. */
export function parseExpression(tokens: readonly Token[], from: number, line: number, resolve: Resolve): Reading {
  return new Parser(tokens, from, line, resolve).read();
}

/** What a sign joins to what stands before it. */
interface Operand {
  readonly operand: Expression;
  /** of the sign */
  readonly column: number;
}

type Gate = 'and' | 'or' | 'xor';

/** Recursive descent: a method a level of the grammar, over one position that only moves on. */
class Parser extends TokenReader {
  /** products that + has looked at: what begins at a token, and where it ends */
  private readonly held = new Map<number, { readonly operand: Expression; readonly end: number }>();

  constructor(
    tokens: readonly Token[],
    private readonly from: number,
    line: number,
    private readonly resolve: Resolve,
  ) {
    super(tokens, from, line);
  }

  read(): Reading {
    const expression = this.whole();
    if ((expression.deep ?? 0) > DEEPEST)
      this.fail(
        'rules/too-deep',
        this.tokens[this.from]?.column ?? 1,
        `more than ${DEEPEST} steps follow one another here, those of the names it speaks of included. Use brackets, or shorten it`,
      );
    const rest = this.peek();
    if (!this.failure && rest.kind !== 'end')
      this.fail('rules/syntax', rest.column, `the rule should end before ${shown(rest)}. Put an operator between, or remove it`);
    return { expression, failure: this.failure };
  }

  private fitted(f: Fitted, column: number): Expression {
    return isMisfit(f) ? this.fail('rules/wrong-type', column, f.misfit) : f;
  }
  private whole(): Expression {
    return this.nested('brackets', () => (this.take('if') ? this.choice() : this.disjunction()));
  }

  private choice(): Expression {
    const { column } = this.peek();
    const condition = this.whole();
    this.need('then', 'After if and its condition comes then');
    const yes = this.whole();
    this.need('else', 'Every if needs an else');
    const no = this.whole();
    if (!isBit(condition)) return this.fail('rules/wrong-type', column, 'the condition is a number. Compare it, such as T > 25');
    const bits = areBits(yes, no) ? 1 : yes.bits === 0 || no.bits === 0 ? 0 : Math.max(yes.bits, no.bits);
    return applyOperation('choose', 'if', [condition, yes, no], bits, column);
  }

  private disjunction(): Expression {
    return this.chain(() => this.exclusive(), ['|', 'or', '+'], 'or', 'nor');
  }
  private exclusive(): Expression {
    return this.chain(() => this.conjunction(), ['^', 'xor'], 'xor', 'xnor');
  }
  private conjunction(): Expression {
    return this.chain(() => this.compared(), ['&', 'and'], 'and', 'nand');
  }

  /** One level of signs of the same strength, from the left. */
  private chain(next: () => Expression, signs: readonly string[], name: Gate, negated: string): Expression {
    let run: Operand[] = [{ operand: next(), column: 0 }];
    for (let sign = this.take(...signs, negated); sign; sign = this.take(...signs, negated)) {
      const { column } = sign;
      const operand = next();
      if (sign.text !== negated) run.push({ operand, column });
      else {
        const made = this.fitted(gate(name, negated.toUpperCase(), this.joined(run, name), operand), column);
        run = [{ operand: this.fitted(inverted(made), made.column), column }];
      }
    }
    return this.joined(run, name);
  }

  /** In halves: a sum of thousands of products is then a dozen steps deep. */
  private joined(run: readonly Operand[], name: Gate): Expression {
    const [first, second] = run;
    if (!first || !second) return first?.operand ?? constant(0, 0);
    const middle = run.length >> 1;
    const halves = [this.joined(run.slice(0, middle), name), this.joined(run.slice(middle), name)] as const;
    return this.fitted(gate(name, name.toUpperCase(), ...halves), run[middle]?.column ?? first.column);
  }

  private compared(): Expression {
    const first = this.tokens[this.at];
    const left = this.sum();
    const sign = this.comparing();
    if (!sign) return left;
    this.at++;
    if (first?.text === 'not' && left.bits !== 1)
      return this.fail(
        'rules/wrong-type',
        sign.column,
        'NOT belongs to the number on its right, not to the comparison. Write NOT ( … ) round the comparison',
      );
    const made = this.fitted(comparison(sign.text, left, this.sum()), sign.column);
    const another = this.comparing();
    if (another)
      return this.fail('rules/syntax', another.column, 'two comparisons in a row. Write for example 3 < T AND T < 9, or add brackets');
    return made;
  }
  private comparing(): Token | undefined {
    const sign = this.peek();
    return sign.kind === 'sign' && isComparison(sign.text) ? sign : undefined;
  }

  private sum(): Expression {
    let left = this.product();
    for (;;) {
      const start = this.at;
      const sign = this.take('+', '-', 'plus', 'minus');
      if (!sign) return left;
      const begins = this.at;
      const right = this.product();
      this.held.set(begins, { operand: right, end: this.at });
      if (sign.text === '+' && areBits(left, right)) {
        // OR: left to the level of OR
        this.at = start;
        return left;
      }
      left = arithmetic(sign.text === '+' || sign.text === 'plus' ? 'plus' : 'minus', sign.text, left, right);
    }
  }

  private product(): Expression {
    const before = this.held.get(this.at);
    if (before) {
      this.at = before.end;
      return before.operand;
    }
    let left = this.unary();
    for (;;) {
      const sign = this.peek();
      // side by side is AND
      const beside = startsOperand(sign) || (this.is('/') && left.bits === 1);
      if (!beside && !this.is('*', 'times', 'mod', 'div', '/')) return left;
      if (!beside) this.at++;
      else if (this.failure) return left;
      const right = this.unary();
      if (beside && this.failure) return left;
      if ((beside || sign.text === '*') && areBits(left, right)) left = this.fitted(gate('and', 'AND', left, right), sign.column);
      else if (beside)
        return this.fail('rules/syntax', sign.column, 'an operator is missing between two numbers. Add one, such as + or times');
      else left = arithmetic(MULTIPLYING[sign.text] ?? 'times', sign.text, left, right);
    }
  }

  private unary(): Expression {
    return this.nested('operators', () => {
      const sign = this.take('!', 'not', '/', '-');
      if (!sign) return this.postfix();
      if (sign.text === '-') return arithmetic('minus', '-', constant(0, sign.column), this.unary());
      return this.fitted(inverted(this.unary()), sign.column);
    });
  }

  private postfix(): Expression {
    let made = this.primary();
    for (let sign = this.take("'", '['); sign; sign = this.take("'", '['))
      made = sign.text === "'" ? this.fitted(inverted(made), sign.column) : this.bitOf(made);
    return made;
  }

  private bitOf(whole: Expression): Expression {
    const bit = this.peek();
    if (bit.kind !== 'number' || (whole.bits > 0 && bit.value >= whole.bits))
      return this.fail(
        'rules/wrong-type',
        bit.column,
        whole.bits > 0
          ? `bits of this group are numbered 0 to ${whole.bits - 1}`
          : '[ ] takes the number of a bit; 0 is the least significant',
      );
    this.at++;
    this.need(']', 'The bracket [ is still open');
    return applyOperation('bit', 'bit', [whole, constant(bit.value, bit.column)], 1, whole.column);
  }

  private primary(): Expression {
    const token = this.peek();
    const { column } = token;
    if (this.take('(')) {
      const inner = this.whole();
      this.need(')', `The bracket ( of column ${column} is still open`);
      return bracketed(inner);
    }
    if (this.take('{')) return this.fitted(group(this.list('}', `The bracket { of column ${column} is still open`), column), column);
    if (token.kind !== 'number' && token.kind !== 'name')
      return this.fail('rules/syntax', column, `a name, a number or a bracket is missing here; found ${shown(token)}`);
    this.at++;
    if (token.kind === 'number') return constant(token.value, column);
    if (this.take('(')) return this.called(token);
    return this.take('..') ? this.range(token) : this.named(token.text, column);
  }

  private range({ text, column }: Token): Expression {
    const names = namesBetween(text, this.peek().text);
    if (!names.ok) return this.fail(names.failure.code, column, names.failure.says);
    this.at++;
    const bits = names.value.map((n) => this.named(n, column));
    return this.fitted(group(bits, column), column);
  }

  private named(name: string, column: number): Expression {
    const found = this.resolve(name);
    return typeof found === 'string' ? this.fail('rules/unknown-name', column, found) : { ...found, column };
  }

  private list(closing: string, why: string): Expression[] {
    const parts = [this.whole()];
    while (this.take(',')) parts.push(this.whole());
    this.need(closing, why);
    return parts;
  }

  private called({ text, column }: Token): Expression {
    const name = text.toLowerCase();
    const call = Object.hasOwn(FUNCTIONS, name) ? FUNCTIONS[name] : undefined;
    // before the list is read, so that the first thing wrong is the name
    if (!call && name !== 'pick')
      return this.fail(
        'rules/unknown-name',
        column,
        typeof this.resolve(text) === 'string'
          ? `no function is called ${text}. There are ${[...Object.keys(FUNCTIONS), 'pick'].join(', ')}`
          : `${text} is no function. Put an operator such as AND before the bracket`,
      );
    const args = this.list(')', `The bracket after ${text} is still open`);
    const [first = constant(0, column), ...choices] = args;
    if (!call) return this.picked(first, choices, column);
    if (choices.length > 0) return this.fail('rules/syntax', column, `${name}( ) takes one number, and here are ${args.length}`);
    return applied(call.operation, name, first, call.bits(first.bits), column);
  }

  private picked(number: Expression, choices: readonly Expression[], column: number): Expression {
    if (choices.length === 0)
      return this.fail('rules/syntax', column, 'pick( ) needs a number and what to pick from, such as pick(N, 1, 3, 9)');
    const values = choices.map((c) => (c.kind === 'constant' ? c.value : Number.NaN));
    if (values.some(Number.isNaN))
      return this.fail('rules/syntax', column, 'pick( ) picks from plain numbers. For anything else write if … then … else');
    const operation = {
      does: (n: number) => values[n] ?? Number.NaN,
      undefinedSays: `pick has ${values.length} numbers, for 0 to ${values.length - 1}`,
    };
    return applied(operation, 'pick', number, 0, column);
  }
}

const applied = (operation: Operation, says: string, arg: Expression, bits: number, column: number): Expression => ({
  kind: 'apply',
  operation,
  says,
  args: [arg],
  bits,
  column,
  deep: depthOf(arg),
});

/** Signs beside * and times. */
const MULTIPLYING: Readonly<Record<string, 'div' | 'mod'>> = { '/': 'div', div: 'div', mod: 'mod' };

const startsOperand = (t: Token): boolean =>
  t.kind === 'name' || t.kind === 'number' || (t.kind === 'sign' && ['(', '{', '!', 'not'].includes(t.text));
