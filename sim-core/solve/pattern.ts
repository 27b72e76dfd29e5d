/**
 * Which rows of a network of couplings are coupled: collected once per circuit, then addressed by slot. Knows rows and columns only.
 * Values by slot, all of them 0 or more: `slot(i, j)` holds the coupling between rows i and j, `slot(i, i)` what ties row i to the reference. The matrix A
 * that they stand for has minus the couplings beside its diagonal, and on it the tie plus all couplings of the row.
 */

/**
 * Symmetric pattern of size n: the upper triangle by columns of the permuted matrix P·A·Pᵀ, diagonal included.
 */
export interface Pattern {
  readonly n: number;
  /** the rows from order[border] on come last, together, since they are not eliminated without subtractions; n if there are none */
  readonly border: number;
  /** size n; order[k] is the row of A that is eliminated k-th */
  readonly order: Int32Array;
  /** size n; place[order[k]] = k */
  readonly place: Int32Array;
  /** size n + 1; column k's entries are start[k] … start[k + 1] − 1, rows ascending, the diagonal last */
  readonly start: Int32Array;
  /** permuted row of each entry */
  readonly row: Int32Array;
}

/** Builds the pattern of n rows from pairs (i, j); every diagonal entry is added. last: rows that are eliminated after all others. */
export function makePattern(n: number, pairs: Iterable<readonly [i: number, j: number]>, last: ReadonlySet<number> = new Set()): Pattern {
  const neighbours: Set<number>[] = Array.from({ length: n }, () => new Set());
  for (const [i, j] of pairs)
    if (i !== j) {
      neighbours[i]?.add(j);
      neighbours[j]?.add(i);
    }
  const order = minimumDegreeOrder(neighbours, last);
  const place = new Int32Array(n);
  order.forEach((row, k) => {
    place[row] = k;
  });
  const start = new Int32Array(n + 1);
  const rows: number[] = [];
  for (let k = 0; k < n; k++) {
    const above = [...(neighbours[order[k] as number] as Set<number>)].map((j) => place[j] as number).filter((p) => p < k);
    rows.push(...above.sort((a, b) => a - b), k);
    start[k + 1] = rows.length;
  }
  return { n, border: n - last.size, order, place, start, row: Int32Array.from(rows) };
}

/** Where entry (i, j) of A is stored; −1 if the pattern has no such entry. */
export function slotOf(p: Pattern, i: number, j: number): number {
  const a = p.place[i] as number;
  const b = p.place[j] as number;
  const column = Math.max(a, b);
  const row = Math.min(a, b);
  let low = p.start[column] as number;
  let high = (p.start[column + 1] as number) - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const here = p.row[middle] as number;
    if (here === row) return middle;
    if (here < row) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}

/**
 * Greedy minimum degree on the elimination graph (Tinney & Walker 1967, Proc. IEEE 55, scheme 2).
 * Ties go to the smaller row number, so that the order is the same every time.
 */
function minimumDegreeOrder(neighbours: readonly ReadonlySet<number>[], last: ReadonlySet<number>): Int32Array {
  const n = neighbours.length;
  const graph = neighbours.map((s) => new Set(s));
  const byDegree: Set<number>[] = Array.from({ length: n + 1 }, () => new Set());
  graph.forEach((s, i) => {
    if (!last.has(i)) byDegree[s.size]?.add(i);
  });
  const order = new Int32Array(n);
  order.set(
    [...last].sort((a, b) => a - b),
    n - last.size,
  );
  let degree = 0;
  for (let k = 0; k < n - last.size; k++) {
    while ((byDegree[degree] as Set<number>).size === 0) degree++;
    const row = Math.min(...(byDegree[degree] as Set<number>));
    byDegree[degree]?.delete(row);
    order[k] = row;
    const clique = [...(graph[row] as Set<number>)];
    for (const i of clique) {
      const mine = graph[i] as Set<number>;
      byDegree[mine.size]?.delete(i);
      mine.delete(row);
      for (const j of clique) if (j !== i) mine.add(j);
      if (last.has(i)) continue;
      byDegree[mine.size]?.add(i);
      degree = Math.min(degree, mine.size);
    }
  }
  return order;
}
