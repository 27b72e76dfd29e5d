/** Specimens that differ from what the plan and their kinds say: the same bench, other parts. */
import { describe, expect, test } from 'vitest';
import { type Options, simulate } from '../../sim-core/index.ts';
import type { PartOverride } from '../../sim-core/run/circuit/part-overrides.ts';
import { LED_ON_D0, MEMORY, start } from '../support/bench.ts';

/** The memory reads FF into LED D1. */
const BENCH = `${MEMORY}${LED_ON_D0}
  L1A wire a18 -a17 black
  L2A wire a19 -a18 black
  L3A wire i16 -j20 black
  L4A wire i15 +j20 red`;
const plan = start(BENCH).plan();
const led = (options: Partial<Options>) => {
  const made = simulate(plan, { still: true, ...options });
  if (!made.ok) throw new Error(made.failure.says);
  return made.value.readings().leds[0]!;
};
const as = (part: string, specimen: PartOverride) => led({ overrides: new Map([[part, specimen]]) });

describe('a specimen', () => {
  test('with the guaranteed drive is what the guaranteed curve gives, with the typical one what the typical gives, to 1e-9', () => {
    expect(as('U1', { drive: 0 }).amps / led({ drive: 'guaranteed' }).amps).toBeCloseTo(1, 9);
    expect(as('U1', { drive: 1 }).amps / led({ drive: 'typical' }).amps).toBeCloseTo(1, 9);
    const between = as('U1', { drive: 0.5 }).amps;
    expect(between).toBeGreaterThan(as('U1', { drive: 0 }).amps);
    expect(between).toBeLessThan(as('U1', { drive: 1 }).amps);
  });

  test('of another value is the bench with that value in the plan', () => {
    const other = { ...plan, parts: plan.parts.map((p) => (p.id === 'R1' ? { ...p, params: { ohms: 470 } } : p)) };
    const made = simulate(other, { still: true });
    expect(made.ok && made.value.readings().leds[0]!.amps).toBe(as('R1', { params: { ohms: 470 } }).amps);
  });

  test('of an LED that needs 0.3 V more takes the current of a supply that gives 0.3 V less', () => {
    const shifted = start(
      `B1 board-30\nPS1 bench-supply ohms=0.001\nPS1 hands 1\nW1 wire PS1.+ a1\nW2 wire PS1.- a9\nR1 resistor b1 b5\nD1 led c5 c9`,
      {
        overrides: new Map([['D1', { forward: 0.3 }]]),
      },
    ).readings().leds[0]!;
    const lower = start(
      `B1 board-30\nPS1 bench-supply ohms=0.001 volts=4.7\nPS1 hands 1\nW1 wire PS1.+ a1\nW2 wire PS1.- a9\nR1 resistor b1 b5\nD1 led c5 c9`,
    ).readings().leds[0]!;
    expect(shifted.amps / lower.amps).toBeCloseTo(1, 8);
  });

  test('whose inputs change sides at one voltage is never undefined there', () => {
    /** 1.5 V on /OE: between the guaranteed levels */
    const halfway = `${BENCH.replace('L3A wire i16 -j20 black', 'RH resistor i16 +j16 ohms=700\nRL resistor j16 -j21 ohms=300')}`;
    const level = (specimen?: PartOverride) =>
      start(halfway, specimen ? { overrides: new Map([['U1', specimen]]) } : {})
        .readings()
        .chips[0]!.pins.find((p) => p.pin === '20')!.level;
    expect(level()).toBe('X');
    expect(level({ threshold: 0 })).toBe('H');
    expect(level({ threshold: 1 })).toBe('L');
  });

  test('of a Darlington array between its curves keeps more than the typical and less than the guaranteed voltage', () => {
    const left = (drive?: number) =>
      start(
        `B1 board-63\nPS1 bench-supply ohms=0.001\nPS1 hands 1\nU1 darlington-array-8 e20\nWG wire a28 -a2\nWM wire PS1.- -a1\nWP wire PS1.+ +j1
        WI wire a20 +a1\nWR wire +a2 +j2\nR1 resistor j20 +j3 ohms=47`,
        drive === undefined ? {} : { overrides: new Map([['U1', { drive }]]) },
      )
        .readings()
        .chips[0]!.pins.at(-1)!.volts;
    expect(left(1)).toBeCloseTo(left(), 9);
    expect(left(0.5)).toBeGreaterThan(left(1));
    expect(left(0)).toBeGreaterThan(left(0.5));
  });

  test('of a diode that needs 0.1 V more takes the current of a supply that gives 0.1 V less', () => {
    const amps = (volts: number, forward: number) =>
      start(
        `B1 board-30\nPS1 bench-supply ohms=0.001 volts=${volts}\nPS1 hands 1\nW1 wire PS1.+ a1\nW2 wire PS1.- a9\nR1 resistor b1 b5\nD1 diode c5 c9`,
        { overrides: new Map([['D1', { forward }]]) },
      ).readings().supplies[0]!.amps;
    expect(amps(5, 0.1) / amps(4.9, 0)).toBeCloseTo(1, 8);
  });

  test('leaves the plan as it is', () => {
    const made = simulate(plan, { overrides: new Map([['R1', { params: { ohms: 1 } }]]) });
    expect(made.ok && made.value.plan()).toEqual(plan);
  });
});
