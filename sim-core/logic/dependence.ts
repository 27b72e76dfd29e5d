/** Which inputs a table's outputs do not need, and which inputs may change places. */
import type { TruthTable } from './truth-table.ts';

/** By input: a mask of the outputs that never need it, don't-cares chosen to that end. All outputs are gone through at once, a bit each. */
function notNeeding({ inputs, outputs, ...table }: TruthTable): Uint16Array {
  const all = 2 ** outputs.length - 1;
  // where two rows must agree, a free one takes the other's value
  const values = table.values.slice();
  const dontCare = table.dontCare.slice();
  return Uint16Array.from(inputs, (_, i) => {
    const step = 2 ** i;
    let need = 0;
    for (let r = 0; r < values.length && need !== all; r++)
      if (!(r & step))
        need |= ((values[r] as number) ^ (values[r + step] as number)) & ~((dontCare[r] as number) | (dontCare[r + step] as number));
    const agree = all & ~need;
    for (let r = 0; agree !== 0 && r < values.length; r++) {
      if (r & step) continue;
      const [low, high] = [dontCare[r] as number, dontCare[r + step] as number];
      const value = ((values[r] as number) & ~low) | ((values[r + step] as number) & ~high);
      for (const at of [r, r + step]) {
        values[at] = ((values[at] as number) & ~agree) | (value & agree);
        dontCare[at] = ((dontCare[at] as number) & ~agree) | (low & high & agree);
      }
    }
    return agree;
  });
}

/** Inputs that no output needs. */
export function needlessInputs(table: TruthTable): number[] {
  const by = notNeeding(table);
  return table.inputs.map((_, i) => i).filter((i) => by[i] === 2 ** table.outputs.length - 1);
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

function mayExchange({ values, dontCare }: TruthTable, i: number, j: number, outputs: number): boolean {
  const swap = (1 << i) | (1 << j);
  for (let r = 0; r < values.length; r++) {
    if (!((r >>> i) & 1) || (r >>> j) & 1) continue;
    const other = r ^ swap;
    if ((((values[r] ?? 0) ^ (values[other] ?? 0)) | ((dontCare[r] ?? 0) ^ (dontCare[other] ?? 0))) & outputs) return false;
  }
  return true;
}
