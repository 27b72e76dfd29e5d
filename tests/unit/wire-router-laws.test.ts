/** Laws of the ways of wires, over thousands of drawn benches: ends kept, the same every time, what was laid before stays, and a chip's print is left free. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Obstacle } from '../../client/scene/cost-grid.ts';
import { type Box, holds, type Spot } from '../../client/scene/geometry.ts';
import { type Run, samples } from '../../client/scene/wire-path.ts';
import { layWires } from '../../client/scene/wire-router.ts';

const BOARDS: readonly Box[] = [
  { x: 0, y: 0, width: 65, height: 20 },
  { x: 0, y: 21, width: 65, height: 20 },
];
const spot = fc.tuple(fc.integer({ min: 1, max: 63 }), fc.integer({ min: 1, max: 40 })).map((s): Spot => s);
const run = fc.tuple(spot, spot).filter(([a, b]) => a[0] !== b[0] || a[1] !== b[1]);
const runs = (most: number) =>
  fc.array(run, { minLength: 1, maxLength: most }).map((all) => all.map(([from, to], i): Run => ({ id: `W${i + 1}`, from, to })));
const body = fc
  .record({
    x: fc.integer({ min: 0, max: 50 }),
    y: fc.integer({ min: 0, max: 30 }),
    width: fc.integer({ min: 1, max: 14 }),
    height: fc.integer({ min: 1, max: 7 }),
    weight: fc.constantFrom(0.6, 6, 10, 25),
  })
  .map(({ weight, ...box }): Obstacle => ({ box, weight }));
const bodies = fc.array(body, { maxLength: 6 });

test('every wire has one way, from its own hole to its other, through places that are on the page', () => {
  fc.assert(
    fc.property(runs(10), bodies, (all, around) => {
      const ways = layWires(all, around, BOARDS);
      expect([...ways.keys()].sort()).toEqual(all.map((r) => r.id).sort());
      for (const { id, from, to } of all) {
        const path = ways.get(id)!.path;
        expect([path[0], path.at(-1)]).toEqual([from, to]);
        // a way with corners runs along rows and columns only
        if (path.length > 2) for (const [k, [x, y]] of path.slice(1).entries()) expect(x === path[k]![0] || y === path[k]![1]).toBe(true);
        for (const [x, y] of path) expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(200);
      }
    }),
    { numRuns: 60 },
  );
});

test('the same bench is wired the same way every time', () => {
  fc.assert(
    fc.property(runs(8), bodies, (all, around) => {
      expect([...layWires(all, around, BOARDS)]).toEqual([...layWires(all, around, BOARDS)]);
    }),
    { numRuns: 30 },
  );
});

test('ways that were laid before stay as they are, whatever is laid beside them', () => {
  fc.assert(
    fc.property(runs(10), bodies, fc.integer({ min: 0, max: 10 }), (all, around, cut) => {
      const before = layWires(all.slice(0, cut), around, BOARDS);
      const after = layWires(all, around, BOARDS, before);
      for (const [id, way] of before) expect(after.get(id)).toBe(way);
      expect(after.size).toBe(all.length);
    }),
    { numRuns: 40 },
  );
});

test('the cells of a way are those that its path passes through, each once', () => {
  fc.assert(
    fc.property(runs(4), (all) => {
      for (const { path, cells } of layWires(all, [], BOARDS).values()) {
        expect(new Set(cells).size).toBe(cells.length);
        // cells of half a pitch: as many as the way is long, at least as far as it leads
        const ends = [path[0]!, path.at(-1)!] as const;
        const apart = Math.max(Math.abs(ends[0][0] - ends[1][0]), Math.abs(ends[0][1] - ends[1][1]));
        expect(cells.length).toBeGreaterThanOrEqual(2 * apart + 1);
      }
    }),
    { numRuns: 40 },
  );
});

/** the ground is made of cells of half a pitch: a corner may be cut by so much */
const CELL = 0.5;

test('a wire from above a chip to below it leaves its print free, wherever the chip is and however wide', () => {
  const chip = fc.record({ x: fc.integer({ min: 8, max: 40 }), width: fc.integer({ min: 3, max: 14 }) });
  fc.assert(
    fc.property(chip, fc.nat(13), fc.nat(13), ({ x, width }, from, to) => {
      const box: Box = { x, y: 6, width, height: 7 };
      const wire: Run = { id: 'W1', from: [x + 1 + (from % (width - 1)), 4], to: [x + 1 + (to % (width - 1)), 25] };
      const way = layWires([wire], [{ box, weight: 25 }], BOARDS).get('W1')!;
      expect(samples(way.path, 200).filter((s) => holds(box, s, -CELL))).toEqual([]);
    }),
    { numRuns: 100 },
  );
});
