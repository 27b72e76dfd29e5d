/** How the single LEDs of a build stand: a row, a cell of two by three, a ring; readable as that, apart from each other, and proven like any build. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { holeSpot, readHole } from '../../sim-core/board/tie-points.ts';
import { type Arrangement, type BuildRequest, buildPlan, dryRun, plain, proveTable, sayFinding } from '../../sim-core/index.ts';

/** Middles of the LEDs, in order of the table's outputs [pitch]; y runs down. */
function ledsAt(plan: Plan): Array<readonly [number, number]> {
  const spot = (name: string): readonly [number, number] => {
    const hole = readHole(name, plan.boards);
    if ('problem' in hole) throw new Error(hole.problem);
    return holeSpot(hole);
  };
  return plan.wanted!.outputs.map((o) => {
    const led = plan.parts.find((p) => p.id === o.led)!;
    const [[ax, ay], [bx, by]] = [spot(led.at!), spot(led.to!)];
    return [(ax + bx) / 2, (ay + by) / 2];
  });
}

const LEDS = { row: 7, cell: 6, ring: 8 } as const;

const anyWish = fc
  .record({
    arrangement: fc.constantFrom<Arrangement>('row', 'cell', 'ring'),
    byHand: fc.boolean(),
    buffered: fc.boolean(),
    activeLow: fc.boolean(),
    seed: fc.integer(),
  })
  .map(({ arrangement, byHand, buffered, activeLow, seed }): BuildRequest => {
    const leds = LEDS[arrangement];
    return {
      title: 'Any table',
      inputs: ['a', 'b', 'c'],
      outputs: Array.from({ length: leds }, (_, i) => ({ name: `out ${i}`, ...(activeLow ? { activeLow } : {}) })),
      rows: Array.from({ length: 8 }, (_, r) => (Math.imul(r + 1, 2654435761 ^ seed) >>> 9) & (2 ** leds - 1)),
      memory: 'eeprom-2kx8',
      byHand: byHand && (buffered || !activeLow),
      show: 'leds',
      arrangement,
      buffered,
      amps: 4e-3,
    };
  });

function built(wish: BuildRequest): Plan {
  const plan = buildPlan(wish);
  if (!plan.ok) throw new Error(plan.failure.says);
  return plan.value;
}

describe('LEDs of a build', { timeout: 60_000 }, () => {
  test('stand as a Braille cell does: dots 1 2 3 down the left, 4 5 6 down the right, level with each other', () => {
    const [one, two, three, four, five, six] = ledsAt(demoPlan('braille-tutor')!) as Array<[number, number]>;
    for (const [a, b] of [
      [one, two],
      [two, three],
      [four, five],
      [five, six],
    ]) {
      expect(a![0]).toBe(b![0]);
      expect(b![1] - a![1]).toBe(3.5);
    }
    for (const [left, right] of [
      [one, four],
      [two, five],
      [three, six],
    ]) {
      expect(left![1]).toBe(right![1]);
      expect(right![0] - left![0]).toBe(4);
    }
  });

  test('stand as a compass rose does: north on top, each next one an eighth of a turn on', () => {
    const leds = ledsAt(demoPlan('wind-vane')!);
    const middle = [0, 1].map((k) => leds.reduce((n, at) => n + at[k as 0 | 1], 0) / leds.length) as [number, number];
    for (const [i, [x, y]] of leds.entries()) {
      const [dx, dy] = [x - middle[0], y - middle[1]];
      const degrees = ((Math.atan2(dx, -dy) * 180) / Math.PI + 360) % 360;
      expect(Math.abs(degrees - 45 * i)).toBeLessThan(5);
      expect(Math.abs(Math.hypot(dx, dy) - 4.75)).toBeLessThan(0.3);
    }
  });

  test('keep apart, are proven in every row and do no harm, whatever drives them', () => {
    fc.assert(
      fc.property(anyWish, (wish) => {
        const plan = built(wish);
        const at = ledsAt(plan);
        for (const [i, [x, y]] of at.entries())
          for (const [u, v] of at.slice(i + 1)) expect(Math.hypot(u - x, v - y)).toBeGreaterThanOrEqual(3);
        const images = wish.byHand ? built({ ...wish, byHand: false }).memories : plan.memories;
        expect(proveTable({ ...plan, memories: images })).toMatchObject({ ok: true, value: { rows: 8, right: 8, differences: [] } });
        const found = dryRun(plan);
        if (!found.ok) throw new Error(found.failure.says);
        const bad = found.value.filter((f) => f.severity === 'damage-risk' || f.severity === 'fault');
        expect(bad.map((f) => plain(sayFinding(f, plan)))).toEqual([]);
      }),
      { numRuns: 10 },
    );
  });

  test('take wires from their own side of the buffer, so that none crosses the trench under the LEDs', () => {
    for (const id of ['braille-tutor', 'wind-vane']) {
      const plan = demoPlan(id)!;
      const leds = ledsAt(plan).map(([x]) => x);
      const first = Math.min(...leds) - 2;
      const sides = plan.wires
        .filter((l) => Number(/\d+$/.exec(l.to)?.[0]) > first && /^(B1:)?[a-j]\d+$/.test(l.to))
        .map((l) => [l.from, l.to].map((p) => (p.replace('B1:', '') < 'f' ? 'lower' : 'upper')));
      expect(sides.length).toBe(plan.wanted!.outputs.length);
      for (const [from, to] of sides) expect(to).toBe(from);
    }
  });

  test.each<[Partial<BuildRequest>, RegExp]>([
    [{ arrangement: 'cell' }, /^A cell has 6 LEDs, and the table has 2 outputs\./],
    [{ arrangement: 'ring' }, /^A ring has 8 LEDs, and the table has 2 outputs\./],
    [{ arrangement: 'ring', show: 'bar' }, /^Only single LEDs can stand in a ring\./],
  ])('%o is refused in one sentence', (some, says) => {
    const wish: BuildRequest = {
      title: 'Two',
      inputs: ['a'],
      outputs: [{ name: 'x' }, { name: 'y' }],
      rows: [1, 2],
      memory: 'eeprom-2kx8',
      byHand: false,
      show: 'leds',
      buffered: true,
      amps: 4e-3,
      ...some,
    };
    const plan = buildPlan(wish);
    expect(plan.ok ? 'built' : plan.failure.says).toMatch(says);
  });
});
