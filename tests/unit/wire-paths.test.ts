/** Paths of wires as they are drawn: straight, round a chip rather than over its print, aside of what lies in their line, and the same whatever is wired elsewhere. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import { OBSTACLE_WEIGHT, type Obstacle, pathsOfPlan, type WirePath, type WireRun, wirePaths } from '../../sim-core/index.ts';
import { drawnBench } from '../../sim-core/tidy/drawn-bench.ts';
import { goesOver, type Segment } from '../../sim-core/tidy/lines.ts';

const segments = (path: WirePath): Segment[] => path.slice(1).map(([bx, by], i) => ({ ax: path[i]![0], ay: path[i]![1], bx, by }));
const isOver = (path: WirePath, box: Obstacle) => segments(path).some((s) => goesOver(s, box));
const onlyPath = (run: Omit<WireRun, 'id'>, obstacles: readonly Obstacle[] = [], lines: readonly Segment[] = []) =>
  wirePaths([{ id: 'W1', ...run }], obstacles, lines).get('W1')!;

/** 28 pins, between the two rows of holes at 4 and 15. */
const CHIP: Obstacle = { left: 9, right: 23, top: 6, bottom: 13, weight: OBSTACLE_WEIGHT.chip };
/** Eight wires from holes above the chip to a row below it, in another order. */
const over: readonly WireRun[] = [3, 6, 0, 5, 1, 7, 2, 4].map((to, i) => ({ id: `W${i + 1}`, from: [10 + i, 4], to: [10 + 2 * to, 25] }));

test('with nothing in its way a wire is straight, however long', () => {
  expect(onlyPath({ from: [30, 4], to: [45, 17] }, [CHIP])).toEqual([
    [30, 4],
    [45, 17],
  ]);
});

test('past a terminal beside its own a wire takes a corner, and one that ends there does not', () => {
  const spot = (x: number): Obstacle => ({
    left: x - 0.4,
    right: x + 0.4,
    top: -0.4,
    bottom: 0.4,
    weight: OBSTACLE_WEIGHT.part,
    ends: [x, 0],
  });
  const terminals = [spot(8), spot(10)];
  const past = onlyPath({ from: [10, 0], to: [-20, 2] }, terminals);
  expect(past).toHaveLength(3);
  expect(isOver(past, terminals[0]!)).toBe(false);
  expect(onlyPath({ from: [8, 0], to: [-20, 2] }, terminals)).toHaveLength(2);
});

test('eight wires from above a chip to below it leave its print free, each in a lane of its own', () => {
  const paths = [...wirePaths(over, [CHIP], []).values()];
  expect(paths.filter((path) => isOver(path, CHIP))).toEqual([]);
  // where each passes the end of the chip
  const lanes = paths.map((path) => path[1]![0]).sort((a, b) => a - b);
  expect(Math.min(...lanes.slice(1).map((x, i) => x - lanes[i]!))).toBeGreaterThan(0.45);
});

test('one corner is enough where it leaves the chip free', () => {
  const path = onlyPath({ from: [8, 4], to: [20, 20] }, [CHIP]);
  expect(path).toHaveLength(3);
  expect(isOver(path, CHIP)).toBe(false);
});

test('over a resistor in its own line a wire is drawn half a pitch aside, and a bus of such wires stays parallel', () => {
  const runs = [0, 1, 2].map((i): WireRun => ({ id: `W${i}`, from: [10 + i, 14], to: [10 + i, 24] }));
  const pulls = runs.map(({ from: [x] }): Segment => ({ ax: x, ay: 22, bx: x, by: 25 }));
  for (const [i, path] of [...wirePaths(runs, [], pulls).values()].entries())
    expect(path).toEqual([
      [10 + i, 14],
      [10.5 + i, 14.5],
      [10.5 + i, 23.5],
      [10 + i, 24],
    ]);
});

test('of two wires in one line the shorter is straight, whichever way they were laid', () => {
  const [long, short] = [
    { from: [3, 14], to: [20, 14] },
    { from: [12, 14], to: [5, 14] },
  ] as const;
  const paths = wirePaths(
    [
      { id: 'L', ...long },
      { id: 'S', ...short },
    ],
    [],
    [],
  );
  expect(paths.get('S')).toEqual([short.from, short.to]);
  expect(paths.get('L')!.map(([, y]) => y)).toEqual([14, 14.5, 14.5, 14]);
});

const spot = fc.tuple(fc.integer({ min: 1, max: 63 }), fc.integer({ min: 1, max: 40 }));
const run = fc.tuple(spot, spot).filter(([a, b]) => a[0] !== b[0] || a[1] !== b[1]);
const runs = fc
  .array(run, { minLength: 1, maxLength: 12 })
  .map((all) => all.map(([from, to], i): WireRun => ({ id: `W${i + 1}`, from, to })));
const obstacles = fc.array(
  fc
    .record({
      left: fc.integer({ min: 0, max: 50 }),
      top: fc.integer({ min: 0, max: 30 }),
      width: fc.integer({ min: 1, max: 14 }),
      height: fc.integer({ min: 1, max: 7 }),
      weight: fc.constantFrom(...Object.values(OBSTACLE_WEIGHT)),
    })
    .map(({ left, top, width, height, weight }): Obstacle => ({ left, top, right: left + width, bottom: top + height, weight })),
  { maxLength: 6 },
);

test('every wire has one path, from its own hole to its other, in whatever order the plan names them', () => {
  fc.assert(
    fc.property(runs, obstacles, (all, around) => {
      const paths = wirePaths(all, around, []);
      for (const { id, from, to } of all) {
        const path = paths.get(id)!;
        expect([path[0], path.at(-1)]).toEqual([from, to]);
        expect(path.length).toBeLessThanOrEqual(4);
        for (const [x, y] of path) expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(100);
      }
      const turned = wirePaths([...all].reverse(), [...around].reverse(), []);
      for (const [id, path] of paths) expect(turned.get(id)).toEqual(path);
    }),
  );
});

test('a path is never over more of what is dear than the straight line is', () => {
  fc.assert(
    fc.property(run, obstacles, ([from, to], around) => {
      const weight = (path: WirePath) => around.reduce((sum, o) => sum + (isOver(path, o) ? o.weight : 0), 0);
      expect(weight(onlyPath({ from, to }, around))).toBeLessThanOrEqual(1.5 * weight([from, to]));
    }),
  );
});

test('what is wired or placed where the straight line does not come leaves a path as it is', () => {
  fc.assert(
    fc.property(runs, obstacles, run, (all, around, [from, to]) => {
      const before = wirePaths(all, around, []);
      const after = wirePaths([...all, { id: 'new', from, to }], around, []);
      for (const { id, from: a, to: b } of all) {
        const [own, added] = [
          { ax: a[0], ay: a[1], bx: b[0], by: b[1] },
          { ax: from[0], ay: from[1], bx: to[0], by: to[1] },
        ] as const;
        const apart =
          Math.max(own.ax, own.bx) < Math.min(added.ax, added.bx) - 1 || Math.max(added.ax, added.bx) < Math.min(own.ax, own.bx) - 1;
        if (apart) expect(after.get(id)).toEqual(before.get(id));
      }
    }),
  );
});

test('on the demonstrations no more than a few wires have a corner, and fewer are over a chip than if all were straight', () => {
  for (const { plan } of DEMO_PLANS) {
    const paths = pathsOfPlan(plan);
    const drawn = drawnBench(plan);
    if (!paths.ok || !drawn.ok) throw new Error('a demonstration that cannot be drawn');
    const bodies = drawn.value.bodies.filter((b) => !b.led);
    const count = (all: readonly WirePath[]) => all.filter((path) => bodies.some((b) => segments(path).some((s) => goesOver(s, b)))).length;
    const own = [...paths.value.values()];
    expect(count(own)).toBeLessThanOrEqual(count(own.map((path) => [path[0]!, path.at(-1)!])));
  }
});
