/** Single LEDs of any build: apart from each other, proven like any build, and without a fault. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { type Arrangement, type BuildRequest, proveTable } from '../../sim-core/index.ts';
import { bad, built } from '../support/any-build.ts';
import { ledsAt } from '../support/leds-at.ts';
import { trial } from '../support/trial.ts';

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

trial(
  'LEDs of any build keep apart, are proven in every row and do no harm, whatever drives them',
  { cases: anyWish, sample: 3, full: 1000 },
  (wish) => {
    const plan = built(wish);
    const at = ledsAt(plan);
    for (const [i, [x, y]] of at.entries())
      for (const [u, v] of at.slice(i + 1)) expect(Math.hypot(u - x, v - y)).toBeGreaterThanOrEqual(3);
    const images = wish.byHand ? built({ ...wish, byHand: false }).memories : plan.memories;
    expect(proveTable({ ...plan, memories: images })).toMatchObject({ ok: true, value: { rows: 8, right: 8, differences: [] } });
    expect(bad(plan)).toEqual([]);
    return { kind: `${wish.arrangement}` };
  },
);
