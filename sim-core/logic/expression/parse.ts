/**
 * The grammar of a rule's right side. From loose to tight: if, OR, XOR, AND, comparison, + −, × div mod, NOT, brackets.
 * + and * between bits are OR and AND as textbooks write them; between numbers they count. A + between bits is as loose as OR.
 */
import type { FailureCode } from '../../../shared/failure-codes.ts';
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
import { ended, namesBetween } from './names.ts';
import { FUNCTIONS } from './operations.ts';
import type { Token } from './tokens.ts';

/** Brackets and signs inside each other; more are a slip, and would fill the stack. */
const MOST_OPEN = 60;

export interface Reading {
  readonly expression: Expression;
  /** the first thing that could not be read */
  readonly failure: Failure | undefined;
}

/** What a sign joins to what stands before it. */
interface Operand {
  readonly operand: Expression;
  /** of the sign */
  readonly column: number;
}

/** resolve: what a name stands for; a string says why it stands for nothing. */
export function parseExpression(
  tokens: readonly Token[],
  from: number,
  line: number,
  resolve: (name: string) => Expression | string,
): Reading {
  let at = from;
  let depth = 0;
  let failure: Failure | undefined;
  /** operands of + that were read once already: what begins at a token, and where it ends */
  const held = new Map<number, { readonly operand: Expression; readonly end: number }>();
  const END: Token = { kind: 'end', text: 'the end of the line', value: 0, column: tokens.at(-1)?.column ?? 0 };

  const peek = (): Token => tokens[at] ?? END;
  const is = (...signs: readonly string[]): boolean => peek().kind === 'sign' && signs.includes(peek().text);
  const take = (...signs: readonly string[]): Token | undefined => (is(...signs) ? tokens[at++] : undefined);
  /** The first failure wins; the rest of the line is left alone. */
  const fail = (code: FailureCode, column: number, says: string): Expression => {
    const place = `line ${line}, column ${column}`;
    failure ??= { code, at: place, says: `${place}: ${ended(says)}` };
    at = tokens.length - 1;
    return constant(0, column);
  };
  const fitted = (f: Fitted, column: number): Expression => (isMisfit(f) ? fail('rules/wrong-type', column, f.misfit) : f);
  const need = (sign: string, why: string) => {
    if (!take(sign)) fail('rules/syntax', peek().column, `${why}, but found ${shown(peek())}. Put "${sign}" there`);
  };
  const negatedIf = (negate: boolean, e: Expression): Expression => (negate ? fitted(inverted(e), e.column) : e);

  function whole(): Expression {
    if (++depth > MOST_OPEN)
      return fail('rules/too-deep', peek().column, `more than ${MOST_OPEN} brackets are nested. Name parts of the rule separately`);
    const made = take('if') ? choice() : disjunction();
    depth--;
    return made;
  }

  function choice(): Expression {
    const column = peek().column;
    const condition = whole();
    need('then', 'Behind if and its condition comes then');
    const yes = whole();
    need('else', 'Every if needs an else');
    const no = whole();
    if (!isBit(condition)) return fail('rules/wrong-type', column, 'the condition is a number. Compare it, such as T > 25');
    const bits = areBits(yes, no) ? 1 : yes.bits === 0 || no.bits === 0 ? 0 : Math.max(yes.bits, no.bits);
    return applyOperation('choose', 'if', [condition, yes, no], bits, column);
  }

  /** One level of signs of the same strength, from the left. */
  function chain(next: () => Expression, signs: readonly string[], name: 'and' | 'or' | 'xor', negated: string): Expression {
    let run: Operand[] = [{ operand: next(), column: 0 }];
    for (let sign = take(...signs, negated); sign; sign = take(...signs, negated)) {
      const { column } = sign;
      const operand = next();
      if (sign.text !== negated) run.push({ operand, column });
      else {
        const made = fitted(gate(name, negated.toUpperCase(), joined(run, name), operand), column);
        run = [{ operand: negatedIf(true, made), column }];
      }
    }
    return joined(run, name);
  }

  /** In halves: a sum of thousands of products is then a dozen steps deep. */
  function joined(run: readonly Operand[], name: 'and' | 'or' | 'xor'): Expression {
    const [first, second] = run;
    if (!first || !second) return first?.operand ?? constant(0, 0);
    const middle = run.length >> 1;
    const fitting = gate(name, name.toUpperCase(), joined(run.slice(0, middle), name), joined(run.slice(middle), name));
    return fitted(fitting, run[middle]?.column ?? first.column);
  }
  const disjunction = (): Expression => chain(exclusive, ['|', 'or', '+'], 'or', 'nor');
  const exclusive = (): Expression => chain(conjunction, ['^', 'xor'], 'xor', 'xnor');
  const conjunction = (): Expression => chain(compared, ['&', 'and'], 'and', 'nand');

  function compared(): Expression {
    const first = at;
    const left = sum();
    if (!isComparison(peek().text) || peek().kind !== 'sign') return left;
    const sign = peek();
    at++;
    if (tokens[first]?.text === 'not' && left.bits !== 1)
      return fail(
        'rules/wrong-type',
        sign.column,
        'NOT belongs to the number on its right, not to the comparison. Write NOT ( … ) round the comparison',
      );
    const made = fitted(comparison(sign.text, left, sum()), sign.column);
    if (peek().kind === 'sign' && isComparison(peek().text))
      return fail('rules/syntax', peek().column, 'two comparisons in a row. Write for example 3 < T AND T < 9, or add brackets');
    return made;
  }

  function sum(): Expression {
    let left = product();
    while (is('+', '-', 'plus', 'minus')) {
      const start = at;
      const sign = peek();
      at++;
      const right = heldProduct();
      if (sign.text === '+' && areBits(left, right)) {
        // OR: left to the level of OR
        at = start;
        return left;
      }
      const adds = sign.text === '+' || sign.text === 'plus';
      left = arithmetic(adds ? 'plus' : 'minus', sign.text, left, right);
    }
    return left;
  }

  function heldProduct(): Expression {
    const start = at;
    const before = held.get(start);
    if (before) {
      at = before.end;
      return before.operand;
    }
    const operand = product();
    held.set(start, { operand, end: at });
    return operand;
  }

  function product(): Expression {
    const start = held.get(at);
    if (start) {
      at = start.end;
      return start.operand;
    }
    let left = unary();
    for (;;) {
      const sign = peek();
      const beside = startsOperand(sign) || (is('/') && left.bits === 1);
      if (is('*', 'times', 'mod', 'div') || (is('/') && !beside)) at++;
      else if (!beside || failure) return left;
      if (beside) {
        const right = unary();
        if (failure) return left;
        if (!areBits(left, right))
          return fail('rules/syntax', sign.column, `an operator is missing between two numbers. Add one, such as + or times`);
        left = fitted(gate('and', 'AND', left, right), sign.column);
      } else {
        const right = unary();
        if (sign.text === '*' && areBits(left, right)) left = fitted(gate('and', 'AND', left, right), sign.column);
        else
          left = arithmetic(
            sign.text === 'mod' ? 'mod' : sign.text === '/' || sign.text === 'div' ? 'div' : 'times',
            sign.text,
            left,
            right,
          );
      }
    }
  }

  function unary(): Expression {
    if (++depth > MOST_OPEN)
      return fail('rules/too-deep', peek().column, `more than ${MOST_OPEN} operators are nested. Name parts of the rule separately`);
    const sign = take('!', 'not', '/', '-');
    let made: Expression;
    if (!sign) made = postfix();
    else if (sign.text === '-') made = arithmetic('minus', '-', constant(0, sign.column), unary());
    else made = fitted(inverted(unary()), sign.column);
    depth--;
    return made;
  }

  function postfix(): Expression {
    let made = primary();
    for (let sign = take("'", '['); sign; sign = take("'", '[')) {
      if (sign.text === "'") made = fitted(inverted(made), sign.column);
      else {
        const bit = peek();
        if (bit.kind !== 'number' || (made.bits > 0 && bit.value >= made.bits))
          return fail(
            'rules/wrong-type',
            bit.column,
            made.bits > 0
              ? `bits of this group are numbered 0 to ${made.bits - 1}`
              : '[ ] takes the number of a bit; 0 is the least significant',
          );
        at++;
        need(']', 'The bracket [ is still open');
        made = applyOperation('bit', 'bit', [made, constant(bit.value, bit.column)], 1, made.column);
      }
    }
    return made;
  }

  function primary(): Expression {
    const token = peek();
    if (take('(')) {
      const inner = whole();
      need(')', `The bracket ( of column ${token.column} is still open`);
      return bracketed(inner);
    }
    if (take('{')) {
      const parts = list('}', `The bracket { of column ${token.column} is still open`);
      return fitted(group(parts, token.column), token.column);
    }
    if (token.kind === 'number') {
      at++;
      return constant(token.value, token.column);
    }
    if (token.kind !== 'name')
      return fail('rules/syntax', token.column, `a name, a number or a bracket is missing here; found ${shown(token)}`);
    at++;
    if (take('(')) return called(token);
    if (take('..')) {
      const last = peek();
      const names = namesBetween(token.text, last.text);
      if (!names.ok) return fail(names.failure.code ?? 'rules/bad-range', token.column, names.failure.says);
      at++;
      return fitted(
        group(
          names.value.map((n) => named(n, token.column)),
          token.column,
        ),
        token.column,
      );
    }
    return named(token.text, token.column);
  }

  function named(name: string, column: number): Expression {
    const found = resolve(name);
    return typeof found === 'string' ? fail('rules/unknown-name', column, found) : { ...found, column };
  }

  function list(closing: string, why: string): Expression[] {
    const parts = [whole()];
    while (take(',')) parts.push(whole());
    need(closing, why);
    return parts;
  }

  function called(token: Token): Expression {
    const name = token.text.toLowerCase();
    const call = FUNCTIONS[name];
    // before the list is read, so that the first thing wrong is the name
    if (!call && name !== 'pick') {
      const sides =
        typeof resolve(token.text) === 'string'
          ? `no function is called ${token.text}. There are ${[...Object.keys(FUNCTIONS), 'pick'].join(', ')}`
          : `${token.text} is no function. Put a sign between it and the bracket, such as AND`;
      return fail('rules/unknown-name', token.column, sides);
    }
    const args = list(')', `The bracket behind ${token.text} is still open`);
    const [first = constant(0, token.column), ...choices] = args;
    if (call) {
      if (choices.length > 0) return fail('rules/syntax', token.column, `${name}( ) takes one number, and here are ${args.length}`);
      return {
        kind: 'apply',
        operation: call.operation,
        says: name,
        args,
        bits: call.bits(first.bits),
        column: token.column,
        deep: depthOf(first),
      };
    }
    if (choices.length === 0)
      return fail('rules/syntax', token.column, 'pick( ) needs a number and what to pick from, such as pick(N, 1, 3, 9)');
    const values = choices.map((c) => (c.kind === 'constant' ? c.value : Number.NaN));
    if (values.some(Number.isNaN))
      return fail('rules/syntax', token.column, 'pick( ) picks from plain numbers. For anything else write if … then … else');
    const operation = {
      does: (n: number) => values[n] ?? Number.NaN,
      undefinedSays: `pick has ${values.length} numbers, for 0 to ${values.length - 1}`,
    };
    return { kind: 'apply', operation, says: 'pick', args: [first], bits: 0, column: token.column, deep: depthOf(first) };
  }

  const expression = whole();
  if ((expression.deep ?? 0) > DEEPEST)
    fail(
      'rules/too-deep',
      tokens[from]?.column ?? 1,
      `more than ${DEEPEST} steps follow one another here, those of the names it speaks of included. Use brackets, or shorten it`,
    );
  if (!failure && peek().kind !== 'end')
    fail('rules/syntax', peek().column, `the rule should end before ${shown(peek())}. Put a sign between, or take it out`);
  return { expression, failure };
}

const startsOperand = (t: Token): boolean =>
  t.kind === 'name' || t.kind === 'number' || (t.kind === 'sign' && ['(', '{', '!', 'not'].includes(t.text));
const shown = (t: Token): string => (t.kind === 'end' ? t.text : `"${t.text}"`);
