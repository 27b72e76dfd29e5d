/** A figure that is exactly at its limit keeps it: no rule speaks there, and each does one step of the figures beyond. The figures are laid over what was measured. */
import { describe, expect, test } from 'vitest';
import { FED, memoryBench } from '../../sim-core/findings/example-benches.ts';
import type { Rule } from '../../sim-core/findings/rule.ts';
import { makeScene, type RuleContext } from '../../sim-core/findings/rule-context.ts';
import { capacitorOverVoltage } from '../../sim-core/findings/rules/capacitor/over-voltage.ts';
import { capacitorReversed } from '../../sim-core/findings/rules/capacitor/reversed.ts';
import { packageOverCurrent } from '../../sim-core/findings/rules/chip/package-over-current.ts';
import { supplyDip } from '../../sim-core/findings/rules/chip/supply-dip.ts';
import { supplyOutOfRange } from '../../sim-core/findings/rules/chip/supply-out-of-range.ts';
import { inputBetweenLevels } from '../../sim-core/findings/rules/input/between-levels.ts';
import { ledOverCurrent } from '../../sim-core/findings/rules/led/over-current.ts';
import { ledReverseOverVoltage } from '../../sim-core/findings/rules/led/reverse-over-voltage.ts';
import { busContention } from '../../sim-core/findings/rules/net/bus-contention.ts';
import { partOverPower } from '../../sim-core/findings/rules/part/over-power.ts';
import { pinOverCurrent } from '../../sim-core/findings/rules/pin/over-current.ts';
import { pinOverVoltage } from '../../sim-core/findings/rules/pin/over-voltage.ts';
import { findingsNow, plain, sayFinding } from '../../sim-core/index.ts';
import { leakageOn } from '../../sim-core/tolerance/at-rest.ts';
import { start } from '../support/bench.ts';

const LED = `${FED}\nled LED1 from a10 to a14\nresistor R1 330 from b10 to +j5\nwire W1 from b14 to -j3`;
const CAPACITOR = `${FED}\nelectrolytic C1 from a10 to a14 with volts 10\nwire W1 from c10 to +j3\nwire W2 from b14 to -j3`;
const MEMORY = memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n');
/** the next number further from 0 */
const beyond = (x: number) => x * (1 + Number.EPSILON);

/** What the rule finds on the bench with these things measured instead. */
function told<D extends object>(rule: Rule<D>, bench: string, measured: (scene: RuleContext) => Partial<RuleContext>): readonly D[] {
  if (rule.reads !== 'moment') throw new Error(`${rule.code} reads no moment`);
  const sim = start(bench);
  const scene = makeScene(sim.circuit, sim.readings());
  return rule.look({ ...scene, ...measured(scene) });
}

const ledWith = (figures: { amps?: number; volts?: number }) => (scene: RuleContext) => ({
  led: (site: Parameters<RuleContext['led']>[0]) => ({ ...scene.led(site)!, ...figures }),
});
const chipWith = (figures: object) => (scene: RuleContext) => ({ chip: (part: string) => ({ ...scene.chip(part)!, ...figures }) });
/** This net at so many volts, all others at 0. */
const at = (hole: string, volts: number) => (scene: RuleContext) => {
  const net = scene.circuit.nets.ofStrip.get(hole)?.index;
  const measured = { at: (n: number) => (n === net ? volts : 0) };
  return { ...measured, atMost: { ...scene.atMost, ...measured } };
};
/** So much into the first of the memory's outputs, nothing anywhere else. */
const intoPins =
  (...amps: number[]) =>
  (scene: RuleContext) => {
    const devices = scene.circuit.chips[0]!.outputs.map((o) => o.device);
    return { amps: (device: Parameters<RuleContext['amps']>[0]) => amps[devices.indexOf(device)] ?? 0 };
  };

describe('at its limit, and one step beyond', () => {
  test.each<[string, Rule<never>, string, number, (figure: number) => (scene: RuleContext) => Partial<RuleContext>]>([
    ['the current of an LED', ledOverCurrent as Rule<never>, LED, 30e-3, (amps) => ledWith({ amps })],
    ['the reverse voltage of an LED', ledReverseOverVoltage as Rule<never>, LED, -5, (volts) => ledWith({ volts })],
    ['the voltage of a capacitor', capacitorOverVoltage as Rule<never>, CAPACITOR, 10, (volts) => at('B1/10a', volts)],
    ['the reverse voltage of a capacitor', capacitorReversed as Rule<never>, CAPACITOR, 1, (volts) => at('B1/14a', volts)],
    ['the current into an output', pinOverCurrent as Rule<never>, MEMORY, 10e-3, (amps) => intoPins(amps)],
    ['the current out of an output', pinOverCurrent as Rule<never>, MEMORY, -10e-3, (amps) => intoPins(amps)],
    ['what outputs sink together', packageOverCurrent as Rule<never>, MEMORY, 60e-3, (amps) => intoPins(amps / 2, amps / 2)],
    ['what outputs source together', packageOverCurrent as Rule<never>, MEMORY, -60e-3, (amps) => intoPins(amps / 2, amps / 2)],
    ['the highest supply of a memory', supplyOutOfRange as Rule<never>, MEMORY, 5.5, (supply) => chipWith({ supply })],
    ['the lowest', supplyOutOfRange as Rule<never>, MEMORY, 4.5, (supply) => chipWith({ supply: 9 - supply })],
    ['the voltage of pin A9', pinOverVoltage as Rule<never>, memoryBench('', 'WA9'), 13.5, (volts) => at('B1/14f', volts)],
  ])('%s', (_, rule, bench, limit, measured) => {
    expect(told(rule, bench, measured(limit))).toEqual([]);
    expect(told(rule, bench, measured(beyond(limit)))).toHaveLength(1);
  });

  test('the power of a resistor: 5 V at 100 Ω are a quarter of a watt', () => {
    const bench = `${FED}\nresistor R1 100 from a10 to -j10\nwire W1 from b10 to +j5`;
    const hot = (volts: number) => {
      const sim = start(bench);
      const { nodes: _, ...readings } = sim.readings();
      const nets = readings.nets.map((n) => ({ ...n, volts: n.volts > 1 ? volts : 0 }));
      return told(partOverPower, bench, () => makeScene(sim.circuit, { ...readings, nets }));
    };
    expect(hot(5)).toEqual([]);
    expect(hot(5.000001)).toMatchObject([{ measured: expect.closeTo(0.25, 6), limit: 0.25, cure: 'value' }]);
  });
});

test('an input exactly at a level has it, and half way between them the high one counts as nearer', () => {
  const bench = memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n');
  const between = (volts: number) =>
    told(inputBetweenLevels, bench, (scene) => {
      const reading = scene.chip('U1')!;
      const pins = reading.pins.map((p) => (p.pin === '8' ? { ...p, level: 'X' as const, volts } : p));
      return { chip: () => ({ ...reading, pins }) };
    }).map((d) => (d as { limit: number }).limit);
  expect([0.8, 0.80001, 1.399, 1.401, 1.99999, 2].map(between)).toEqual([[], [0.8], [0.8], [2], [2], []]);
});

test('a supply that dips to just its least keeps it; one that stood below before is not said to have dipped', () => {
  const dip = (low: number, volts: number) => told(supplyDip, MEMORY, chipWith({ dip: { low, volts, seconds: 1e-9 } })).length;
  expect([dip(4.5, 0.5), dip(4.49, 0.5), dip(4.49, 0.01), dip(4.25, 0.25), dip(4.25, 0.2)]).toEqual([0, 1, 1, 1, 0]);
});

test('up to three LEDs are named, of four the first and a number', () => {
  const says = (n: number) => {
    const leds = Array.from({ length: n }, (_, i) => ({ kind: 'led' as const, id: `LED${i + 1}` }));
    const data = { chip: { kind: 'part', id: 'U1' }, leds, measured: 4e-4, typical: 8e-3, limit: 1e-3 };
    const code = 'led/current-not-guaranteed';
    return plain(sayFinding({ code, data }, start(MEMORY).plan()));
  };
  expect(says(1)).toContain('lights LED1 with typical');
  expect(says(3)).toContain('lights LED1, LED2 and LED3 with typical');
  expect(says(4)).toContain('lights LED1 and 3 more LEDs with typical');
});

test('a memory that differs from the table: how many rows, which is the first, and at which of its pins', () => {
  const says = (rows: number, pins: number, state: string) => {
    const at = Array.from({ length: pins }, (_, i) => ({ kind: 'pin', id: `U1.${9 + i}` }));
    const data = {
      memory: { kind: 'part', id: 'U1' },
      pins: at,
      rows,
      of: 32,
      row: 5,
      address: '0x005',
      stored: '00',
      wants: '01',
      explained: '',
      state,
    };
    return plain(sayFinding({ code: 'memory/not-as-wanted', data }, start(MEMORY).plan()));
  };
  expect(says(1, 1, 'other')).toBe(
    'Memory U1 differs in 1 of 32 rows of the table, at its pin 9 (D0): row 5, address 0x005, stored 00, wanted 01. Write that byte again, or correct the table.',
  );
  expect(says(2, 3, 'begun')).toBe(
    'Memory U1 is not fully written: it is still erased in 2 of 32 rows of the table, at its pin 9 (D0), its pin 10 (D1) and its pin 11 (D2): first row 5, address 0x005, stored 00, wanted 01. Write those bytes too.',
  );
  expect(says(2, 4, 'blank')).toBe(
    'Memory U1 is not written: it is blank and differs in 2 of 32 rows of the table, at 4 of its data pins: first row 5, address 0x005, stored 00, wanted 01. Write the table into it.',
  );
});

test('of several writes that were ignored their number is told, of one only that', () => {
  const says = (count: number, why: string) => {
    const data = {
      memory: { kind: 'part', id: 'U1' },
      address: '0x005',
      byte: '00',
      outcome: 'ignored',
      time: 0,
      count,
      why,
      measured: 8e-9,
      limit: 1e-7,
    };
    return plain(sayFinding({ code: 'memory/write-ignored', data }, start(MEMORY).plan()));
  };
  expect(says(1, 'busy')).toMatch(/^Memory U1 ignored a write at address 0x005: it was busy/);
  expect(says(2, 'busy')).toMatch(/^Memory U1 ignored 2 writes, one at address 0x005: it was busy/);
  expect(says(1, 'glitch')).toContain('the pulse was 8 ns wide at most, too short to be seen (at least 100 ns)');
});

test('what an LS input leaks comes out of it, and 20 µA go into a high one', () => {
  const { circuit } = start(`${MEMORY}\noctal-buffer U2 LS at e40`);
  const net = circuit.nets.ofStrip.get('B1/41a')!.index;
  expect([leakageOn(circuit, net, 1), leakageOn(circuit, net, -1)]).toEqual([0.2e-3, 20e-6]);
});

test('what may leak into a net is the sum over all pins on it: inputs, and outputs that have let go', () => {
  const { circuit } = start(`${MEMORY}\noctal-buffer U2 at e40\nwire V5 from j42 to a20\nwire V6 from j44 to b20`);
  const net = circuit.nets.ofStrip.get('B1/20a')!.index;
  // a memory's data pin 10 µA (S2), two outputs of HC 5 µA each (S16)
  for (const way of [1, -1] as const) {
    expect(leakageOn(circuit, net, way)).toBeCloseTo(20e-6, 12);
    expect(leakageOn(circuit, circuit.nets.ofStrip.get('B1/41a')!.index, way)).toBeCloseTo(1e-6, 12);
  }
});

test('a contention is a damage risk beyond what an output bears, and a fault up to there', () => {
  const severity = (measured: number) => busContention.severityOf?.({ measured, limit: 0.01 } as never);
  expect([severity(0.01), severity(0.0101)]).toEqual(['fault', 'damage-risk']);
});

test('a supply above the absolute maximum may destroy the chip; at the maximum it is marginal, and where the chip does nothing a fault', () => {
  const severity = (measured: number, off = false) => supplyOutOfRange.severityOf?.({ measured, least: 4.5, ceiling: 7, off } as never);
  expect([severity(7), severity(7.01), severity(2, true), severity(4.1)]).toEqual(['marginal', 'damage-risk', 'fault', 'marginal']);
  // a 5 V part at 3.3 V; the fault begins 10 % below the range
  expect([severity(3.3), severity(4.04), severity(4.06)]).toEqual(['fault', 'fault', 'marginal']);
});

describe('what a chip without its VCC wire takes through the clamp of a pin that is tied to plus', () => {
  const found = (without: string) => {
    const sim = start(memoryBench('wire WWE from j15 to +j9\nwire WOE from j16 to -j9', without));
    const finding = findingsNow(sim).find((f) => f.code === 'pin/over-voltage');
    return { sim, finding, says: finding && plain(sayFinding(finding, sim.plan())) };
  };
  test('is judged by the most that its sheet allows, though a typical one takes less than the clamp bears', () => {
    const { sim, finding, says } = found('WV');
    // 8 mA typical, 30 mA at most, both at 5 V (SOURCES.md S2, from memory); the clamp bears 20 mA
    const typical = sim.readings().chips[0]!.supply * (8e-3 / 5);
    expect(typical).toBeLessThan(20e-3);
    expect([finding?.severity, finding?.at[0]?.id]).toEqual(['damage-risk', 'U1.21']);
    const milliamps = Number(/: ([\d.]+) mA/.exec(says ?? '')?.[1]);
    expect(milliamps).toBeGreaterThan(20);
    expect(milliamps).toBeLessThan(30);
    expect(says).toContain('where the chip draws the most that its sheet allows');
  });
  test('is nothing where the wire is there', () => {
    expect(found('none').finding).toBeUndefined();
  });
});
