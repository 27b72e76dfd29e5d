/** The search on a grid against relaxation until nothing changes (Bellman 1958), on small grids drawn at random. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cheapestWay, type GridPlace } from '../../client/scene/grid-search.ts';

const [WIDE, HIGH] = [7, 6];
const STEP = 0.5;
const CORNER = 1.5;
const WAYS = [
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
] as const;

/** The least cost of reaching `to`, by trying every step from every state until no cost falls any more. */
function relaxed(costs: readonly number[], from: GridPlace, to: GridPlace): number {
  const least = new Map<string, number>(WAYS.map((_, d) => [`${from[0]} ${from[1]} ${d}`, 0]));
  for (let changed = true; changed; ) {
    changed = false;
    for (const [state, spent] of [...least]) {
      const [x = 0, y = 0, d = 0] = state.split(' ').map(Number);
      for (const [e, [dx, dy]] of WAYS.entries()) {
        const [u, v] = [x + dx, y + dy];
        if (u < 0 || v < 0 || u >= WIDE || v >= HIGH) continue;
        const cost = spent + STEP + (d === e ? 0 : CORNER) + costs[v * WIDE + u]!;
        if (cost >= (least.get(`${u} ${v} ${e}`) ?? Number.POSITIVE_INFINITY) - 1e-12) continue;
        least.set(`${u} ${v} ${e}`, cost);
        changed = true;
      }
    }
  }
  return Math.min(...WAYS.map((_, d) => least.get(`${to[0]} ${to[1]} ${d}`) ?? Number.POSITIVE_INFINITY));
}

const cell = fc.tuple(fc.nat(WIDE - 1), fc.nat(HIGH - 1));
const costs = fc.array(fc.constantFrom(0, 0, 0, 1, 4, 9), { minLength: WIDE * HIGH, maxLength: WIDE * HIGH });

test('no way is cheaper than the one that is found, and it costs what it says', () => {
  fc.assert(
    fc.property(costs, cell, cell, (ground, from, to) => {
      fc.pre(from[0] !== to[0] || from[1] !== to[1]);
      const grid = { wide: WIDE, high: HIGH, costOf: (x: number, y: number) => ground[y * WIDE + x]! };
      const found = cheapestWay(grid, from, to, { step: STEP, corner: CORNER, most: 1000 })!;
      expect(found.cost).toBeCloseTo(relaxed(ground, from, to), 9);
      let cost = CORNER * (found.turns.length - 2);
      for (const [i, [x, y]] of found.turns.slice(1).entries()) {
        let [u, v] = found.turns[i]!;
        expect(u === x || v === y).toBe(true);
        while (u !== x || v !== y) {
          [u, v] = [u + Math.sign(x - u), v + Math.sign(y - v)];
          cost += STEP + ground[v * WIDE + u]!;
        }
      }
      expect(cost).toBeCloseTo(found.cost, 9);
      expect([found.turns[0], found.turns.at(-1)]).toEqual([from, to]);
    }),
  );
});

test('what would cost as much as is allowed is not found', () => {
  const grid = { wide: WIDE, high: HIGH, costOf: () => 1 };
  const straight = { step: STEP, corner: CORNER };
  expect(cheapestWay(grid, [0, 0], [4, 0], { ...straight, most: 6 })).toBeUndefined();
  expect(cheapestWay(grid, [0, 0], [4, 0], { ...straight, most: 6.1 })).toEqual({
    turns: [
      [0, 0],
      [4, 0],
    ],
    cost: 6,
  });
});
