/** Junctions where nothing was fitted: a transistor's base by Ebers and Moll, LEDs at other currents than the 10 mA at which their forward voltage is given. */
import { describe, expect, test } from 'vitest';
import { start } from '../support/bench.ts';

const FED = `
  board-30 B1
  bench-supply PS1 5 with ohms 1m
  switch PS1 set 1
  wire W1 red from PS1.+ to a1
  wire W2 black from PS1.- to a20`;

describe('the base of a transistor whose collector is joined to it', () => {
  /** [V] and [A] behind this resistor */
  const at = (ohms: number) => {
    const sim = start(`${FED}
      resistor R1 ${ohms} from b1 to b11
      npn-transistor Q1 at d10
      wire W3 from a11 to a12
      wire W4 from a10 to b20`);
    const volts = sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/11a')!.index]!.volts;
    return { volts, amps: (5 - volts) / ohms };
  };
  // kT/q·ln 10 = 59.16 mV at 298.15 K with k and q exact since 2019 (SI); J. J. Ebers, J. L. Moll 1954: ideality 1
  test.each([
    [4.4e6, 440e3],
    [440e3, 44e3],
    [44e3, 4.4e3],
  ])('rises by 59.16 mV a decade: from %d Ω to %d Ω', (large, small) => {
    const [a, b] = [at(large), at(small)];
    const decades = Math.log10(b.amps / a.amps);
    expect(decades).toBeGreaterThan(0.9);
    // of 50 mΩ a milliampere makes 50 µV
    expect(Math.abs((b.volts - a.volts) / decades - 59.16e-3)).toBeLessThan(0.06e-3);
  });
  // from memory: 0.6 to 0.7 V at 1 mA
  test('is at 0.6 to 0.7 V with 1 mA', () => {
    expect(at(4.35e3).volts).toBeGreaterThan(0.6);
    expect(at(4.35e3).volts).toBeLessThan(0.7);
  });
});

describe('an LED', () => {
  /** forward voltage [V] at about so much [A] */
  const forward = (colour: string, amps: number) => {
    const sim = start(`${FED.replace('PS1 5', 'PS1 12')}
      resistor R1 ${(12 - 2) / amps} from b1 to b5
      led LED1 ${colour} from c5 to c20`);
    return sim.readings().leds[0]!.volts;
  };
  // typical at 20 mA: bright red 2.0 V, yellow 2.1 V, green 2.2 V (SOURCES.md S40; that its table is for 20 mA from memory); fitted is 10 mA
  test.each([
    ['red', 2.0],
    ['amber', 2.1],
    ['green', 2.2],
  ])('%s keeps %s V at 20 mA, within 2 %', (colour, volts) => {
    expect(Math.abs(forward(colour, 20e-3) / volts - 1)).toBeLessThan(0.02);
  });
  // from memory: an indicator LED keeps 1.55 to 1.7 V at 0.1 mA and 1.65 to 1.8 V at 1 mA where it is red, 2.5 to 2.9 V at 1 mA where it is blue
  test.each([
    ['red', 0.1e-3, 1.55, 1.7],
    ['red', 1e-3, 1.65, 1.8],
    ['green', 1e-3, 1.8, 2.0],
    ['blue', 1e-3, 2.5, 2.9],
  ])('%s at %s A keeps %s to %s V', (colour, amps, least, most) => {
    expect(forward(colour, amps)).toBeGreaterThan(least);
    expect(forward(colour, amps)).toBeLessThan(most);
  });
  // an ideality between 1 and 2 for a pure junction, up to 3 where layers add to it: 59 to 180 mV a decade, from memory
  test.each(['red', 'green', 'blue'])('%s rises by 59 to 180 mV a decade', (colour) => {
    const rise = forward(colour, 1e-3) - forward(colour, 0.1e-3);
    expect(rise).toBeGreaterThan(0.059);
    expect(rise).toBeLessThan(0.18);
  });
});
