/** Random functions and what a plain search finds for them: the sums beside which minimised ones are judged. */
import fc from 'fast-check';
import { type Cube, covers, ON, priceOf } from '../../sim-core/logic/minimise/cube.ts';
import { primesOf } from '../../sim-core/logic/minimise/exact.ts';
import { type TruthTable, tableOfWords } from '../../sim-core/logic/truth-table.ts';

export const names = (n: number) => Array.from({ length: n }, (_, i) => `A${i}`);
export const oneOutput = (n: number, values: readonly number[], free: readonly number[] = values.map(() => 0)): TruthTable => {
  const made = tableOfWords(names(n), ['F'], values, free);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
};

/** cells of a random function: 0, 1, and in some functions free ones */
export const cells = (least: number, most: number) =>
  fc
    .tuple(fc.integer({ min: least, max: most }), fc.constantFrom(2, 3))
    .chain(([n, kinds]) =>
      fc.array(fc.nat(kinds - 1), { minLength: 2 ** n, maxLength: 2 ** n }).map((c) => ({ n, c: Uint8Array.from(c) })),
    );
export const tableOf = ({ n, c }: { n: number; c: Uint8Array }) =>
  oneOutput(
    n,
    [...c].map((v) => v & 1),
    [...c].map((v) => v >> 1),
  );

/** The least price of any sum of products, by trying every set of implicants in order of size. Only for few inputs. */
export function leastPrice(c: Uint8Array): number {
  const all = c.length - 1;
  const must = [...c.keys()].filter((r) => c[r] === ON);
  const implicants: { price: number; covers: number }[] = [];
  for (let care = 0; care <= all; care++)
    for (let value = 0; value <= care; value++) {
      if (value & ~care) continue;
      const cube: Cube = { care, value };
      const rows = [...c.keys()].filter((r) => covers(cube, r));
      if (rows.every((r) => c[r] !== 0))
        implicants.push({ price: priceOf(cube), covers: must.reduce((m, r, i) => m | (rows.includes(r) ? 1 << i : 0), 0) });
    }
  // cheapest price of each set of covered rows: every way of adding implicants, one row at a time
  const least = new Map<number, number>([[0, 0]]);
  const full = 2 ** must.length - 1;
  for (let set = 0; set < full; set++) {
    const now = least.get(set);
    if (now === undefined) continue;
    for (const i of implicants) {
      const next = set | i.covers;
      if (next > set && now + i.price < (least.get(next) ?? Infinity)) least.set(next, now + i.price);
    }
  }
  return least.get(full) ?? Infinity;
}

/** The least price of a cover by primes: the first row that is left takes each of its primes in turn, and nothing is left out but what costs too much already. */
export function plainSearch(c: Uint8Array): number {
  const primes = primesOf(c);
  const must = [...c.keys()].filter((r) => c[r] === ON);
  let best = Infinity;
  const go = (left: readonly number[], price: number) => {
    if (price >= best) return;
    const [row] = left;
    if (row === undefined) best = price;
    else
      for (const p of primes)
        if (covers(p, row))
          go(
            left.filter((r) => !covers(p, r)),
            price + priceOf(p),
          );
  };
  go(must, 0);
  return best;
}

export const priceOfAll = (products: readonly Cube[]) => products.reduce((sum, p) => sum + priceOf(p), 0);
