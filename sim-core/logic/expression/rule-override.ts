/** Lines of rules rewritten: those that stay when some outputs get another rule, and a column that goes by another name. */
import { quotedName } from './names.ts';
import { tokensOf } from './tokens.ts';

/** One line of rules with every mention of `from` written as `to`; a line that cannot be read stays as it is. */
export function renamedIn(line: string, from: string, to: string): string {
  const tokens = tokensOf(line, 1);
  if (!tokens.ok) return line;
  return tokens.value
    .filter((t) => t.kind === 'name' && t.text === from)
    .reduceRight((text, { column }) => {
      const rest = text.slice(column - 1);
      // what stands there may be in quotation marks, or have overlines between its letters
      const written = /^"[^"]*"/.exec(rest)?.[0] ?? from;
      return rest.startsWith(written) ? `${text.slice(0, column - 1)}${quotedName(to)}${rest.slice(written.length)}` : text;
    }, line);
}

interface Read {
  readonly line: string;
  /** names before the = sign; a line of don't-cares, or one that cannot be read, gives none */
  readonly gives: readonly string[];
  readonly speaksOf: readonly string[];
}

/** outputs: all there are; others: those that get another rule. Comments and lines of don't-cares go as well. */
export function overriddenRules(lines: readonly string[], outputs: readonly string[], others: readonly string[]): readonly string[] {
  let kept = lines.filter((line) => !/^\s*(?:#|$)|\b(?:dontcare|free)\s+when\b/i.test(line)).map(read);
  kept = kept.filter(({ gives }) => !gives.some((name) => others.includes(name)));
  for (let before = -1; before !== kept.length; ) {
    before = kept.length;
    const all: readonly Read[] = kept;
    kept = all.filter(
      (own) =>
        own.gives.length === 0 ||
        own.gives.some((name) => outputs.includes(name) || all.some((other) => other !== own && other.speaksOf.includes(name))),
    );
  }
  return kept.map(({ line }) => line);
}

function read(line: string): Read {
  const tokens = tokensOf(line, 1);
  if (!tokens.ok) return { line, gives: [], speaksOf: [] };
  const at = tokens.value.findIndex((t) => t.kind === 'sign' && t.text === '=');
  const names = (from: number, to: number) => tokens.value.slice(from, to).flatMap((t) => (t.kind === 'name' ? [t.text] : []));
  return { line, gives: names(0, Math.max(0, at)), speaksOf: names(at + 1, tokens.value.length) };
}
