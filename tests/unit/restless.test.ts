/** Benches that once chattered for ever, kept a button down, or reported writes that never were. */
import { describe, expect, test } from 'vitest';
import { DATA_5A, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import { findingsNow } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

const READ = 'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nled LED1 from g23 to g30\nresistor R1 330 from f30 to -j20';

describe('a supply that is too weak for the memory', () => {
  test.each(['0.003', '0.0015', '0.001'])('%s A: comes to rest below what the memory needs, and no write is made up', (amps) => {
    const sim = start(memoryBench(READ).replace('PS1 5', `PS1 5 with amps ${amps}`));
    const readings = sim.readings();
    expect(readings.restless).toBeUndefined();
    expect(readings.chips[0]!.state.doing).toBe('no supply');
    // 8 mA at 5 V, typical, as a conductance, at the supply's limit
    expect(readings.chips[0]!.supply).toBeCloseTo((Number(amps) * 5) / 0.008, 1);
    expect(sim.events).toEqual([]);
  });
  test('no VCC wire, and /WE through 680 Ω: too little comes through the clamp', () => {
    const sim = start(memoryBench(READ.replace('wire WWE from j15 to +j9', 'resistor WWE 680 from j15 to +j9'), 'WV'));
    expect(sim.readings().restless).toBeUndefined();
    expect(sim.readings().chips[0]!.state.doing).toBe('no supply');
  });
});

test('switching off and on again is no write', () => {
  const sim = start(memoryBench(DATA_5A + writeButton()));
  for (const closed of [false, true]) {
    sim.act({ do: 'set', part: 'PS1', pole: 0, closed });
    sim.wait(1);
  }
  expect(sim.events).toEqual([]);
  // 100 kΩ discharge the capacitor before the bounce is over: that is said of the wiring, written or not
  expect(findingsNow(sim).flatMap((f) => (f.code.startsWith('memory/') ? [f.code] : []))).toEqual(['memory/bounce-writes-again']);
});

test('a button let go while it still chatters is open in the end, whatever the seed', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const sim = start(memoryBench(DATA_5A + writeButton()), { seed });
    sim.wait(0.1);
    sim.begin({ do: 'press', part: 'S9' });
    sim.wait(50e-6);
    sim.begin({ do: 'release', part: 'S9' });
    sim.wait(1);
    const site = sim.circuit.contacts.find((c) => c.placed.part.id === 'S9')!;
    expect(sim.circuit.network.conductance(site.device), `seed ${seed}`).toBeCloseTo(1 / site.contact.off, 12);
  }
});

describe('a memory whose address a clock moves', () => {
  const READ_BY_CLOCK = `${READ}
    clock-generator CK1
    wire X1 from CK1.+ to +j30
    wire X2 from CK1.- to -j30
    wire X3 from CK1.out to a19
    memory U1 0 00FF
    dip-switch S1 at e50 with poles 1`;
  test.each(['1', '1M', '5M', '10M'])('%s Hz: a hand’s act is over when its contact is at rest, and nothing is called endless', (hertz) => {
    const sim = start(memoryBench(READ_BY_CLOCK, 'WA0').replace('clock-generator CK1', `clock-generator CK1 ${hertz}`), { seed: 7 });
    expect(sim.rest()).toBe(true);
    const before = sim.now;
    sim.act({ do: 'set', part: 'S1', pole: 0, closed: true });
    // it bounces for some hundred microseconds, of this seed
    expect(sim.now - before).toBeGreaterThan(50e-6);
    expect(sim.readings().restless).toBeUndefined();
    expect(findingsNow(sim).map((f) => f.code)).not.toContain('bench/oscillates');
    expect(sim.pending).toBe(true);
  });
});
