/** The public face of the simulator: every name that sim-core/index.ts passes on is documented where it is declared. */
import { dirname, join } from 'node:path';
import ts from 'typescript';
import { expect, test } from 'vitest';
import { FAILURES } from '../../shared/failure-codes.ts';
import { readSources } from '../support/sources.ts';

const FACE = 'sim-core/index.ts';
const sources = new Map(readSources('sim-core', 'shared').map((s) => [s.path, s.text]));
const parse = (path: string) => ts.createSourceFile(path, sources.get(path) ?? '', ts.ScriptTarget.Latest, true);

/** Every name of the face with the file that declares it. */
const names = parse(FACE).statements.flatMap((s) => {
  if (!ts.isExportDeclaration(s) || !s.exportClause || !ts.isNamedExports(s.exportClause) || !s.moduleSpecifier) return [];
  const from = join(dirname(FACE), (s.moduleSpecifier as ts.StringLiteral).text);
  return s.exportClause.elements.map((e) => ({ name: (e.propertyName ?? e.name).text, from }));
});

/** The declaration of a name and what its comment says; the first comment of a file speaks of the file. */
function declared({ name, from }: { name: string; from: string }): { node: ts.Statement | undefined; says: string } {
  const file = parse(from);
  const node = file.statements.find((s) =>
    ts.isVariableStatement(s)
      ? s.declarationList.declarations.some((d) => d.name.getText(file) === name)
      : (s as { name?: ts.Identifier }).name?.text === name,
  );
  const comments = node ? (ts.getLeadingCommentRanges(file.text, node.getFullStart()) ?? []) : [];
  const own = comments.filter((c) => c.pos > 0).map((c) => file.text.slice(c.pos, c.end));
  return { node, says: own.filter((c) => c.startsWith('/**')).at(-1) ?? '' };
}

test('every name has a comment of its own at its declaration', () => {
  expect(names.length).toBeGreaterThan(200);
  expect(names.filter((n) => declared(n).node === undefined)).toEqual([]);
  const bare = names.filter((n) => !/\/\*\*\s*\S/.test(declared(n).says));
  expect(bare.map(({ name, from }) => `${from}: ${name}`)).toEqual([]);
});

/** A function whose declared result is an Outcome; what the two makers of outcomes give is no failure of theirs. */
function givesOutcome(n: { name: string; from: string }): boolean {
  const { node } = declared(n);
  const made = node && ts.isVariableStatement(node) ? node.declarationList.declarations[0]?.initializer : node;
  const result = made && (ts.isFunctionDeclaration(made) || ts.isArrowFunction(made)) ? made.type?.getText() : undefined;
  return n.from !== 'shared/outcome.ts' && (result?.startsWith('Outcome<') ?? false);
}

test('what can fail says how: a function that gives an Outcome names its failure codes, all of which exist', () => {
  const failing = names.filter(givesOutcome);
  expect(failing.length).toBeGreaterThan(40);
  const codesIn = (says: string) =>
    [...(/Fails with (.*?)\.(?:\s|$)/s.exec(says)?.[1] ?? '').matchAll(/`([^`]+)`/g)].map(([, c = '']) => c);
  const known = Object.keys(FAILURES);
  const exists = (code: string) => known.some((c) => (code.endsWith('/…') ? c.startsWith(code.slice(0, -1)) : c === code));
  const silent = failing.filter((n) => {
    const codes = codesIn(declared(n).says);
    return codes.length === 0 || !codes.every(exists);
  });
  expect(silent.map(({ name, from }) => `${from}: ${name}`)).toEqual([]);
});
