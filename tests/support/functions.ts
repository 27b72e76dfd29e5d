/** Every named function of the project's sources with its length, for the test that keeps functions short. */
import ts from 'typescript';
import type { Source } from './sources.ts';

export interface FunctionSize {
  /** 'sim-core/run/simulation.ts:begin' */
  readonly name: string;
  /** from its first to its last line, functions within it included */
  readonly lines: number;
}

/** Functions, methods, constructors, accessors and arrow functions that are given a name; those within others as well. */
export function functionsIn({ path, text }: Source): FunctionSize[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const lineAt = (position: number) => file.getLineAndCharacterOfPosition(position).line;
  const found: FunctionSize[] = [];
  const visit = (node: ts.Node) => {
    if (ts.isFunctionLike(node) && 'body' in node && node.body) {
      const lines = lineAt(node.end) - lineAt(node.getStart(file)) + 1;
      found.push({ name: `${path}:${nameOf(node, file)}`, lines });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

function nameOf(node: ts.SignatureDeclaration, file: ts.SourceFile): string {
  if (ts.isConstructorDeclaration(node)) return 'constructor';
  if (node.name) return node.name.getText(file);
  const { parent } = node;
  return (ts.isVariableDeclaration(parent) || ts.isPropertyAssignment(parent) || ts.isPropertyDeclaration(parent)) && parent.name
    ? parent.name.getText(file)
    : 'unnamed';
}
