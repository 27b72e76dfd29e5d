/** One switch for the simulation: outputs as they typically are, or no stronger than their sheets guarantee. */
import { expect, test } from 'vitest';
import { composeGreenhouse } from '../../sim-core/demos/greenhouse.ts';
import { simulate } from '../../sim-core/index.ts';

const lit = (outputs: 'guaranteed' | undefined): number => {
  const plan = { ...composeGreenhouse(), switches: { PS1: [true] }, ...(outputs ? { outputs } : {}) };
  const made = simulate(plan);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value.readings().leds.filter((l) => l.brightness === 'lit').length;
};

test('an LED that a typical memory lights is dim or dark where only the guaranteed current is given', () => {
  expect(lit(undefined)).toBeGreaterThan(0);
  expect(lit('guaranteed')).toBe(0);
});
