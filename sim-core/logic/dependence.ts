/** Which inputs a table's outputs do not need, and which inputs may change places. */
import { rowsOf, type TruthTable } from './truth-table.ts';

/** Inputs that one output never needs, don't-cares chosen to that end; indices, ascending. */
export function unusedInputs(table: TruthTable, output: number): number[] {
  const bit = 1 << output;
  // 0, 1 or 2 for free; where two rows must agree, a free one takes the other's value
  let cells = Uint8Array.from({ length: rowsOf(table) }, (_, r) => ((table.free[r] ?? 0) & bit ? 2 : (table.values[r] ?? 0) & bit ? 1 : 0));
  const unused: number[] = [];
  for (let i = 0; i < table.inputs.length; i++) {
    const merged = cells.slice();
    let agree = true;
    for (let r = 0; r < cells.length && agree; r++) {
      if ((r >>> i) & 1) continue;
      const [low, high] = [cells[r] ?? 2, cells[r + 2 ** i] ?? 2];
      if (low !== high && low !== 2 && high !== 2) agree = false;
      const both = low === 2 ? high : low;
      merged[r] = both;
      merged[r + 2 ** i] = both;
    }
    if (!agree) continue;
    unused.push(i);
    cells = merged;
  }
  return unused;
}

/** Inputs that no output needs. */
export function needlessInputs(table: TruthTable): number[] {
  const each = table.outputs.map((_, o) => unusedInputs(table, o));
  return table.inputs.map((_, i) => i).filter((i) => each.every((unused) => unused.includes(i)));
}

/** Inputs of which any two may change places without a change of any output; groups of two and more, indices ascending. Free cells count as they are. */
export function symmetricInputs(table: TruthTable, outputs = 0xffff): number[][] {
  const groups: number[][] = [];
  for (let i = 0; i < table.inputs.length; i++) {
    // exchanging is transitive, so the first of a group speaks for all
    const group = groups.find(([first = 0]) => mayExchange(table, first, i, outputs));
    if (group) group.push(i);
    else groups.push([i]);
  }
  return groups.filter((g) => g.length > 1);
}

function mayExchange({ values, free }: TruthTable, i: number, j: number, outputs: number): boolean {
  const swap = (1 << i) | (1 << j);
  for (let r = 0; r < values.length; r++) {
    if (!((r >>> i) & 1) || (r >>> j) & 1) continue;
    const other = r ^ swap;
    if ((((values[r] ?? 0) ^ (values[other] ?? 0)) | ((free[r] ?? 0) ^ (free[other] ?? 0))) & outputs) return false;
  }
  return true;
}
