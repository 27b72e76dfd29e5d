/**
 * The dip of a chip's supply when its output charges a capacitor through supply and wires with resistance, with and without 100 nF at the chip, against a
 * general ODE library (odex 2.0.4) on the same circuit, its equations written here.
 */
import { describe, expect, test } from 'vitest';
import type { Channel } from '../../sim-core/devices/device-models.ts';
import { CONTACT, FLYING, WIRE } from '../../sim-core/run/circuit/interconnect.ts';
import { start } from '../support/bench.ts';
import { byOdex, zeroOf } from '../support/stepping.ts';

/** Inverter 1 drives 1 nF; a button pulls its input down; the other inputs stand at the supply. */
const bench = (more: string) => `
  wiring real
  board-30 B1
  bench-supply PS1 with ohms 1
  switch PS1 set 1
  schmitt-inverter U1 at e10
  wire P1 red from PS1.+ to g10
  wire P2 black from PS1.- to a16
  wire L1 from h10 to j11
  wire L2 from i11 to j13
  wire L3 from i13 to j15
  wire L4 from i15 to a14
  wire L5 from b14 to a12
  resistor R1 10k from i10 to a10
  push-button SB1 at e20
  wire L6 from b10 to a20
  wire L7 from a22 to d16
  capacitor C1 1n from a11 to b16
  ${more}`;
const DECOUPLED = 'capacitor C2 100n from j10 to c16';

/** Our own law of an output: g·u/√(1 + (u/bend)²) and 10 µS beside it (devices/laws.ts). */
const driven = (u: number, c: Channel): number => (c.g * u) / Math.sqrt(1 + (u / c.bend) ** 2) + 1e-5 * u;

/** HC (parts/schmitt-inverter.ts), from memory [s]. */
const DELAY = 12e-9;

/** u: supply pin against ground pin, w: the load; C across u are the decoupling and five input pins. */
function byHand(farads: number) {
  const sim = start(bench(''), { bounce: false });
  const { spec } = sim.circuit.chips[0]!;
  const high = spec.drive.typical.high;
  const path = 1 + 2 * (FLYING * WIRE + CONTACT);
  const across = farads + 5 * spec.input.capacitance;
  const load = 1e-9 + spec.released.capacitance;
  const drain = spec.supplyCurrent.typical.resting / 5;
  const pressed = drain + 1 / 10_000.1;
  // at rest with the button pressed, the load empty and, later, full
  const rest = 5 / (1 + path * pressed);
  // the pull-up's current begins with the press, the output's a delay later
  const [begin = []] = byOdex(([u = 0]) => [((5 - u) / path - u * pressed) / across], [5 / (1 + path * drain)], [DELAY]);
  const from = [begin[0]!, 0, 0];
  const rate = ([u = 0, w = 0]: readonly number[]) => {
    const i = driven(u - w, high);
    return [((5 - u) / path - i - u * pressed) / across, i / load, rest - u];
  };
  const rise = (t: number) => rate(byOdex(rate, from, [t])[0]!)[0]!;
  // the dip is deepest where u stands still: it falls before, and rises after
  const deepest = zeroOf((t) => -rise(t), 1e-12, 300e-9);
  const low = byOdex(rate, from, [deepest])[0]![0]!;
  const area = byOdex(rate, from, [5e-6])[0]![2]!;
  return { low, volts: rest - low, seconds: area / (rest - low) };
}

/** The dip after the button has been pressed. */
function simulated(more: string) {
  const sim = start(bench(more), { bounce: false });
  sim.act({ do: 'press', part: 'SB1' });
  const dip = sim.readings().chips[0]?.dip;
  if (!dip) throw new Error('no dip');
  return dip;
}

describe('the supply of a chip whose output charges 1 nF', () => {
  for (const [says, more, farads] of [
    ['without a capacitor beside it', '', 0],
    ['with 100 nF beside it', DECOUPLED, 100e-9],
  ] as const)
    test(`dips as a general ODE library says, ${says}`, () => {
      const [ours, theirs] = [simulated(more), byHand(farads)];
      expect(Math.abs(ours.low / theirs.low - 1)).toBeLessThan(1e-5);
      expect(Math.abs(ours.volts / theirs.volts - 1)).toBeLessThan(1e-4);
      expect(Math.abs(ours.seconds / theirs.seconds - 1)).toBeLessThan(5e-3);
    });

  test('dips less, with 100 nF beside it', () => {
    const [bare, decoupled] = [simulated(''), simulated(DECOUPLED)];
    expect(decoupled.volts).toBeLessThan(0.6 * bare.volts);
    // and lasts longer: what the capacitor has given has to come back through the wires
    expect(decoupled.seconds).toBeGreaterThan(1.5 * bare.seconds);
  });

  test('reads no dip where wiring is ideal', () => {
    const sim = start(bench('').replace('wiring real', ''), { bounce: false });
    sim.act({ do: 'press', part: 'SB1' });
    expect(sim.readings().chips[0]?.dip).toBeUndefined();
  });
});
