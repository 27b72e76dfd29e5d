/** Rules worked out over all rows, a block of rows at a time, so that 65 536 rows cost milliseconds; and where a rule has no answer. */
import type { Definition, Expression } from './expression.ts';

/** Rows worked out at once: small enough to stay near the processor, a power of two. */
export const BLOCK = 1024;

/** Values of an expression for `count` rows from row `first`; the array is the expression's own and lasts until the next block. */
export type BitColumn = (first: number, count: number) => Float64Array;

/** Compiles expressions that share their definitions: each definition is worked out once a block. */
export function makeCompiler(): (e: Expression) => BitColumn {
  const shared = new Map<Definition, BitColumn>();
  const inputs = new Map<number, BitColumn>();

  function definition(d: Definition): BitColumn {
    const before = shared.get(d);
    if (before) return before;
    const inner = compile(d.expression);
    let held: Float64Array | undefined;
    let heldFirst = -1;
    const column: BitColumn = (first, count) => {
      if (first !== heldFirst || !held) {
        held = inner(first, count);
        heldFirst = first;
      }
      return held;
    };
    shared.set(d, column);
    return column;
  }

  function input(index: number): BitColumn {
    const before = inputs.get(index);
    if (before) return before;
    const out = new Float64Array(BLOCK);
    const column: BitColumn = (first, count) => {
      for (let i = 0; i < count; i++) out[i] = ((first + i) >>> index) & 1;
      return out;
    };
    inputs.set(index, column);
    return column;
  }

  function compile(e: Expression): BitColumn {
    if (e.kind === 'input') return input(e.index);
    const out = new Float64Array(BLOCK);
    if (e.kind === 'constant') {
      out.fill(e.value);
      return () => out;
    }
    if (e.kind === 'defined') {
      const column = definition(e.definition);
      const { bit } = e;
      if (bit === undefined) return column;
      return (first, count) => {
        const from = column(first, count);
        for (let i = 0; i < count; i++) out[i] = bitOf(from[i] ?? 0, bit);
        return out;
      };
    }
    const does = e.operation.does;
    const [a, b, c] = e.args.map(compile);
    return (first, count) => {
      const x = a?.(first, count) ?? out;
      const y = b?.(first, count) ?? x;
      const z = c?.(first, count) ?? x;
      for (let i = 0; i < count; i++) out[i] = does(x[i] ?? 0, y[i] ?? 0, z[i] ?? 0);
      return out;
    };
  }
  return compile;
}

/** What a name outside the group may see is one bit of the whole. */
const bitOf = (value: number, bit: number): number => (Number.isNaN(value) ? value : Math.floor(value / 2 ** bit) % 2);

/** The innermost operation that has no answer in a row although all it needs is there, in words. */
export function whyUndefined(e: Expression, row: number): string {
  const compile = makeCompiler();
  const valueIn = (inner: Expression) => compile(inner)(row, 1)[0] ?? Number.NaN;
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
