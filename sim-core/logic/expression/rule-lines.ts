/** The lines of a rule text, each split at its = or its dontcare when; # begins a comment, ; another line. */
import type { FailureCode } from '../../../shared/failure-codes.ts';
import { grouped } from '../../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { namesBetween } from './names.ts';
import { type Token, tokensOf } from './tokens.ts';

/** What a plan keeps of rules at most: 64 lines of 2000 characters. */
const LONGEST = 64 * 2000;

export interface SplitLine {
  readonly number: number;
  readonly tokens: readonly Token[];
  /** what stands before = or dontcare, as names; empty: all outputs */
  readonly targets: readonly string[];
  /** token at which the right side begins */
  readonly from: number;
  readonly frees: boolean;
}

/** A failure of a line as a whole; `says` without the line's number. */
export const failedLine = (code: FailureCode, number: number, says: string): Outcome<never> =>
  failed(code, `line ${number}`, `line ${number}: ${says}`);

export function linesOf(text: string, outputs: readonly string[]): Outcome<readonly SplitLine[]> {
  if (text.length > LONGEST) {
    const says = `The rules have ${grouped(text.length)} characters, and ${grouped(LONGEST)} fit. Shorten them.`;
    return failed('rules/too-long', 'rules', says);
  }
  const lines: SplitLine[] = [];
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
  return done(lines);
}

function readLine(tokens: readonly Token[], number: number, written: string, outputs: readonly string[]): Outcome<SplitLine> {
  const refuse = (code: FailureCode, says: string) => failedLine(code, number, says);
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
      if (!range.ok) return refuse(range.failure.code, `${range.failure.says}.`);
      targets.push(...range.value);
      i += 2;
    } else targets.push(name);
    if (!sign(',')) break;
    i++;
  }
  if (brace && !sign('}')) return refuse('rules/syntax', 'the bracket { is still open. Close it before the = sign.');
  if (brace) i++;
  const before = new Set<string>();
  const twice = targets.find((n) => before.size === before.add(n).size);
  if (twice !== undefined) return refuse('rules/name-taken', `${twice} is named twice before the = sign. Leave one out.`);
  // version 1 said free
  const frees = sign('dontcare') || sign('free');
  if (frees) i++;
  if (frees && !sign('when')) return refuse('rules/syntax', 'after dontcare comes when and a condition, such as "dontcare when T > 9".');
  if (!frees && (targets.length === 0 || !sign('=')))
    return refuse(
      'rules/syntax',
      `a rule begins with a name and =, such as "F = A AND NOT B"; this one begins with "${tokens[0]?.text ?? ''}".${quote}`,
    );
  return done({ number, tokens, targets, from: i + 1, frees });
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
