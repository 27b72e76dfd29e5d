/** Ways of wires: round the end of a chip rather than over its print, in lanes of their own, and straight where nothing is in the way. */
import { expect, test } from 'vitest';
import { type Box, holds, type Spot } from '../../client/scene/geometry.ts';
import { type Run, samples } from '../../client/scene/wire-path.ts';
import { layWires } from '../../client/scene/wire-router.ts';

const BOARDS: readonly Box[] = [
  { x: 0, y: 0, width: 65, height: 20 },
  { x: 0, y: 21, width: 65, height: 20 },
];
/** 28 pins, between the two rows of holes at 4 and 15. */
const CHIP: Box = { x: 9, y: 6, width: 14, height: 7 };
const along = (path: readonly Spot[]) => samples(path, 200);

/** Eight wires from holes above the chip to a row below it, in another order. */
const over: readonly Run[] = [3, 6, 0, 5, 1, 7, 2, 4].map((to, i) => ({ id: `W${i + 1}`, from: [10 + i, 4], to: [10 + 2 * to, 25] }));

test('eight wires from above a chip to below it leave its print free', () => {
  const ways = layWires(over, [{ box: CHIP, weight: 25 }], BOARDS);
  const across = over.filter(({ id }) => along(ways.get(id)?.path ?? []).some((spot) => holds(CHIP, spot)));
  expect(ways.size).toBe(8);
  expect(across.map((r) => r.id)).toEqual([]);
});

test('each of them keeps its ends', () => {
  const ways = layWires(over, [{ box: CHIP, weight: 25 }], BOARDS);
  for (const { id, from, to } of over) {
    const path = ways.get(id)?.path ?? [];
    expect([path[0], path.at(-1)]).toEqual([from, to]);
  }
});

test('no two of them run along one lane', () => {
  const ways = layWires(over, [{ box: CHIP, weight: 25 }], BOARDS);
  // the middle of the chip's height, where every one passes an end of it: closer than this they would be one to the eye
  const at = over.map(({ id }) => along(ways.get(id)?.path ?? []).find(([, y]) => y >= 9.5)?.[0] ?? 0).sort((a, b) => a - b);
  const gaps = at.slice(1).map((x, i) => x - (at[i] ?? 0));
  expect(Math.min(...gaps)).toBeGreaterThan(0.45);
});

test('with nothing in its way a wire is straight, and one that lay there before stays as it was', () => {
  const [first, second]: readonly [Run, Run] = [
    { id: 'W1', from: [30, 4], to: [30, 15] },
    { id: 'W2', from: [40, 4], to: [42, 8] },
  ];
  const before = layWires([first], [{ box: CHIP, weight: 25 }], BOARDS);
  expect(before.get('W1')?.path).toHaveLength(2);
  const after = layWires([first, second], [{ box: CHIP, weight: 25 }], BOARDS, before);
  expect(after.get('W1')).toBe(before.get('W1'));
  expect(after.get('W2')?.path).toHaveLength(2);
});

test('a long wire does not run slantwise, even over nothing: it has square corners', () => {
  const path = layWires([{ id: 'W1', from: [30, 4], to: [45, 17] }], [], BOARDS).get('W1')?.path ?? [];
  expect(path.length).toBeGreaterThan(2);
});
