/**
 * The lines of a rule text: "F = A AND NOT B" gives an output, "T = A3..A0" names a group, "{C, S3..S0} = X plus Y" gives several outputs at once,
 * "free when T > 9" says which rows do not matter. Lines may stand in any order; # begins a comment.
 */
import { done, type Failure, failed, type Outcome } from '../../../shared/outcome.ts';
import { type Definition, depthOf, type Expression, isBit } from './expression.ts';
import { ended, meant, namesBetween } from './names.ts';
import { parseExpression } from './parse.ts';
import { type Token, tokensOf } from './tokens.ts';

/** What some outputs must be. */
export interface RuleLine {
  readonly line: number;
  /** indices of outputs, the most significant first */
  readonly outputs: readonly number[];
  readonly expression: Expression;
}

export interface Rules {
  readonly gives: readonly RuleLine[];
  /** rows in which these outputs do not matter */
  readonly frees: readonly RuleLine[];
}

interface Line {
  readonly number: number;
  readonly tokens: readonly Token[];
  /** what stands before = or free, as names; empty: all outputs */
  readonly targets: readonly string[];
  /** token at which the right side begins */
  readonly from: number;
  readonly frees: boolean;
}

/** Names that are read inside each other; more would fill the stack. */
const MOST_NAMES = 100;

export function readRules(text: string, inputs: readonly string[], outputs: readonly string[]): Outcome<Rules> {
  const lines: Line[] = [];
  for (const [i, written] of text.split(/\r\n|\n|\r/).entries()) {
    let before = 0;
    for (const part of withoutComment(written).split(';')) {
      const tokens = tokensOf(part, i + 1, before);
      before += part.length + 1;
      if (part.trim() === '') continue;
      if (!tokens.ok) return tokens;
      const line = readLine(tokens.value, i + 1, part, outputs);
      if (!line.ok) return line;
      lines.push(line.value);
    }
  }

  const givers = lines.filter((l) => !l.frees);
  const giverOf = new Map<string, Line>();
  for (const line of givers)
    for (const name of line.targets) {
      const at = `line ${line.number}`;
      const before = giverOf.get(name);
      if (inputs.includes(name))
        return failed('rules/name-taken', at, `${at}: ${name} is an input and cannot be given a value. Choose another name.`);
      if (before)
        return failed('rules/name-taken', at, `${at}: ${name} has its value from line ${before.number} already. Keep one of the two.`);
      if (line.targets.length > 1 && !outputs.includes(name))
        return failed('rules/unknown-name', at, `${at}: ${name} is no output. ${ended(meant(name, outputs))}`);
      giverOf.set(name, line);
    }

  const known = [...new Set([...inputs, ...outputs, ...giverOf.keys()])];
  /** names that something was made of */
  const used = new Set<string>();
  const read = new Map<Line, Definition>();
  /** names whose lines are being read, the outermost first */
  const open: string[] = [];
  let failure: Failure | undefined;

  const resolve = (name: string): Expression | string => {
    const input = inputs.indexOf(name);
    if (input >= 0) return { kind: 'input', index: input, bits: 1, column: 1 };
    const line = giverOf.get(name);
    used.add(name);
    if (!line) {
      if (outputs.includes(name)) return `output ${name} has no rule of its own yet, so it cannot be used. Add one`;
      return `nothing is called ${name}. ${meant(name, known)}`;
    }
    const definition = definitionOf(line, name);
    if (!definition) return `${name} could not be read`;
    const place = line.targets.length - 1 - line.targets.indexOf(name);
    const deep = depthOf(definition.expression);
    if (line.targets.length === 1)
      return { kind: 'defined', definition, bits: outputs.includes(name) ? 1 : definition.expression.bits, column: 1, deep };
    return { kind: 'defined', definition, bit: place, bits: 1, column: 1, deep };
  };

  function definitionOf(line: Line, name: string): Definition | undefined {
    const before = read.get(line);
    if (before) return before;
    const circle = open.findIndex((n) => line.targets.includes(n));
    if (circle >= 0) {
      const at = `line ${line.number}`;
      const names = [...open.slice(circle), name];
      failure ??= {
        code: 'rules/circular',
        at,
        says: `${at}: this is circular, ${names.join(' needs ')}. A memory has no past: give one of them by inputs only.`,
      };
      return undefined;
    }
    if (open.length >= MOST_NAMES) {
      const at = `line ${line.number}`;
      failure ??= {
        code: 'rules/circular',
        at,
        says: `${at}: more than ${MOST_NAMES} names need one another in a row before ${name}. Give some of them by inputs.`,
      };
      return undefined;
    }
    open.push(name);
    const reading = parseExpression(line.tokens, line.from, line.number, resolve);
    open.pop();
    failure ??= reading.failure;
    if (failure) return undefined;
    const definition = { line: line.number, names: line.targets, expression: reading.expression };
    read.set(line, definition);
    return definition;
  }

  const indices = (names: readonly string[]) => names.map((n) => outputs.indexOf(n));
  const gives: RuleLine[] = [];
  for (const line of givers) {
    const [name = ''] = line.targets;
    const definition = definitionOf(line, name);
    if (!definition)
      return {
        ok: false,
        failure: failure ?? { code: 'rules/syntax', at: `line ${line.number}`, says: `Line ${line.number} could not be read.` },
      };
    if (outputs.includes(name)) gives.push({ line: line.number, outputs: indices(line.targets), expression: definition.expression });
  }

  const frees: RuleLine[] = [];
  for (const line of lines.filter((l) => l.frees)) {
    const at = `line ${line.number}`;
    const stranger = line.targets.find((n) => !outputs.includes(n));
    if (stranger !== undefined)
      return failed('rules/unknown-name', at, `${at}: ${stranger} is no output. ${ended(meant(stranger, outputs))}`);
    const { expression, failure: wrong } = parseExpression(line.tokens, line.from, line.number, resolve);
    const first = failure ?? wrong;
    if (first) return { ok: false, failure: first };
    if (!isBit(expression))
      return failed('rules/wrong-type', at, `${at}: the condition after when is a number. Compare it, such as T > 9.`);
    frees.push({ line: line.number, outputs: line.targets.length > 0 ? indices(line.targets) : outputs.map((_, o) => o), expression });
  }
  // a name of one's own that nothing is made of is most likely an output's, misspelt
  for (const { number, targets } of givers) {
    const [name = ''] = targets;
    if (outputs.includes(name) || used.has(name)) continue;
    return failed(
      'rules/unknown-name',
      `line ${number}`,
      `line ${number}: ${name} is no output, and no other line speaks of it. ${ended(meant(name, outputs))}`,
    );
  }
  return done({ gives, frees });
}

/** Splits a line at its = or its free when. */
function readLine(tokens: readonly Token[], number: number, written: string, outputs: readonly string[]): Outcome<Line> {
  const at = `line ${number}`;
  const whole = written.slice(0, Math.max(0, written.indexOf('='))).trim();
  const quote = /\s/.test(whole) && outputs.includes(whole) ? ` Write "${whole}" in quotation marks.` : '';
  const targets: string[] = [];
  let i = 0;
  const sign = (text: string) => tokens[i]?.kind === 'sign' && tokens[i]?.text === text;
  const brace = sign('{');
  if (brace) i++;
  while (tokens[i]?.kind === 'name') {
    const name = tokens[i]?.text ?? '';
    i++;
    if (sign('..')) {
      const range = namesBetween(name, tokens[i + 1]?.text ?? '');
      if (!range.ok) return failed(range.failure.code, at, `${at}: ${range.failure.says}.`);
      targets.push(...range.value);
      i += 2;
    } else targets.push(name);
    if (!sign(',')) break;
    i++;
  }
  if (brace && !sign('}')) return failed('rules/syntax', at, `${at}: the bracket { is still open. Close it before the = sign.`);
  if (brace) i++;
  const twice = targets.find((n, k) => targets.indexOf(n) < k);
  if (twice !== undefined) return failed('rules/name-taken', at, `${at}: ${twice} is named twice before the = sign. Leave one out.`);
  if (sign('free')) {
    i++;
    if (!sign('when')) return failed('rules/syntax', at, `${at}: behind free comes when and a condition, such as "free when T > 9".`);
    return done({ number, tokens, targets, from: i + 1, frees: true });
  }
  if (targets.length === 0 || !sign('='))
    return failed(
      'rules/syntax',
      at,
      `${at}: a rule begins with a name and =, such as "F = A AND NOT B"; this one begins with "${tokens[0]?.text ?? ''}".${quote}`,
    );
  return done({ number, tokens, targets, from: i + 1, frees: false });
}

/** # begins a comment, but not inside quotation marks. */
function withoutComment(line: string): string {
  let quoted = false;
  for (let i = 0; i < line.length; i++) {
    if (line[i] === '"') quoted = !quoted;
    else if (line[i] === '#' && !quoted) return line.slice(0, i);
  }
  return line;
}
