/** Marks in a file's text that tell which of its arms a test has run: bodies of functions, blocks, and the two sides of a choice. */
import ts from 'typescript';
import type { Place } from './mutant.ts';

export interface Arm {
  readonly start: number;
  readonly end: number;
}

/** Every arm of a file, outer ones before those inside them. */
export function armsOf(path: string, text: string): Arm[] {
  const arms: Arm[] = [];
  marked(path, text, (arm) => void arms.push(arm));
  return arms;
}

/** The text with a mark in each arm: arm number i sets hits[first + i] to 1. */
export function withMarks(path: string, text: string, first: number): string {
  let next = first;
  return marked(path, text, () => next++);
}

function marked(path: string, text: string, number: (arm: Arm) => unknown): string {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
  let out = '';
  let done = 0;
  const insert = (at: number, what: string) => {
    out += text.slice(done, at) + what;
    done = at;
  };
  const walk = (node: ts.Node): void => {
    if (ts.isTypeNode(node)) return;
    const start = node.getStart(file);
    if (ts.isBlock(node)) insert(start + 1, `globalThis.hits[${number({ start, end: node.end })}]=1;`);
    const wrapped = isExpressionArm(node);
    if (wrapped) insert(start, `(globalThis.hits[${number({ start, end: node.end })}]=1,`);
    ts.forEachChild(node, walk);
    if (wrapped) insert(node.end, ')');
  };
  walk(file);
  return out + text.slice(done);
}

const isExpressionArm = (node: ts.Node): boolean =>
  (ts.isArrowFunction(node.parent ?? node) && (node.parent as ts.ArrowFunction).body === node && !ts.isBlock(node)) ||
  (ts.isConditionalExpression(node.parent ?? node) &&
    (node.parent as ts.ConditionalExpression).condition !== node &&
    ts.isExpression(node));

/** The innermost arm around a place; undefined for what runs when the file is loaded. */
export function armAround(arms: readonly Arm[], { start, end }: Place): number | undefined {
  const i = arms.findLastIndex((a) => a.start <= start && end <= a.end);
  return i < 0 ? undefined : i;
}
