/** One switch for the simulation: outputs as they typically are, or no stronger than their sheets guarantee. */
import { expect, test } from 'vitest';
import { composeGreenhouse } from '../../sim-core/demos/greenhouse.ts';
import { LED_ON_D0, MEMORY, planOf, start } from '../support/bench.ts';

const DIRECT = planOf(`${MEMORY}${LED_ON_D0}
  wire A0 black from a19 to -a18
  wire A1 black from a18 to -a17
  wire WE red from i15 to +j14
  wire OE black from i16 to -j16`);
const BUFFERED = { ...composeGreenhouse(), switches: { PS1: [true] } };

const lit = (plan: typeof DIRECT, outputs: 'guaranteed' | undefined): number =>
  start({ ...plan, ...(outputs ? { outputs } : {}) })
    .readings()
    .leds.filter((l) => l.brightness === 'lit').length;

test('an LED that a typical memory lights is dim or dark where only the guaranteed current is given', () => {
  expect(lit(DIRECT, undefined)).toBe(1);
  expect(lit(DIRECT, 'guaranteed')).toBe(0);
});
test('an LED behind a buffer is lit with either', () => {
  expect(lit(BUFFERED, undefined)).toBe(1);
  expect(lit(BUFFERED, 'guaranteed')).toBe(1);
});
