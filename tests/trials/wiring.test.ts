/** Wiring tidied, of any bench: the same circuit, in holes that are free, and easier to follow; how much easier is printed. */
import fc from 'fast-check';
import { describe, expect } from 'vitest';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { tidyWiring } from '../../sim-core/index.ts';
import { circuitKey } from '../../sim-core/run/circuit/circuit-key.ts';
import { aWish, built } from '../support/any-build.ts';
import { randomBench } from '../support/random-bench.ts';
import { type Result, trial } from '../support/trial.ts';

/** What tidying a bench does; throws where the circuit is not the same. */
function tidied(kind: string, plan: Plan, seed: number): Result {
  const tidy = tidyWiring(plan, { tries: 15_000, seeds: [seed] });
  if (!tidy.ok) throw new Error(tidy.failure.says);
  // by which nothing is in a hole that was taken, too
  expect(circuitKey(tidy.value.plan)).toEqual(circuitKey(plan));
  const { before, after } = tidy.value;
  return {
    kind,
    wires: after.wires,
    crossed: before.crossings,
    'crossed now': after.crossings,
    near: before.near,
    'near now': after.near,
    over: before.over,
    'over now': after.over,
    length: before.length,
    'length now': after.length,
  };
}

const sum = (results: readonly Result[], figure: string) => results.reduce((all, r) => all + Number(r[figure]), 0);

describe('tidied wiring', () => {
  trial(
    'of the demonstrations and of builds crosses less than half as often, comes near another wire less than half as often, and is no longer',
    {
      cases: fc.oneof(
        fc.record({ kind: fc.constant('demonstration'), plan: fc.constantFrom(...DEMO_PLANS.map((d) => d.plan)) }),
        aWish([2, 8], false, ['eeprom-2kx8', 'eeprom-32kx8']).map((wish) => ({ kind: 'loaded', plan: built(wish) })),
        aWish([2, 6], true, ['eeprom-2kx8', 'static-ram-2kx8']).map((wish) => ({ kind: 'by hand', plan: built(wish) })),
      ),
      sample: 4,
      full: 200,
      together(results) {
        expect(sum(results, 'crossed now')).toBeLessThan(0.5 * sum(results, 'crossed'));
        expect(sum(results, 'near now')).toBeLessThan(0.5 * sum(results, 'near'));
        expect(sum(results, 'length now')).toBeLessThan(1.02 * sum(results, 'length'));
      },
    },
    ({ kind, plan }, seed) => tidied(kind, plan, seed),
  );

  trial('of whatever stands on a bench is the same circuit', { cases: randomBench(1, 60), sample: 20, full: 2000 }, (plan, seed) =>
    tidied('any', plan, seed),
  );
});
