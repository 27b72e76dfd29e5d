/** A file's text with many mutants in it at once, each behind a switch: `globalThis.mutant` says which one is in force; with none of them the text does what it did. */
import ts from 'typescript';
import { type Mutant, mutated } from './mutant.ts';

const K = ts.SyntaxKind;

export interface Switched {
  readonly mutant: Mutant;
  /** the value of `globalThis.mutant` that puts it in force */
  readonly id: number;
}

/** Throws if a mutant lies where no switch can be put: in a declaration, say. */
export function withSwitches(path: string, text: string, planted: readonly Switched[]): string {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
  const at = new Map<ts.Node, Switched[]>();
  for (const s of planted) {
    const node = switchable(file, s.mutant);
    at.set(node, [...(at.get(node) ?? []), s]);
  }
  const print = (node: ts.Node): string => {
    let out = '';
    let done = node.getStart(file);
    const walk = (child: ts.Node): void => {
      if (at.has(child) || ts.isBlock(child)) {
        out += text.slice(done, child.getStart(file)) + switched(child);
        done = child.end;
      } else ts.forEachChild(child, walk);
    };
    ts.forEachChild(node, walk);
    return out + text.slice(done, node.end);
  };
  const changed = (node: ts.Node, { mutant: m }: Switched): string => {
    const start = node.getStart(file);
    return mutated(text.slice(start, node.end), { ...m, start: m.start - start, end: m.end - start });
  };
  const switched = (node: ts.Node): string => {
    const here = at.get(node) ?? [];
    const inner = print(node);
    if (ts.isBlock(node))
      return `{${here.map(({ id, mutant }) => `if(globalThis.mutant===${id}){${mutant.after}}`).join('')}${inner.slice(1)}`;
    if (!ts.isExpression(node))
      return here.reduce((rest, s) => `{if(globalThis.mutant===${s.id}){${changed(node, s)}\n}else{${rest}\n}}`, inner);
    return here.reduce((rest, s) => `(globalThis.mutant===${s.id}?(${changed(node, s)}):${rest})`, here.length > 0 ? `(${inner})` : inner);
  };
  return text.slice(0, file.getStart(file)) + print(file);
}

/** The smallest piece around a mutant that can be written twice: an expression that gives a value, a statement, or a function's block. */
function switchable(file: ts.SourceFile, m: Mutant): ts.Node {
  const within = (node: ts.Node): ts.Node =>
    ts.forEachChild(node, (c) => (c.getStart(file) <= m.start && m.end <= c.end ? within(c) : undefined)) ?? node;
  let node = within(file);
  if (m.mutator === 'early return' && ts.isBlock(node)) return node;
  if (m.mutator === 'statement removed') while (!ts.isStatement(node)) node = node.parent;
  while (!ts.isStatement(node) && !givesValue(node)) node = node.parent;
  if (ts.isExpressionStatement(node) || ts.isContinueStatement(node)) return node;
  if (ts.isStatement(node) || !ts.isExpression(node)) throw new Error(`${m.path}:${m.line}: no switch can be put round ${m.before}.`);
  return node;
}

/** Whether the node can stand in parentheses where it stands, with the same meaning. */
function givesValue(node: ts.Node): boolean {
  const { parent } = node;
  if (!ts.isExpression(node) || ts.isPrivateIdentifier(node) || ts.isSpreadElement(node)) return false;
  // a name and not a value: of a property, of what is declared
  if ('name' in parent && parent.name === node) return false;
  // `a?.b.c` ends as a whole where a is missing
  if (parent.flags & ts.NodeFlags.OptionalChain && (parent as ts.CallExpression).expression === node) return false;
  // what is called knows what it was taken from
  if ((ts.isCallExpression(parent) && parent.expression === node) || ts.isNonNullExpression(parent)) return false;
  if (ts.isTaggedTemplateExpression(parent) || ts.isDeleteExpression(parent) || ts.isPostfixUnaryExpression(parent)) return false;
  if (ts.isPrefixUnaryExpression(parent)) return parent.operator !== K.PlusPlusToken && parent.operator !== K.MinusMinusToken;
  return !isTarget(node);
}

/** Whether a value is put there, by itself or as part of a pattern. */
function isTarget(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isBinaryExpression(parent))
    return parent.left === node && parent.operatorToken.kind >= K.FirstAssignment && parent.operatorToken.kind <= K.LastAssignment;
  if (ts.isForOfStatement(parent) || ts.isForInStatement(parent)) return parent.initializer === node;
  const pattern = ts.isArrayLiteralExpression(parent) || ts.isPropertyAssignment(parent) || ts.isSpreadElement(parent);
  if (pattern) return isTarget(parent);
  return ts.isObjectLiteralExpression(parent) && isTarget(parent);
}
