/** Rules worked out over all rows, a block of rows at a time, so that 65 536 rows cost milliseconds; and where a rule has no answer. */
import type { Definition, Expression } from './expression.ts';

/** Rows worked out at once: small enough to stay near the processor, a power of two. */
export const BLOCK = 1024;

/** Values of an expression for `count` rows from row `first`; the array is the expression's own and lasts until the next block. */
export type BitColumn = (first: number, count: number) => Float64Array;

/** Compiles expressions that share their definitions: each definition is worked out once a block. */
export class Compiler {
  private readonly definitions = new Map<Definition, BitColumn>();
  private readonly inputs = new Map<number, BitColumn>();

  column(e: Expression): BitColumn {
    if (e.kind === 'input') return kept(this.inputs, e.index, () => inputColumn(e.index));
    if (e.kind === 'constant') {
      const out = new Float64Array(BLOCK).fill(e.value);
      return () => out;
    }
    if (e.kind === 'defined') {
      const whole = kept(this.definitions, e.definition, () => onceABlock(this.column(e.definition.expression)));
      return e.bit === undefined ? whole : bitColumn(whole, e.bit);
    }
    const { does } = e.operation;
    const [a, b, c] = e.args.map((arg) => this.column(arg));
    const out = new Float64Array(BLOCK);
    return (first, count) => {
      const x = a?.(first, count) ?? out;
      const y = b?.(first, count) ?? x;
      const z = c?.(first, count) ?? x;
      for (let i = 0; i < count; i++) out[i] = does(x[i] ?? 0, y[i] ?? 0, z[i] ?? 0);
      return out;
    };
  }
}

function kept<K>(columns: Map<K, BitColumn>, key: K, make: () => BitColumn): BitColumn {
  const before = columns.get(key);
  if (before) return before;
  const column = make();
  columns.set(key, column);
  return column;
}

function inputColumn(index: number): BitColumn {
  const out = new Float64Array(BLOCK);
  return (first, count) => {
    for (let i = 0; i < count; i++) out[i] = ((first + i) >>> index) & 1;
    return out;
  };
}

function onceABlock(column: BitColumn): BitColumn {
  let held: Float64Array | undefined;
  let heldFirst = -1;
  return (first, count) => {
    if (first !== heldFirst || !held) {
      held = column(first, count);
      heldFirst = first;
    }
    return held;
  };
}

function bitColumn(whole: BitColumn, bit: number): BitColumn {
  const out = new Float64Array(BLOCK);
  return (first, count) => {
    const from = whole(first, count);
    for (let i = 0; i < count; i++) out[i] = bitOf(from[i] ?? 0, bit);
    return out;
  };
}

/** What a name outside the group may see is one bit of the whole. */
const bitOf = (value: number, bit: number): number => (Number.isNaN(value) ? value : Math.floor(value / 2 ** bit) % 2);

/** The innermost operation that has no answer in a row although all it needs is there, in words. */
export function whyUndefined(e: Expression, row: number): string {
  const compiler = new Compiler();
  const valueIn = (inner: Expression) => compiler.column(inner)(row, 1)[0] ?? Number.NaN;
  const why = (inner: Expression): string => {
    if (inner.kind === 'defined') return why(inner.definition.expression);
    if (inner.kind !== 'apply') return 'it is not defined';
    const broken = inner.args.find((a) => Number.isNaN(valueIn(a)));
    // of an "if" only the branch taken counts, and that may be broken while the condition is not
    if (broken) return why(broken);
    const args = inner.args.map(valueIn).join(', ');
    return `${inner.says} of ${args} has no answer, because ${inner.operation.undefinedSays}`;
  };
  return why(e);
}
