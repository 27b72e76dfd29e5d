/** Wires and rails with resistance: against a measurement of a board, a closed form of a long rail with loads, and Kirchhoff's law. */
import { describe, expect, test } from 'vitest';
import { GROUND, PULL_HIGH } from '../../sim-core/devices/network.ts';
import type { Simulation } from '../../sim-core/index.ts';
import { usbSupply } from '../../sim-core/parts/usb-supply.ts';
import { CONTACT, FLYING, RAIL, WIRE } from '../../sim-core/run/circuit/interconnect.ts';
import { voltagesOf } from '../../sim-core/run/readout/measure.ts';
import { start } from '../support/bench.ts';
import { randomBench } from '../support/random-bench.ts';
import { trial } from '../support/trial.ts';

/** What is left over of the currents at each node, the largest of them and their sum [A], and what the last digit of 5 V is worth there. */
function leftOver(
  sim: Simulation,
): readonly { readonly sum: number; readonly most: number; readonly through: number; readonly rounding: number }[] {
  const { circuit } = sim;
  const { network } = circuit;
  const x = voltagesOf(circuit, sim.readings());
  const at = Array.from({ length: network.n }, () => ({ sum: 0, most: 0, through: 0, rounding: 0 }));
  const carry = (node: number, amps: number, siemens: number) => {
    const here = node === GROUND ? undefined : at[node];
    if (!here) return;
    here.sum += amps;
    here.most = Math.max(here.most, Math.abs(amps));
    here.through += Math.abs(amps);
    here.rounding += siemens * 5 * Number.EPSILON;
  };
  const high = new Map(circuit.branches.flatMap((b) => (b.whenHigh ? [[b.device, circuit.nodeOf(b.whenHigh)] as const] : [])));
  for (const device of [...circuit.wires, ...circuit.branches.map((b) => b.device)]) {
    const [a, low] = network.nodesOf(device);
    const b = device.kind === 'output' && network.pullOf(device) === PULL_HIGH ? (high.get(device) ?? low) : low;
    const amps = network.current(device, x);
    const siemens = device.kind === 'conductance' ? network.conductance(device) : 10;
    carry(a, amps, siemens);
    carry(b, -amps, siemens);
  }
  return at;
}

// the rail's metal and the contact are fitted to two lengths of a rail; what was measured along a strip of five is a third figure, 11 mΩ an inch
test('the metal of a rail is that of a strip, as measured by itself (SOURCES.md S55), within 5 %', () => {
  expect(Math.abs(RAIL / 11e-3 - 1)).toBeLessThan(0.05);
});

describe('copper by its gauge', () => {
  // ASTM B258: the diameter of AWG n is 0.127 mm · 92^((36 − n)/39); copper 1.724e-8 Ω·m at 20 °C (IEC 60028); these and the four figures from memory
  const copper = (gauge: number) => 1.724e-8 / ((Math.PI / 4) * (0.127e-3 * 92 ** ((36 - gauge) / 39)) ** 2);
  test.each([
    [20, 33.3e-3],
    [22, 53.0e-3],
    [24, 84.2e-3],
    [26, 133.9e-3],
  ])('AWG %i has %f Ω/m', (gauge, ohms) => {
    expect(Math.abs(copper(gauge) / ohms - 1)).toBeLessThan(2e-3);
  });
  test('is what the wires of a bench have, AWG 22, and the cable of a USB supply, a metre of AWG 28 there and back', () => {
    expect(Math.abs(WIRE / 53.0e-3 - 1)).toBeLessThan(2e-3);
    const cable = usbSupply.params.find((p) => p.name === 'ohms');
    expect(cable?.type === 'number' && Math.abs(cable.fallback / (2 * copper(28)) - 1)).toBeLessThan(0.07);
  });
});

describe('a rail of ten loads, fed at one end', () => {
  const OHMS = 470;
  const holes = Array.from({ length: 10 }, (_, i) => 1 + 5 * i);
  const sim = start(`
    wiring real
    board-63 B1
    bench-supply PS1 with ohms 100m, amps 2
    wire WP red from PS1.+ to +j2
    wire WN black from PS1.- to -j2
    ${holes.map((k, i) => (k === 1 ? '' : `resistor R${i} ${OHMS} from +j${k} to -j${k}`)).join('\n')}
    switch PS1 set 1`);
  // loads stand six pitches apart, the first of them five from where the rail is fed
  const loads = holes.slice(1);
  const n = loads.length;
  const r = 2 * 6 * 0.1 * RAIL;
  const feed = 0.1 + 2 * (FLYING * WIRE + CONTACT) + 2 * 5 * 0.1 * RAIL;
  // v(k−1) − 2·v(k) + v(k+1) = (r/R)·v(k), nothing flows on after the last: v(k) = v(1)·cosh((n − k + ½)·θ)/cosh((n − ½)·θ), cosh θ = 1 + r/(2R)
  const theta = Math.acosh(1 + r / (2 * OHMS));
  const share = (k: number) => Math.cosh((n - k + 0.5) * theta) / Math.cosh((n - 0.5) * theta);
  const all = loads.reduce((sum, _, i) => sum + share(i + 1), 0) / OHMS;
  const first = 5 / (1 + feed * all);
  const across = (i: number) => {
    const [a, b] = sim.circuit.placed.get(`R${i}`)!.legs.map((leg) => voltagesOf(sim.circuit, sim.readings())[sim.circuit.nodeOf(leg)]!);
    return a! - b!;
  };

  test('drops the voltage of the closed form at every load, to 1e-9 of the drop', () => {
    for (const [i] of loads.entries()) {
      const drop = 5 - first * share(i + 1);
      expect(drop).toBeGreaterThan(0.01);
      expect(Math.abs((5 - across(i + 1)) / drop - 1)).toBeLessThan(1e-9);
    }
    const along = first * (1 - share(n));
    expect(Math.abs((across(1) - across(n)) / along - 1)).toBeLessThan(1e-9);
  });

  test('keeps Kirchhoff’s law at every hole to 1e-9 of the largest current there', () => {
    for (const { sum, most } of leftOver(sim)) expect(Math.abs(sum)).toBeLessThan(1e-9 * most);
  });

  test('has one node a hole in use, and no more', () => {
    // ten holes of each rail (where it is fed, and nine loads), and the plus terminal; the minus terminal is the reference
    expect(sim.circuit.network.n).toBe(2 * 10 + 1);
  });
});

trial(
  'any bench with real wiring keeps Kirchhoff’s law at every hole to 1e-9 of the currents that meet there',
  { cases: randomBench(1, 60), sample: 12, full: 12 },
  (plan) => {
    const sim = start({ ...plan, wiring: 'real' }, { still: true });
    expect(sim.readings().unsolved).toBeUndefined();
    // a node in the air leaks 1e-12 S
    for (const { sum, through, rounding } of leftOver(sim))
      expect(Math.abs(sum)).toBeLessThanOrEqual(1e-9 * through + 16 * rounding + 2e-11);
    return { kind: 'at rest', parts: plan.parts.length };
  },
);
