/** Supplies behind their resistance: open, loaded and shorted, against Ohm's law. */
import { describe, expect, test } from 'vitest';
import { start } from '../support/bench.ts';

const loaded = (kind: string, ohms: number, more = '') =>
  start(
    `board-63 B1\n${kind} PS1 ${more}\nswitch PS1 set 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a9\nresistor R1 ${ohms} from b1 to b9`,
  ).readings().supplies[0]!;

describe.each([
  // resistance of the cable, and of three alkaline cells: the parts' own figures, from memory
  ['usb-supply', 5, 0.4, 0.5],
  ['battery', 4.5, 0.45, 5],
  ['bench-supply', 5, 0.1, 0.5],
] as const)('%s', (kind, volts, inside, most) => {
  test.each([12, 22, 100, 1e3])('gives V·R/(R + r) to %d Ω', (ohms) => {
    const seen = loaded(kind, ohms);
    const amps = volts / (ohms + inside);
    expect(Math.abs(seen.amps / amps - 1)).toBeLessThan(1e-8);
    expect(Math.abs(seen.volts / (amps * ohms) - 1)).toBeLessThan(1e-8);
  });
  test('into a short it gives its most, or what its resistance lets through', () => {
    const { amps } = loaded(kind, 0.1);
    expect(Math.abs(amps / Math.min(most, volts / (inside + 0.1)) - 1)).toBeLessThan(0.02);
  });
});

test('a supply whose resistance keeps it below its limit keeps to Ohm’s law however high the limit is set', () => {
  const { amps } = loaded('bench-supply', 1e3, 'with ohms 100, amps 10');
  expect(Math.abs(amps / (5 / 1100) - 1)).toBeLessThan(1e-8);
});
