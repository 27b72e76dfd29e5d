/** A relay at a memory's output by way of a transistor: its contacts move in their time, and its winding's current goes through a diode or breaks the transistor down. */
import { describe, expect, test } from 'vitest';
import type { Simulation } from '../../sim-core/index.ts';
import { MEMORY, READ_BY_S3, start } from '../support/bench.ts';

/** D0 (row 20), high while S3 is closed, drives Q1's base (row 38) through 4.7 kΩ; Q1's collector (row 39) pulls K1 down. LED1 is at its NC leg, LED2 at NO. */
const bench = (more = '') => `${MEMORY}${READ_BY_S3}
  resistor R1 4k7 from a20 to a38
  npn-transistor Q1 at c37
  wire TE black from a37 to -a37
  relay K1 at e45
  wire KA red from a45 to +a45
  wire KC yellow from a39 to j45
  wire KM red from a48 to +a47
  wire KP red from +a2 to +j3
  resistor R2 1k from a50 to a55
  resistor R3 1k from a52 to a58
  led LED1 red from b55 to -a47
  led LED2 green from b58 to -a48
  wire KN black from -a3 to -j3
  ${more}`;
const DIODE = 'diode D1 from i45 to b45';

const set = (sim: Simulation, closed: boolean) => sim.begin({ do: 'set', part: 'S3', pole: 0, closed });
const lit = (sim: Simulation) =>
  sim
    .readings()
    .leds.filter((l) => l.brightness === 'lit')
    .map((l) => l.led);
const collector = (sim: Simulation) => sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/39a')!.index]!.volts;
const amps = (sim: Simulation) => sim.readings().coils[0]!.amps;

/** The most that the collector reaches, and its currents, in steps of 1 µs for so long from the moment that the memory lets go. */
function switchedOff(sim: Simulation, seconds: number) {
  set(sim, false);
  let most = 0;
  for (let t = 0; t < seconds; t += 1e-6) {
    sim.wait(1e-6);
    most = Math.max(most, collector(sim));
  }
  return most;
}

const OPERATES_AT = 0.75 * 0.04;
const RELEASES_AT = 0.1 * 0.04;

describe.each([
  // the collector stays a diode's drop above plus; its current goes on through the diode, 0.75 V against it: L/R·ln((I + 0.75/R)/(RELEASES_AT + 0.75/R))
  { says: 'with a flyback diode', diode: DIODE, peak: 5.8, takes: 1e-3 * Math.log((0.0394 + 6e-3) / (RELEASES_AT + 6e-3)) },
  // 60 V and a clamp's drop, from memory: from there to the supply 56 V against the winding, L·I/56 V and a little more
  { says: 'without one', diode: '', peak: 61, takes: (0.125 * (0.0394 - RELEASES_AT)) / (56 + 2.5) },
])('a relay at a memory’s output, $says', ({ diode, peak, takes }) => {
  const sim = start(bench(diode), { bounce: false });
  const doing = () => sim.readings().chips.find((c) => c.part === 'K1')!.state.doing;

  test('is released until the byte says otherwise; it operates 3 ms after its current has come to three quarters of that of 5 V', () => {
    expect([lit(sim), doing()]).toEqual([['LED1'], 'released']);
    set(sim, true);
    let reached = 0;
    for (let t = 0; t < 10e-3 && doing() === 'released'; t += 10e-6) {
      sim.wait(10e-6);
      if (amps(sim) < OPERATES_AT) reached = sim.now;
    }
    expect(Math.abs(sim.now - reached - 3e-3)).toBeLessThan(25e-6);
    expect(lit(sim)).toEqual(['LED2']);
  });

  test('rests at the current of Ohm’s law: 5 V less what the supply and the transistor keep, through 125 Ω', () => {
    sim.rest();
    const [plus] = [sim.readings().supplies[0]!.volts];
    expect(Math.abs(amps(sim) / ((plus - collector(sim)) / 125) - 1)).toBeLessThan(1e-6);
    expect(amps(sim)).toBeGreaterThan(0.039);
  });

  test('is let go: the collector reaches what its path makes of it, and the contacts are back 2 ms after the current has fallen to a tenth', () => {
    const begun = sim.now;
    expect(Math.abs(switchedOff(sim, 100e-6) / peak - 1)).toBeLessThan(0.01);
    for (let t = 0; t < 10e-3 && doing() === 'operated'; t += 10e-6) sim.wait(10e-6);
    expect(Math.abs((sim.now - begun - 2e-3) / takes - 1)).toBeLessThan(0.2);
    sim.rest();
    expect([lit(sim), Math.abs(amps(sim)) < 1e-5]).toEqual([['LED1'], true]);
  });
});

describe('a relay', () => {
  test('closes a side with bounces like any contact, and the other has opened before', () => {
    const sim = start(bench(DIODE), { seed: 5 });
    set(sim, true);
    const seen: string[] = [];
    for (let t = 0; t < 12e-3; t += 5e-6) {
      sim.wait(5e-6);
      const now = lit(sim).join() || 'none';
      if (now !== seen.at(-1)) seen.push(now);
    }
    expect(seen.slice(0, 3)).toEqual(['LED1', 'none', 'LED2']);
    expect(seen.length).toBeGreaterThan(4);
    expect([seen.at(-1), seen.includes('LED1,LED2'), seen.lastIndexOf('LED1')]).toEqual(['LED2', false, 0]);
  });

  test('keeps its current and its contacts while something else on the bench is moved', () => {
    const sim = start(bench(DIODE), { bounce: false });
    set(sim, true);
    sim.rest();
    const before = amps(sim);
    sim.begin({ do: 'edit', change: { op: 'insert', list: 'wires', item: { id: 'X', colour: 'red', from: 'a60', to: 'b61' }, index: 0 } });
    expect(Math.abs(amps(sim) / before - 1)).toBeLessThan(1e-9);
    expect(lit(sim)).toEqual(['LED2']);
  });

  test('answers a current of either direction, lets a short one pass, and is operated where the bench is found so', () => {
    const fed = (more: string) =>
      start(`board-63 B1\nbench-supply PS1\nrelay K1 at e10\ndip-switch S1 at e30 with poles 1\nswitch PS1 set 1\n${more}`, {
        bounce: false,
      });
    const sim = fed('wire A from PS1.+ to a30\nwire B from j30 to j10\nwire C from a10 to PS1.-');
    const state = () => sim.readings().chips[0]!.state.doing;
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
    sim.wait(2e-3);
    expect(amps(sim)).toBeLessThan(-OPERATES_AT);
    // below a tenth well before its 3 ms have passed
    sim.act({ do: 'set', part: 'S1', pole: 0, closed: false });
    expect(state()).toBe('released');
    sim.act({ do: 'set', part: 'S1', pole: 0, closed: true });
    expect(state()).toBe('operated');
    const found = fed('wire A from PS1.+ to a10\nwire B from PS1.- to j10');
    expect([found.now, found.readings().chips[0]!.state.doing]).toEqual([0, 'operated']);
  });
});
