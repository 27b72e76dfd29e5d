/** All mutants that a file can have, and a seeded choice among those of all rooms, each room by its share. */
import { readFileSync } from 'node:fs';
import ts from 'typescript';
import type { Mutant } from './mutant.ts';
import { changesOf } from './mutators.ts';

/** Every mutant of one file in order of place. */
export function mutantsOf(path: string, room: string, text = readFileSync(path, 'utf8')): Mutant[] {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
  const found: Mutant[] = [];
  const walk = (node: ts.Node): void => {
    if (leftAlone(node)) return;
    for (const { mutator, start, end, after } of changesOf(node, file)) {
      const line = file.getLineAndCharacterOfPosition(start).line + 1;
      found.push({ room, path, line, mutator, start, end, before: text.slice(start, end), after });
    }
    ts.forEachChild(node, walk);
  };
  walk(file);
  return found;
}

/**
 * Types have no effect when the program runs; imports name files, keys name fields; and what is thrown says that the program itself is wrong,
 * which no input brings about. Benches on which a rule is tried (`…Examples`) are test data beside the rule.
 */
function leftAlone(node: ts.Node): boolean {
  if (ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return true;
  if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isThrowStatement(node)) return true;
  if (ts.isSourceFile(node)) return false;
  if (ts.isVariableDeclaration(node) && ts.isIdentifier(node.name) && node.name.text.endsWith('Examples')) return true;
  if (ts.isComputedPropertyName(node)) return false;
  const { parent } = node;
  return ts.isBindingElement(parent) ? parent.propertyName === node : ts.isPropertyAssignment(parent) && parent.name === node;
}

/** Mulberry32: numbers from 0 to below 1, the same for the same seed. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** The mutants of each room in an order of chance, and how many of each room belong to a sample of `size`. */
export function shuffled(
  all: ReadonlyMap<string, readonly Mutant[]>,
  seed: number,
  size: number,
): Map<string, { order: Mutant[]; wanted: number }> {
  const total = [...all.values()].reduce((sum, list) => sum + list.length, 0);
  let before = 0;
  return new Map(
    [...all].map(([room, list], i) => {
      const random = randomFrom(seed + i * 7919);
      const order = [...list];
      for (let k = order.length - 1; k > 0; k--) {
        const j = Math.floor(random() * (k + 1));
        [order[k], order[j]] = [order[j] as Mutant, order[k] as Mutant];
      }
      // rounded so that the parts add up to the whole
      const upTo = (n: number) => Math.round((n / Math.max(total, 1)) * size);
      const wanted = Math.min(list.length, upTo(before + list.length) - upTo(before));
      before += list.length;
      return [room, { order, wanted }] as const;
    }),
  );
}
