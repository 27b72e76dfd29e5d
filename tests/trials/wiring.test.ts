/** Wiring that can be followed: of what the builder makes, beside what it made before it placed and tidied; and of any bench that is tidied. */
import fc from 'fast-check';
import { describe, expect } from 'vitest';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { dryRun, tidyWiring, wiringFigures } from '../../sim-core/index.ts';
import { circuitKey } from '../../sim-core/run/circuit/circuit-key.ts';
import { aWish, bad, built } from '../support/any-build.ts';
import { randomBench } from '../support/random-bench.ts';
import { scattered } from '../support/scattered.ts';
import { type Result, trial } from '../support/trial.ts';
import { WIRING_CASES } from '../support/wiring-cases.ts';

const sum = (results: readonly Result[], figure: string) => results.reduce((all, r) => all + Number(r[figure]), 0);

/**
 * The same 200 requests as the builder of commit 954d2cb answered them, with every wire a straight line; measured once, all benches of a group together.
 * longest: of any.
 */
const BEFORE = {
  loaded: { benches: 100, wires: 6977, length: 62_521, longest: 38.83, crossings: 5507, near: 9444, over: 514 },
  'by hand': { benches: 100, wires: 7824, length: 93_577, longest: 44.94, crossings: 12_347, near: 12_054, over: 1268 },
  digits: { benches: 22, wires: 1690 },
} as const;

/** The requests in turn, by seed from 1 on: a loaded one, one written by hand. */
const CASES = WIRING_CASES.loaded.flatMap((wish, i) => [
  { group: 'loaded', wish },
  { group: 'by hand', wish: WIRING_CASES['by hand'][i] ?? wish },
]);

describe('a build', () => {
  trial(
    'is proven, finds nothing new, and its wiring crosses a sixth as often as before, comes near another wire an eighth as often, and is a tenth shorter',
    {
      cases: fc.constant(undefined),
      sample: 6,
      full: CASES.length,
      together(results) {
        const of = (group: string) => results.filter((r) => String(r.kind).startsWith(group));
        const share = (figure: 'crossings' | 'near' | 'over' | 'length') => {
          const before = (['loaded', 'by hand'] as const).reduce(
            (all, g) => all + (BEFORE[g][figure] / BEFORE[g].benches) * of(g).length,
            0,
          );
          return sum(results, figure) / before;
        };
        const longest = (group: string) => Math.max(0, ...of(group).map((r) => Number(r.longest)));
        const digits = results.filter((r) => r.kind === 'loaded digit');
        console.log({
          crossings: share('crossings'),
          near: share('near'),
          over: share('over'),
          length: share('length'),
          longest: [longest('loaded') / BEFORE.loaded.longest, longest('by hand') / BEFORE['by hand'].longest],
          'wires of digits': sum(digits, 'wires') / digits.length / (BEFORE.digits.wires / BEFORE.digits.benches),
        });
        expect(share('crossings')).toBeLessThan(1 / 6);
        expect(share('near')).toBeLessThan(1 / 8);
        expect(share('length')).toBeLessThan(0.9);
      },
    },
    (_, seed) => {
      const { group, wish } = CASES[(seed - 1) % CASES.length]!;
      const plan = built(wish);
      const figures = wiringFigures(plan);
      if (!figures.ok) throw new Error(figures.failure.says);
      expect(bad(plan)).toEqual([]);
      const found = dryRun(plan);
      expect(found.ok && found.value.filter((f) => f.code === 'chip/no-decoupling')).toEqual([]);
      return { kind: `${group} ${wish.show}`, ...figures.value };
    },
  );
});

/** What tidying a bench does; throws where the circuit is not the same. */
function tidied(kind: string, plan: Plan, seed: number): Result {
  const tidy = tidyWiring(plan, { tries: 150, seeds: [seed] });
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

describe('tidied wiring', () => {
  trial(
    'of demonstrations and of builds that were wired without care crosses less than half as often, comes near another wire less than half as often, and is no longer',
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
    ({ kind, plan }, seed) => tidied(kind, scattered(plan, seed), seed),
  );

  trial('of whatever stands on a bench is the same circuit', { cases: randomBench(1, 60), sample: 20, full: 2000 }, (plan, seed) =>
    tidied('any', plan, seed),
  );
});
