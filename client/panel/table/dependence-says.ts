/** What is to be said of a table's inputs: those that no output needs, and those that may change places. */
import { enumeration, needlessInputs, symmetricInputs, type TruthTable } from '../../../sim-core/index.ts';

const known = new WeakMap<TruthTable, readonly string[]>();

export function dependenceSays(table: TruthTable): readonly string[] {
  const before = known.get(table);
  if (before) return before;
  const said = sentences(table);
  known.set(table, said);
  return said;
}

function sentences(table: TruthTable): readonly string[] {
  // a table that asks for nothing needs no input
  if (table.dontCare.every((f) => f === 2 ** table.outputs.length - 1)) return [];
  const named = (indices: readonly number[]) => indices.map((i) => table.inputs[i] ?? '');
  const needless = needlessInputs(table);
  const said =
    needless.length === 0
      ? []
      : [`No output depends on ${enumeration(named(needless))}: the table is the same without ${needless.length === 1 ? 'it' : 'them'}.`];
  for (const group of symmetricInputs(table)) {
    const names = named(group.filter((i) => !needless.includes(i)));
    if (names.length > 1) said.push(`${enumeration(names)} are interchangeable: no output depends on which is which.`);
  }
  return said;
}
