/** How the single LEDs of a build stand: a row, a cell of two by three, a ring; readable as that, apart from each other, and proven like any build. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { type BuildRequest, buildPlan } from '../../sim-core/index.ts';
import { ledsAt } from '../support/leds-at.ts';

describe('LEDs of a build', () => {
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

  test('take wires from their own side of the buffer, all but two: few cross the trench under the LEDs', () => {
    for (const id of ['braille-tutor', 'wind-vane']) {
      const plan = demoPlan(id)!;
      const leds = ledsAt(plan).map(([x]) => x);
      const first = Math.min(...leds) - 2;
      const sides = plan.wires
        .filter((l) => Number(/\d+$/.exec(l.to)?.[0]) > first && /^(B1:)?[a-j]\d+$/.test(l.to))
        .map((l) => [l.from, l.to].map((p) => (p.replace('B1:', '') < 'f' ? 'lower' : 'upper')));
      expect(sides.length).toBe(plan.wanted!.outputs.length);
      // which channel is whose follows from the memory’s data pins too: what all wires cross together is least
      expect(sides.filter(([from, to]) => from !== to).length).toBeLessThanOrEqual(2);
    }
  });

  test.each<[Partial<BuildRequest>, RegExp]>([
    [{ arrangement: 'cell' }, /^A cell has 6 LEDs, and the table has 2 outputs\./],
    [{ arrangement: 'ring' }, /^A ring has 8 LEDs, and the table has 2 outputs\./],
    [{ arrangement: 'ring', show: 'bar' }, /^Only single LEDs can be arranged in a ring\./],
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
