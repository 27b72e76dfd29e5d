/** An LED behind its resistor against the closed form of Banwell & Jayakumar 2000 (Electronics Letters 36(4)), and the omega function against its definition. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { wrightOmega } from '../../sim-core/devices/wright-omega.ts';
import { junctionFor } from '../../sim-core/parts/figures/junctions.ts';
import { start } from '../support/bench.ts';

/**
 * Current [A] through 330 Ω + LED at an ideal supply. Source: SOURCES.md, "Reference values", by SciPy 1.17 lambertw, checked there against
 * 40-digit Newton to 3.1e-15.
 */
const REFERENCE: Record<string, readonly [red: number, green: number, blue: number]> = {
  '1.5': [8.573688007895697e-6, 7.065377238449039e-7, 8.801448726203961e-12],
  '2.0': [8.064953449807317e-4, 4.158935967024977e-4, 9.183691174303742e-9],
  '2.5': [2.152472888943859e-3, 1.670118681491094e-3, 9.17661348860276e-6],
  '3.3': [4.436415246407473e-3, 3.908055203936426e-3, 1.312078236069828e-3],
  '4.5': [7.939686047007628e-3, 7.372703719439251e-3, 4.577122217758733e-3],
  '5.0': [9.410544515148994e-3, 8.830447560383156e-3, 5.990762470141047e-3],
};

describe('an LED behind 330 Ω', () => {
  for (const [volts, currents] of Object.entries(REFERENCE))
    for (const [i, colour] of (['red', 'green', 'blue'] as const).entries())
      test(`${colour} at ${volts} V takes what the closed form says, to 1e-6`, () => {
        // the supply's own resistance is part of the 330 Ω
        const sim = start(`
          board-30 B1
          bench-supply PS1 ${volts} with ohms 1m
          switch PS1 set 1
          wire W1 red from PS1.+ to a1
          wire W2 black from PS1.- to a9
          resistor R1 329.999 from b1 to b5
          led LED1 ${colour} from c5 to c9`);
        const led = sim.readings().leds[0]!;
        // one pA: what the air leaks (1e-12 S) is not in the closed form
        expect(Math.abs(led.amps - currents[i]!)).toBeLessThan(1e-6 * currents[i]! + 5e-12);
      });

  test('the fitted saturation currents are those of the reference', () => {
    expect(junctionFor('red').is / 1.904346883358115e-18).toBeCloseTo(1, 9);
    expect(junctionFor('green').is / 2.1176125928637007e-18).toBeCloseTo(1, 9);
    expect(junctionFor('blue').is / 7.746550626110334e-21).toBeCloseTo(1, 9);
  });
});

describe("Wright's omega", () => {
  test('is the omega constant at 0 and solves y + ln y = x elsewhere', () => {
    // 0.56714329040978387…: the omega constant, from memory (OEIS A030178)
    expect(wrightOmega(0)).toBeCloseTo(0.5671432904097838, 15);
    fc.assert(
      fc.property(fc.double({ min: -690, max: 1e6, noNaN: true }), (x) => {
        const y = wrightOmega(x);
        expect(Math.abs(y + Math.log(y) - x)).toBeLessThan(4e-15 * (1 + Math.abs(x)));
      }),
      { numRuns: 2000 },
    );
  });
});
