/** How deep and how long a supply dips between two rests, from looks at it: the parabola through the deepest look, the area below the rest. */
import { describe, expect, test } from 'vitest';
import { GROUND } from '../../sim-core/devices/network.ts';
import { SupplyDroops } from '../../sim-core/run/readout/supply-droop.ts';

type Chips = ConstructorParameters<typeof SupplyDroops>[0];
const chip = (supply: number, ground: number = GROUND) => ({ supply: { node: supply }, ground: { node: ground } });

/** Chips that rest at 5 V, and looks at them: time moved [ns], depth of each [V]; the last one is at rest again. */
function looked(looks: readonly (readonly [moved: number, ...depths: number[]])[], end = 5) {
  const n = (looks[0]?.length ?? 1) - 1;
  const droops = new SupplyDroops(Array.from({ length: n }, (_, i) => chip(i)) as unknown as Chips);
  const at = (volts: readonly number[]) => Float64Array.from([...volts, 0]);
  const full = Array.from({ length: n }, () => 5);
  droops.look(at(full), at(full), 0, true);
  for (const [moved, ...depths] of looks) droops.look(at(depths.map((d) => end - d)), at(depths.map(() => end)), moved * 1e-9, false);
  return droops;
}

describe('a dip', () => {
  test('is as deep as the parabola through the deepest look and its neighbours, and as long as its area over its depth', () => {
    // 1 − (t − 2)²/4 at 0.5, 1.5, 2.9 and 4 ns
    const depth = (t: number) => 1 - (t - 2) ** 2 / 4;
    const [dip] = looked([
      [0.5, depth(0.5)],
      [1, depth(1.5)],
      [1.4, depth(2.9)],
      [1.1, depth(4)],
    ]).deepest;
    expect(dip!.volts).toBeCloseTo(1, 9);
    expect(dip!.low).toBeCloseTo(4, 9);
    const area = (depth(0.5) + depth(1.5)) / 2 + ((depth(1.5) + depth(2.9)) / 2) * 1.4 + ((depth(2.9) + depth(4)) / 2) * 1.1;
    expect(dip!.seconds / (area * 1e-9)).toBeCloseTo(1, 9);
  });

  test('that begins with a jump is as deep as the jump, and a slope is as deep as its end', () => {
    const jump = looked([
      [0, 0],
      [0, 0.5],
      [1, 0.3],
      [1, 0.2],
    ]);
    expect(jump.deepest[0]!.volts).toBe(0.5);
    const slope = looked([
      [1, 0.1],
      [1, 0.2],
      [1, 0.3],
    ]);
    expect(slope.deepest[0]!.volts).toBeCloseTo(0.3, 12);
  });

  test('of less than a millivolt is none, and each chip has its own', () => {
    const { deepest } = looked([
      [1, 0.9e-3, 0.4, 0],
      [1, 0.9e-3, 0.2, 0.1],
    ]);
    expect(deepest.map((d) => d && Math.round(d.volts * 1e6) / 1e6)).toEqual([undefined, 0.4, 0.1]);
  });

  test('is measured from the lower of where the supply stood and where it is heading', () => {
    expect(looked([[1, 0.5]], 4).deepest[0]).toMatchObject({ low: 3.5, volts: 0.5 });
    expect(looked([[1, 1.5]], 6).deepest[0]).toMatchObject({ low: 4.5, volts: 0.5 });
  });

  test('is forgotten when an act begins; of two between rests the deeper is kept', () => {
    const droops = looked([[1, 0.3]]);
    const at = (volts: number) => Float64Array.of(volts, 0);
    droops.look(at(5), at(5), 1e-9, true);
    droops.look(at(4.8), at(5), 1e-9, false);
    expect(droops.deepest[0]!.volts).toBeCloseTo(0.3, 12);
    droops.look(at(4.4), at(5), 1e-9, false);
    expect(droops.deepest[0]!.volts).toBeCloseTo(0.6, 12);
    droops.clear();
    expect(droops.deepest).toEqual([undefined]);
    droops.look(at(4.9), at(5), 1e-9, false);
    expect(droops.deepest[0]!.volts).toBeCloseTo(0.1, 12);
  });

  test('is seen between the chip’s own supply and ground pins', () => {
    const droops = new SupplyDroops([chip(0, 1)] as unknown as Chips);
    const at = (supply: number, ground: number) => Float64Array.of(supply, ground, 0);
    droops.look(at(5, 0), at(5, 0), 0, true);
    droops.look(at(4.9, 0.3), at(5, 0), 1e-9, false);
    expect(droops.deepest[0]!.volts).toBeCloseTo(0.4, 12);
  });
});
