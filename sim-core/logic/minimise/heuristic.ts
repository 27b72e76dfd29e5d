/**
 * Short sums of products for many inputs: cubes grow as far as no row forbids (expand), those that others make needless go (irredundant), the rest
 * shrink to what only they cover and grow another way (reduce), as long as it helps. Every product is prime and none is needless; the minimum is not proven.
 */
import { ABSENT_WORD, type Cube, ON, priceOf } from './cube.ts';

/** Rounds of shrinking and growing again. */
const ROUNDS = 4;

/** progress: called with 0 to 1 */
export function shortSum(cells: Uint8Array, progress: (part: number) => void = () => {}): Cube[] {
  const all = cells.length - 1;
  /** how many cubes cover each row */
  const covered = new Uint16Array(cells.length);

  const each = (cube: Cube, visit: (row: number) => void) => {
    const loose = all & ~cube.care;
    for (let sub = loose; ; sub = (sub - 1) & loose) {
      visit(cube.value | sub);
      if (sub === 0) break;
    }
  };
  const count = (cube: Cube, by: 1 | -1) => each(cube, (r) => (covered[r] = (covered[r] ?? 0) + by));

  /** What the other half of a cube would bring: −1 if a row forbids it, else more for rows nobody covers than for rows one other cube covers. */
  function gain(care: number, value: number, bit: number): number {
    const loose = all & ~care;
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

  function expanded({ care, value }: Cube): Cube {
    let open = care;
    for (;;) {
      let best = 0;
      let most = -1;
      for (let rest = open; rest !== 0; rest &= rest - 1) {
        const bit = rest & -rest;
        const brings = gain(care, value, bit);
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

  /** Drops cubes whose rows all have another; those with most literals first. */
  function irredundant(cubes: readonly Cube[]): Cube[] {
    const kept = new Set(cubes);
    for (const cube of [...cubes].sort((a, b) => priceOf(b) - priceOf(a))) {
      if (isNeeded(cube)) continue;
      count(cube, -1);
      kept.delete(cube);
    }
    return [...kept];
  }

  function isNeeded(cube: Cube): boolean {
    const loose = all & ~cube.care;
    for (let sub = loose; ; sub = (sub - 1) & loose) {
      const row = cube.value | sub;
      if (cells[row] === ON && covered[row] === 1) return true;
      if (sub === 0) return false;
    }
  }

  /** The smallest cube round the rows that only this one covers. */
  function reduced(cube: Cube): Cube {
    let ones = all;
    let zeros = all;
    each(cube, (r) => {
      if (cells[r] !== ON || covered[r] !== 1) return;
      ones &= r;
      zeros &= ~r;
    });
    return { care: (ones | zeros) & all, value: ones & all };
  }

  let cubes: Cube[] = [];
  for (let row = 0; row < cells.length; row++) {
    if (cells[row] !== ON || covered[row] !== 0) continue;
    const cube = expanded({ care: all, value: row });
    count(cube, 1);
    cubes.push(cube);
    progress(row / cells.length / (1 + ROUNDS));
  }
  cubes = irredundant(cubes);

  for (let round = 0, price = total(cubes); round < ROUNDS; round++) {
    progress((1 + round) / (1 + ROUNDS));
    const before = cubes;
    const small = [...cubes]
      .sort((a, b) => priceOf(a) - priceOf(b) || a.value - b.value)
      .map((cube) => {
        const less = reduced(cube);
        count(cube, -1);
        count(less, 1);
        return less;
      });
    const grown: Cube[] = [];
    for (const cube of small.sort((a, b) => priceOf(b) - priceOf(a) || a.value - b.value)) {
      count(cube, -1);
      if (!needsCover(cube)) continue;
      const more = expanded(cube);
      count(more, 1);
      grown.push(more);
    }
    cubes = irredundant(grown);
    const now = total(cubes);
    if (now >= price) {
      cubes = now > price ? before : cubes;
      break;
    }
    price = now;
  }
  return [...cubes].sort((a, b) => a.care - b.care || a.value - b.value);

  /** Has this cube, which is not counted any more, a row that nobody else covers? */
  function needsCover(cube: Cube): boolean {
    let needed = false;
    each(cube, (r) => {
      if (cells[r] === ON && covered[r] === 0) needed = true;
    });
    return needed;
  }
}

const total = (cubes: readonly Cube[]): number => cubes.reduce((sum, c) => sum + priceOf(c), 0);
