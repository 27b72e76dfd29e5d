/** A part in the hand is turned and flipped before it is set down. */
// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import type { DrawnBench } from '../support/drawn-bench.ts';
import { withLed as opened } from '../support/led-bench.ts';

describe('placing', () => {
  const placed = async (prepare: (b: DrawnBench) => void) => {
    const bench = await opened();
    bench.builder.hold({ kind: 'resistor' });
    prepare(bench);
    bench.click('c30');
    const { at, to } = bench.plan.parts.at(-1)!;
    const [a, b] = [bench.spotOf(at!), bench.spotOf(to!)];
    return { at, to, way: [Math.sign(b[0] - a[0]), Math.sign(b[1] - a[1])] };
  };

  test('a part is turned by quarters, and flipped, before it is set down', async () => {
    expect(await placed((b) => b.builder.turnToPlace(1))).toMatchObject({ at: 'c30', way: [0, 1] });
    expect(
      await placed((b) => {
        b.builder.turnToPlace(1);
        b.builder.turnToPlace(1);
      }),
    ).toMatchObject({ at: 'c30', way: [-1, 0] });
    const [usual, flipped] = [await placed(() => {}), await placed((b) => b.builder.flipToPlace())];
    expect([flipped.at, flipped.to]).toEqual([usual.to, usual.at]);
  });

  test('another part begins unturned', async () => {
    const bench = await opened();
    bench.builder.hold({ kind: 'led' });
    bench.builder.turnToPlace(1);
    bench.builder.hold({ kind: 'resistor' });
    expect(bench.builder.lies).toEqual({});
  });
});
