/**
 * Short sums of products for many inputs: cubes grow as far as no row forbids (expand), those that others make needless go (irredundant), the rest
 * shrink to what only they cover and grow another way (reduce), as long as it helps. Every product is prime and none is needless; the minimum is not proven.
 */
import { ABSENT_WORD, type Cube, ON, priceOf } from './cube.ts';

/** Rounds of shrinking and growing again. */
const ROUNDS = 4;

/** progress: called with 0 to 1 */
export function shortSum(cells: Uint8Array, progress: (part: number) => void = () => {}): Cube[] {
  const cover = new Cover(cells);
  let cubes = cover.irredundant(cover.ofAllRows((part) => progress(part / (1 + ROUNDS))));
  let price = total(cubes);
  for (let round = 0; round < ROUNDS; round++) {
    progress((1 + round) / (1 + ROUNDS));
    const other = cover.irredundant(cover.expandedAgain(cover.reduced(cubes)));
    const now = total(other);
    if (now <= price) cubes = other;
    if (now >= price) break;
    price = now;
  }
  return [...cubes].sort((a, b) => a.care - b.care || a.value - b.value);
}

/** Cubes over the rows of one function, and how many of them cover each row. */
class Cover {
  private readonly all: number;
  private readonly covered: Uint16Array;

  constructor(private readonly cells: Uint8Array) {
    this.all = cells.length - 1;
    this.covered = new Uint16Array(cells.length);
  }

  /** A cube for every row that none before it covers, each as large as it can be. progress: called with 0 to 1 */
  ofAllRows(progress: (part: number) => void): Cube[] {
    const cubes: Cube[] = [];
    for (let row = 0; row < this.cells.length; row++) {
      if (this.cells[row] !== ON || this.covered[row] !== 0) continue;
      const cube = this.expanded({ care: this.all, value: row });
      this.count(cube, 1);
      cubes.push(cube);
      progress(row / this.cells.length);
    }
    return cubes;
  }

  /** Drops cubes whose rows all have another; those with most literals first. */
  irredundant(cubes: readonly Cube[]): Cube[] {
    const kept = new Set(cubes);
    for (const cube of [...cubes].sort((a, b) => priceOf(b) - priceOf(a))) {
      if (this.hasRowCovered(cube, 1)) continue;
      this.count(cube, -1);
      kept.delete(cube);
    }
    return [...kept];
  }

  /** Each cube shrunk to the rows that only it covers, the cheapest first. */
  reduced(cubes: readonly Cube[]): Cube[] {
    return [...cubes]
      .sort((a, b) => priceOf(a) - priceOf(b) || a.value - b.value)
      .map((cube) => {
        const less = this.lonely(cube);
        this.count(cube, -1);
        this.count(less, 1);
        return less;
      });
  }

  /** Small cubes grown another way; one whose rows the others have come to cover goes. */
  expandedAgain(small: readonly Cube[]): Cube[] {
    const grown: Cube[] = [];
    for (const cube of [...small].sort((a, b) => priceOf(b) - priceOf(a) || a.value - b.value)) {
      this.count(cube, -1);
      if (!this.hasRowCovered(cube, 0)) continue;
      const more = this.expanded(cube);
      this.count(more, 1);
      grown.push(more);
    }
    return grown;
  }

  private each({ care, value }: Cube, visit: (row: number) => void) {
    const loose = this.all & ~care;
    for (let sub = loose; ; sub = (sub - 1) & loose) {
      visit(value | sub);
      if (sub === 0) break;
    }
  }

  private count(cube: Cube, by: 1 | -1) {
    const { covered } = this;
    this.each(cube, (r) => {
      covered[r] = (covered[r] ?? 0) + by;
    });
  }

  /** Has it a row of 1 that just so many cubes cover? */
  private hasRowCovered({ care, value }: Cube, times: 0 | 1): boolean {
    const loose = this.all & ~care;
    for (let sub = loose; ; sub = (sub - 1) & loose) {
      const row = value | sub;
      if (this.cells[row] === ON && this.covered[row] === times) return true;
      if (sub === 0) return false;
    }
  }

  /** What the other half of a cube would bring: −1 if a row forbids it, else more for uncovered rows than for rows one other cube covers. */
  private gain(care: number, value: number, bit: number): number {
    const { cells, covered } = this;
    const loose = this.all & ~care;
    const other = value ^ bit;
    let sum = 0;
    for (let sub = loose; ; sub = (sub - 1) & loose) {
      const row = other | sub;
      const cell = cells[row];
      if (cell === ABSENT_WORD) return -1;
      if (cell === ON) sum += covered[row] === 0 ? 4 : covered[row] === 1 ? 1 : 0;
      if (sub === 0) break;
    }
    return sum;
  }

  private expanded({ care, value }: Cube): Cube {
    let open = care;
    for (;;) {
      let best = 0;
      let most = -1;
      for (let rest = open; rest !== 0; rest &= rest - 1) {
        const bit = rest & -rest;
        const brings = this.gain(care, value, bit);
        // what a row forbids stays forbidden when the cube grows
        if (brings < 0) open &= ~bit;
        else if (brings > most) {
          most = brings;
          best = bit;
        }
      }
      if (best === 0) return { care, value };
      care &= ~best;
      value &= ~best;
      open &= ~best;
    }
  }

  /** The smallest cube round the rows that only this one covers. */
  private lonely(cube: Cube): Cube {
    const { all, cells, covered } = this;
    let ones = all;
    let zeros = all;
    this.each(cube, (r) => {
      if (cells[r] !== ON || covered[r] !== 1) return;
      ones &= r;
      zeros &= ~r;
    });
    return { care: (ones | zeros) & all, value: ones & all };
  }
}

const total = (cubes: readonly Cube[]): number => cubes.reduce((sum, c) => sum + priceOf(c), 0);
