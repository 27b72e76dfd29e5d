/** Lines of rules that stay when some outputs get another rule: those that gave them go, and names that are used no more go with them. */
import { tokensOf } from './tokens.ts';

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
