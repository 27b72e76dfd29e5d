/**
 * Ways to rest in closed form against formulas written here: one pole, two real poles, poles that fall together, poles far apart, and what is left to steps.
 * Sources: eigenvalues of a ladder of two equal RC stages, (3 ± √5)/2, and of a ring of three, any textbook of network theory; both derived here.
 */
import { describe, expect, test } from 'vitest';
import { type Device, GROUND, Network, PULL_LOW } from '../../sim-core/devices/network.ts';
import { ActiveSubcircuit } from '../../sim-core/run/analog/active-subcircuit.ts';
import { atRestOpen, pinByHand } from '../support/write-pulse.ts';

/** The island of a whole network on its way from x0, which its capacitors hold. */
function onItsWay(network: Network, x0: readonly number[]): ActiveSubcircuit {
  const island = new ActiveSubcircuit(network, network.unfolded);
  const x = Float64Array.from([...x0, 0]);
  const end = x.slice();
  expect(island.rest(end).ok).toBe(true);
  island.follow(end);
  expect(island.jump(x)).toBe(true);
  island.from(x);
  return island;
}

/** Largest difference from the formula, over these times in seconds [V]. */
function worst(island: ActiveSubcircuit, times: readonly number[], formula: (t: number) => readonly number[]): number {
  expect(island.way()).toBeDefined();
  const out = new Float64Array(island.nodes.length + 1);
  return Math.max(
    ...times.flatMap((t) => {
      island.attempt(t, out);
      return formula(t).map((v, i) => Math.abs(v - out[i]!));
    }),
  );
}

/** From far below the time constant to far beyond. */
const around = (seconds: number) => Array.from({ length: 60 }, (_, k) => seconds * 10 ** (k / 10 - 4));
const [R, C] = [1e3, 1e-9];

function supplied(network: Network, node: number, ohms: number): Device {
  return network.addSupply(node, GROUND, { volts: 5, ohms, amps: 10 });
}

test('one pole: V·(1 − e^(−t/RC))', () => {
  const network = new Network(1);
  const supply = supplied(network, 0, R);
  network.addCapacitor(0, GROUND, C);
  network.seal();
  network.switchSupply(supply, true);
  expect(worst(onItsWay(network, [0]), around(R * C), (t) => [5 * -Math.expm1(-t / (R * C))])).toBeLessThan(1e-8);
});

test('two real poles: a ladder of two equal RC stages decays with (3 ± √5)/2 times 1/RC', () => {
  const network = new Network(2);
  network.addConductance(0, GROUND, 1 / R);
  network.addConductance(0, 1, 1 / R);
  network.addCapacitor(0, GROUND, C);
  network.addCapacitor(1, GROUND, C);
  network.seal();
  const [slow, fast] = [(3 - Math.sqrt(5)) / 2, (3 + Math.sqrt(5)) / 2];
  // v0′ = (v1 − 2·v0)/RC, v1′ = (v0 − v1)/RC: v0 = (1 − λ)·v1 in each, and v1 begins at 0
  const formula = (t: number) => {
    const [a, b] = [Math.exp((-slow * t) / (R * C)), Math.exp((-fast * t) / (R * C))];
    const k = 5 / (fast - slow);
    return [k * ((1 - slow) * a - (1 - fast) * b), k * (a - b)];
  };
  expect(worst(onItsWay(network, [5, 0]), around(R * C), formula)).toBeLessThan(1e-8);
});

test('two equal poles: three capacitors in a ring, of which one is charged, have C/g for their mean and C/(g + 3·h) twice', () => {
  const network = new Network(3);
  const [g, h] = [1e-3, 4e-3];
  for (let i = 0; i < 3; i++) {
    network.addConductance(i, GROUND, g);
    network.addConductance(i, (i + 1) % 3, h);
    network.addCapacitor(i, GROUND, C);
  }
  network.seal();
  const formula = (t: number) => {
    const [mean, rest] = [Math.exp((-g * t) / C), Math.exp((-(g + 3 * h) * t) / C)];
    return [(5 * (mean + 2 * rest)) / 3, (5 * (mean - rest)) / 3, (5 * (mean - rest)) / 3];
  };
  expect(worst(onItsWay(network, [5, 0, 0]), around(C / g), formula)).toBeLessThan(1e-8);
});

test('a node without charge follows at once: the middle of a divider between a capacitor and ground', () => {
  const network = new Network(2);
  network.addConductance(0, 1, 1 / R);
  network.addConductance(1, GROUND, 1 / (3 * R));
  network.addCapacitor(0, GROUND, C);
  network.seal();
  const formula = (t: number) => {
    const v = 4 * Math.exp(-t / (4 * R * C));
    return [v, 0.75 * v];
  };
  expect(worst(onItsWay(network, [4, 0]), around(4 * R * C), formula)).toBeLessThan(1e-8);
});

describe('poles up to thirteen decades apart: 6 pF through a contact of 0.2 Ω into a capacitor that a bleeder empties', () => {
  test.each([1e-9, 1e-6, 1e-3])('of %s F', (farads) => {
    const by = { volts: 5, ohms: 680, farads, bleeder: 1e4, contact: 0.2, open: 1e10, pin: 6e-12 };
    const network = new Network(2);
    const supply = network.addSupply(0, GROUND, { volts: 5, ohms: 680, amps: 1 });
    network.addCapacitor(0, GROUND, by.pin);
    network.addConductance(0, 1, 1 / by.contact);
    network.addCapacitor(1, GROUND, farads);
    network.addConductance(1, GROUND, 1 / by.bleeder);
    network.seal();
    network.switchSupply(supply, true);
    const { v, u } = atRestOpen(by);
    const pin = pinByHand(by);
    const times = [...around(by.contact * by.pin), ...around(by.ohms * farads)];
    expect(worst(onItsWay(network, [v, u]), times, (t) => [pin(t)])).toBeLessThan(1e-8);
  });
});

describe('a way is in closed form only where every current on it is a straight line', () => {
  const rc = (more: (network: Network) => void, x0: number) => {
    const network = new Network(1);
    network.addConductance(0, GROUND, 1 / R);
    network.addCapacitor(0, GROUND, C);
    more(network);
    network.seal();
    return { network, x0: [x0] };
  };
  test('not through an input clamp above its knee, and again below it', () => {
    expect(onItsWay(...pair(rc((n) => n.addClamp(0, GROUND), 0.6))).way()).toBeUndefined();
    expect(onItsWay(...pair(rc((n) => n.addClamp(0, GROUND), 0.49))).way()).toBeDefined();
  });
  test('not with a junction, or an output that pulls', () => {
    expect(onItsWay(...pair(rc((n) => n.addJunction(0, GROUND, { is: 1e-18, nvt: 0.05, rs: 4 }), 1))).way()).toBeUndefined();
    const channels = { low: { g: 0.05, bend: 1 }, high: { g: 0.05, bend: 1 } };
    const network = new Network(1);
    network.addCapacitor(0, GROUND, C);
    const output = network.addOutput(0, GROUND, GROUND, channels);
    network.seal();
    network.setPull(output, PULL_LOW);
    expect(onItsWay(network, [5]).way()).toBeUndefined();
  });
  test('not while a supply is at its current limit', () => {
    const charged = (amps: number) => {
      const network = new Network(1);
      const supply = network.addSupply(0, GROUND, { volts: 5, ohms: 0.1, amps });
      network.addConductance(0, GROUND, 1 / R);
      network.addCapacitor(0, GROUND, C);
      network.seal();
      network.switchSupply(supply, true);
      return onItsWay(network, [0]);
    };
    expect([charged(1).way() === undefined, charged(100).way() === undefined]).toEqual([true, false]);
  });
});

const pair = ({ network, x0 }: { network: Network; x0: readonly number[] }) => [network, x0] as const;
