/** Specimens that differ from what the plan and their kinds say: the same bench, other parts. */
import { describe, expect, test } from 'vitest';
import { type Options, simulate } from '../../sim-core/index.ts';
import type { PartOverride } from '../../sim-core/run/circuit/part-overrides.ts';
import { LED_ON_D0, MEMORY, start } from '../support/bench.ts';

/** The memory reads FF into LED1. */
const BENCH = `${MEMORY}${LED_ON_D0}
  wire L1A black from a18 to -a17
  wire L2A black from a19 to -a18
  wire L3A black from i16 to -j20
  wire L4A red from i15 to +j20`;
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
      `board-30 B1\nbench-supply PS1 with ohms 1m\nswitch PS1 set 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a9\nresistor R1 from b1 to b5\nled LED1 from c5 to c9`,
      {
        overrides: new Map([['LED1', { forward: 0.3 }]]),
      },
    ).readings().leds[0]!;
    const lower = start(
      `board-30 B1\nbench-supply PS1 4.7 with ohms 1m\nswitch PS1 set 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a9\nresistor R1 from b1 to b5\nled LED1 from c5 to c9`,
    ).readings().leds[0]!;
    expect(shifted.amps / lower.amps).toBeCloseTo(1, 8);
  });

  test('whose inputs change sides at one voltage is never undefined there', () => {
    /** 1.5 V on /OE: between the guaranteed levels */
    const halfway = `${BENCH.replace('wire L3A black from i16 to -j20', 'resistor RH 700 from i16 to +j16\nresistor RL 300 from j16 to -j21')}`;
    const level = (specimen?: PartOverride) =>
      start(halfway, specimen ? { overrides: new Map([['U1', specimen]]) } : {})
        .readings()
        .chips[0]!.pins.find((p) => p.pin === '20')!.level;
    expect(level()).toBe('X');
    expect(level({ threshold: 0 })).toBe('H');
    expect(level({ threshold: 1 })).toBe('L');
  });

  test('whose inputs are Schmitt inputs keeps the two voltages at which they change sides', () => {
    const marks = (kind: string, options: Partial<Options>) => {
      const { vil, vih } = start(`board-30 B1\n${kind} U1 at e5`, options).circuit.chips[0]!.spec.input;
      return [vil, vih];
    };
    const overrides = new Map([['U1', { threshold: 0.25 }]]);
    expect(marks('schmitt-inverter', { overrides })).toEqual(marks('schmitt-inverter', {}));
    const [vil = 0, vih = 0] = marks('octal-buffer', {});
    const one = vil + (vih - vil) / 4;
    expect(marks('octal-buffer', { overrides })).toEqual([one, one]);
  });

  test('of a Darlington array between its curves keeps more than the typical and less than the guaranteed voltage', () => {
    const left = (drive?: number) =>
      start(
        `board-63 B1\nbench-supply PS1 with ohms 1m\nswitch PS1 set 1\ndarlington-array-8 U1 at e20\nwire WG from a28 to -a2\nwire WM from PS1.- to -a1\nwire WP from PS1.+ to +j1
        wire WI from a20 to +a1\nwire WR from +a2 to +j2\nresistor R1 47 from j20 to +j3`,
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
        `board-30 B1\nbench-supply PS1 ${volts} with ohms 1m\nswitch PS1 set 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a9\nresistor R1 from b1 to b5\ndiode D1 from c5 to c9`,
        { overrides: new Map([['D1', { forward }]]) },
      ).readings().supplies[0]!.amps;
    expect(amps(5, 0.1) / amps(4.9, 0)).toBeCloseTo(1, 8);
  });

  test('leaves the plan as it is', () => {
    const made = simulate(plan, { overrides: new Map([['R1', { params: { ohms: 1 } }]]) });
    expect(made.ok && made.value.plan()).toEqual(plan);
  });
});
