/**
 * Five nonlinear transients by our stepping, at the running bench's own tolerances, against a general ODE library (odex 2.0.4: GBS extrapolation, after
 * the ODEX of Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I, ch. II.9) with right-hand sides written here from the laws' formulas.
 */
import { describe, expect, test } from 'vitest';
import type { Channel, Junction } from '../../sim-core/devices/device-models.ts';
import { type Device, GROUND, Network, PULL_HIGH } from '../../sim-core/devices/network.ts';
import { start } from '../support/bench.ts';
import { byOdex, stepped, zeroOf } from '../support/stepping.ts';

interface Transient {
  readonly says: string;
  readonly network: Network;
  /** every node's voltage at the beginning, where a capacitor holds it */
  readonly x0: readonly number[];
  /** the nodes that are states */
  readonly states: readonly number[];
  rate(y: readonly number[]): number[];
  readonly times: readonly number[];
}

const VT = 0.025692579121085315;
// Is from SOURCES.md, closed forms (red, green, blue by forward voltage at 10 mA)
const RED: Junction = { is: 1.904346883358115e-18, nvt: 2.0 * VT, rs: 4 };
const GREEN: Junction = { is: 2.1176125928637007e-18, nvt: 2.2 * VT, rs: 6 };
const BLUE: Junction = { is: 7.746550626110334e-21, nvt: 2.8 * VT, rs: 10 };

/** Current [A] through a resistor and an LED in series at v: i·(R + Rs) + nVt·ln(1 + i/Is) = v (Shockley's law behind a resistance). */
const throughLed = (v: number, ohms: number, j: Junction): number =>
  v <= 0
    ? -zeroOf((i) => -v - i * (ohms + j.rs) + j.nvt * Math.log1p(-i / j.is), 0, j.is * (1 - 1e-15))
    : zeroOf((i) => v - i * (ohms + j.rs) - j.nvt * Math.log1p(i / j.is), 0, v / ohms);

/** Our own law of an input clamp: nothing to 0.5 V, a parabola over 0.2 V, then 25 Ω (from memory, devices/laws.ts). */
const clamped = (v: number): number => (v <= 0.5 ? 0 : v < 0.7 ? (v - 0.5) ** 2 / (2 * 0.2 * 25) : (v - 0.6) / 25);

/** Our own law of an output: g·u/√(1 + (u/bend)²) and 10 µS beside it. */
const driven = (u: number, c: Channel): number => (c.g * u) / Math.sqrt(1 + (u / c.bend) ** 2) + 1e-5 * u;

const switchOn = (network: Network, ...supplies: readonly Device[]) => {
  network.seal();
  for (const s of supplies) network.switchSupply(s, true);
};

function ledDischarges(): Transient {
  const network = new Network(2);
  network.addCapacitor(0, GROUND, 1e-6);
  network.addConductance(0, 1, 1 / 330);
  network.addJunction(1, GROUND, GREEN);
  network.seal();
  return {
    says: 'a green LED discharges a capacitor',
    network,
    x0: [5, 0],
    states: [0],
    rate: ([v = 0]) => [-throughLed(v, 330, GREEN) / 1e-6],
    times: [1e-5, 1e-4, 3e-4, 1e-3, 4e-3],
  };
}

function twoLeds(): Transient {
  const network = new Network(4);
  network.addCapacitor(0, GROUND, 1e-6);
  network.addCapacitor(1, GROUND, 220e-9);
  network.addConductance(0, 2, 1 / 330);
  network.addJunction(2, 1, RED);
  network.addConductance(1, 3, 1 / 150);
  network.addJunction(3, GROUND, BLUE);
  network.addConductance(0, 1, 1 / 4700);
  network.seal();
  return {
    says: 'two LEDs of different colours between two capacitors',
    network,
    x0: [8, 0, 0, 0],
    states: [0, 1],
    rate: ([v = 0, u = 0]) => {
      const over = throughLed(v - u, 330, RED) + (v - u) / 4700;
      return [-over / 1e-6, (over - throughLed(u, 150, BLUE)) / 220e-9];
    },
    times: [1e-5, 5e-5, 2e-4, 6e-4, 2e-3],
  };
}

function clampLimits(): Transient {
  const network = new Network(3);
  const twelve = network.addSupply(0, GROUND, { volts: 12, ohms: 0.1, amps: 1 });
  const five = network.addSupply(1, GROUND, { volts: 5, ohms: 0.1, amps: 1 });
  network.addConductance(0, 2, 1 / 1000);
  network.addCapacitor(2, GROUND, 10e-9);
  network.addClamp(2, 1);
  network.addClamp(GROUND, 2);
  switchOn(network, twelve, five);
  return {
    says: 'a chip’s input clamp catches a capacitor on its way from −1 V to 12 V',
    network,
    x0: [12, 5, -1],
    states: [2],
    rate: ([v = 0]) => {
      // the 5 V rises by what the clamp puts into it
      const into = zeroOf((i) => clamped(v - 5 - 0.1 * i) - i, 0, 1);
      return [((12 - v) / 1000.1 + clamped(-v) - into) / 10e-9];
    },
    times: [5e-7, 2e-6, 6e-6, 8e-6, 2e-5],
  };
}

function limitedSupply(): Transient {
  const network = new Network(2);
  const supply = network.addSupply(0, GROUND, { volts: 5, ohms: 0.1, amps: 0.5 });
  network.addConductance(0, 1, 1 / 2);
  network.addCapacitor(1, GROUND, 100e-6);
  switchOn(network, supply);
  return { says: 'a supply in its current limit charges a capacitor', network, x0: [5, 0], states: [1], ...limited(100e-6) };
}

/**
 * 5 V behind 0.1 Ω, held at 0.5 A (rising by 0.1 % of it down to a short; the two meet in a parabola within 1 % of the limit: devices/laws.ts), then 2 Ω
 * and a capacitor.
 */
function limited(farads: number): Pick<Transient, 'rate' | 'times'> {
  const corner = 5 - 0.1 * 0.5;
  const bend = 0.01 * 0.5;
  const gives = (u: number): number => {
    const straight = (5 - u) / 0.1;
    const most = 0.5 + (corner - u) * ((1e-3 * 0.5) / corner);
    const under = most - straight;
    return Math.abs(under) < bend ? most - (under + bend) ** 2 / (4 * bend) : Math.min(straight, most);
  };
  return {
    rate: ([v = 0]) => [zeroOf((i) => gives(v + 2 * i) - i, 0, 1) / farads],
    times: [1, 4, 7.8, 8.2, 10].map((t) => t * farads),
  };
}

function outputCharges(): Transient {
  // the typical high side of a byte-wide memory's output (parts/memory/sheet.ts, from memory)
  const channel: Channel = { g: 1 / 120, bend: 2.5 };
  const network = new Network(2);
  const supply = network.addSupply(0, GROUND, { volts: 5, ohms: 0.1, amps: 0.5 });
  network.addCapacitor(1, GROUND, 100e-9);
  const output = network.addOutput(1, GROUND, 0, { low: channel, high: channel });
  switchOn(network, supply);
  network.setPull(output, PULL_HIGH);
  return {
    says: 'an output in saturation charges a capacitor',
    network,
    x0: [5, 0],
    states: [1],
    rate: ([v = 0]) => [zeroOf((i) => driven(5 - 0.1 * i - v, channel) - i, 0, 1) / 100e-9],
    times: [1e-6, 5e-6, 2e-5, 4e-5, 1e-4],
  };
}

describe('nonlinear transients agree with a general ODE library to 1e-5 at every time looked at', () => {
  for (const { says, network, x0, states, rate, times } of [ledDischarges(), twoLeds(), clampLimits(), limitedSupply(), outputCharges()])
    test(says, () => {
      const ours = stepped(network, x0, times);
      const theirs = byOdex(
        rate,
        states.map((k) => x0[k]!),
        times,
      );
      for (const [t, y] of theirs.entries())
        for (const [k, node] of states.entries()) expect(Math.abs(ours.at[t]![node]! / y[k]! - 1)).toBeLessThan(1e-5);
      // the transient is one: the states have really moved
      for (const [k, node] of states.entries()) expect(Math.abs(theirs.at(-1)![k]! - x0[node]!)).toBeGreaterThan(1);
    });

  test('the same of a whole bench: a supply of half an ampere is switched on with 10 µF behind 2 Ω', () => {
    const sim = start(`
      board-30 B1
      bench-supply PS1 with amps 500m, ohms 100m
      wire W1 red from PS1.+ to a1
      wire W2 black from PS1.- to a9
      resistor R1 2 from b1 to b5
      capacitor C1 10u from c5 to c9`);
    const net = sim.circuit.nets.ofStrip.get('B1/5a')!.index;
    const { rate, times } = limited(10e-6);
    sim.begin({ do: 'set', part: 'PS1', pole: 0, closed: true });
    for (const [k, [v]] of byOdex(rate, [0], times).entries()) {
      sim.wait(times[k]! - (times[k - 1] ?? 0));
      expect(Math.abs(sim.readings().nets[net]!.volts / v! - 1)).toBeLessThan(1e-5);
    }
  });
});
