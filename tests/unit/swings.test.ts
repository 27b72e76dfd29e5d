/** Loops that swing: a bench is found at rest, and what cannot rest begins to move by itself; what can rest in two ways stays undefined. */
import { describe, expect, test } from 'vitest';
import type { Simulation } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { inverters, ring } from '../support/inverters.ts';

const levels = (sim: Simulation, ...pins: string[]) =>
  pins.map((p) => sim.readings().chips[0]?.pins.find(({ pin }) => pin === p)?.level).join('');

/** Mean period at a pin over so many of them, looked at `steps` times in each [s]. */
function period(sim: Simulation, pin: string, about: number, count: number, steps = 400): number {
  const rises: number[] = [];
  let before = levels(sim, pin);
  while (rises.length <= count) {
    expect(sim.wait(about / steps)).toBe(true);
    const now = levels(sim, pin);
    if (before === 'L' && now === 'H') rises.push(sim.now);
    before = now;
    expect(sim.now).toBeLessThan(1e3 * about);
  }
  return ((rises.at(-1) ?? 0) - (rises[0] ?? 0)) / count;
}

describe('a Schmitt inverter with a resistor from output to input and a capacitor to minus', () => {
  test.each(['HC', 'HCT'])('%s: swings with the period that its thresholds and RC give', (family) => {
    const sim = start(inverters(family, 1, 'resistor R1 100k from b10 to b11\ncapacitor C1 10n from a10 to -a9'));
    const { figures } = sim.circuit.chips[0]!.inputs[0]!;
    const supply = sim.readings().chips[0]!.supply;
    const [vil, vih] = [figures.vil, figures.vih].map((v) => (figures.of === 'supply' ? v * supply : v)) as [number, number];
    const closed = 100e3 * 10e-9 * Math.log(((supply - vil) / (supply - vih)) * (vih / vil));
    // the output's own resistance and the pins' capacitance lengthen it by some tenths of a per cent
    const found = period(sim, '2', closed, 4) / closed;
    expect(found).toBeGreaterThan(1);
    expect(found).toBeLessThan(1.004);
    expect(sim.pending).toBe(true);
    expect(sim.readings().restless).toMatchObject([{ chips: ['U1'], resistors: ['R1'], capacitors: ['C1'], meant: true }]);
    expect((sim.readings().restless?.[0]?.period ?? 0) / closed).toBeCloseTo(found, 3);
  });
});

describe('a ring of inverters', () => {
  test.each([1, 3, 5])('of %i swings, each stage taking its delay twice in a period', (n) => {
    const sim = start(ring('HC', n));
    // 12 ns and the nanosecond for which a level has to stand before it is noticed
    const delay = 12e-9;
    expect(period(sim, '2', 2 * n * delay, 4) / (2 * n * delay)).toBeCloseTo(1, 1);
  });
  test.each([2, 4])('of %i holds either of two states: which of them is unknown', (n) => {
    const sim = start(ring('HC', n));
    expect(levels(sim, '1', '2', '3', '4')).toBe('XXXX');
    expect(sim.rest()).toBe(true);
  });
});

test('a ring that is switched on swings, and stops when its supply is switched off', () => {
  const sim = start(ring('HC', 3).replace('switch PS1 set 1', 'switch PS1 set 0'));
  expect(sim.pending).toBe(false);
  sim.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
  expect(levels(sim, '2', '4', '6')).toMatch(/^[LH]{3}$/);
  expect(sim.pending).toBe(true);
  sim.act({ do: 'set', part: 'PS1', pole: 0, closed: false });
  sim.wait(1);
  expect(sim.pending).toBe(false);
});
