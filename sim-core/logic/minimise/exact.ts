/** Minimal sums of products by Quine and McCluskey: all prime implicants, then the cheapest cover by branch and bound instead of Petrick's product of sums. */
import { cheapestCover } from './covering.ts';
import { ABSENT_WORD, type Cube, ON, priceOf, productsIn, type SumOfProducts } from './cube.ts';

/** Nodes of the search before it gives up the proof: a second or two for eight inputs that are nearly all 1. */
const PATIENCE = 300;

/** Prime implicants that cover a row which must be 1; ordered by care, then value. */
export function primesOf(cells: Uint8Array): Cube[] {
  const rows = cells.length;
  const all = rows - 1;
  // implicant[care · rows + value]: no row of the cube is OFF; must[…]: some row is ON
  const implicant = new Uint8Array(rows * rows);
  const must = new Uint8Array(rows * rows);
  for (let care = all; care >= 0; care--) {
    // a literal that this cube lacks; the cube is two halves that have it
    const lacks = ~care & all;
    const bit = lacks & -lacks;
    for (let value = care; ; value = (value - 1) & care) {
      const at = care * rows + value;
      if (bit === 0) {
        implicant[at] = cells[value] === ABSENT_WORD ? 0 : 1;
        must[at] = cells[value] === ON ? 1 : 0;
      } else {
        const half = (care | bit) * rows + value;
        implicant[at] = (implicant[half] ?? 0) & (implicant[half + bit] ?? 0);
        must[at] = (must[half] ?? 0) | (must[half + bit] ?? 0);
      }
      if (value === 0) break;
    }
  }
  const primes: Cube[] = [];
  for (let care = 0; care <= all; care++)
    for (let value = 0; value <= care; value++) {
      if ((value & ~care) !== 0 || !implicant[care * rows + value] || !must[care * rows + value]) continue;
      let isPrime = true;
      for (let rest = care; rest !== 0 && isPrime; rest &= rest - 1) {
        const bit = rest & -rest;
        if (implicant[(care & ~bit) * rows + (value & ~bit)]) isPrime = false;
      }
      if (isPrime) primes.push({ care, value });
    }
  return primes;
}

/** known: any correct sum of prime implicants, as a first bound. progress: called with 0 to 1. */
export function minimalSum(cells: Uint8Array, known: readonly Cube[], progress: (part: number) => void = () => {}): SumOfProducts {
  const primes = primesOf(cells);
  const rowNumber = new Map<number, number>();
  for (const [r, cell] of cells.entries()) if (cell === ON) rowNumber.set(r, rowNumber.size);
  const columns = primes.map(({ care, value }) => {
    const covered: number[] = [];
    for (const [r, number] of rowNumber) if ((r & care) === value) covered.push(number);
    return covered;
  });
  const chosen = known.map((k) => primes.findIndex((p) => p.care === k.care && p.value === k.value));
  const prices = primes.map(priceOf);
  const total = (columns: readonly number[]) => columns.reduce((sum, c) => sum + (prices[c] ?? 0), 0);
  const cover = cheapestCover(rowNumber.size, columns, prices, chosen, PATIENCE, (part) => progress(part / 2));
  const sum = (best: readonly number[]) => [...best].sort((a, b) => a - b).flatMap((c) => primes[c] ?? []);
  if (cover.proven) return { products: sum(cover.chosen), atLeast: cover.chosen.length, proven: true, literalsProven: true };
  // too many ties between literals: the number of products alone may still be proven
  const fewest = cheapestCover(
    rowNumber.size,
    columns,
    primes.map(() => 1),
    cover.chosen,
    PATIENCE,
    (part) => progress((1 + part) / 2),
  );
  const best = total(fewest.chosen) < total(cover.chosen) ? fewest.chosen : cover.chosen;
  const atLeast = Math.max(fewest.atLeast, productsIn(cover.atLeast));
  return { products: sum(best), atLeast, proven: best.length === atLeast, literalsProven: false };
}
