/** Loops that never rest: who is in them, at what period, what sets it, whether it is meant; and that waiting for them ends early. */
import { describe, expect, test } from 'vitest';
import { memoryBench, ring as ringOfMemory } from '../../sim-core/findings/example-benches.ts';
import { findingsNow, plain, type Simulation, sayFinding, simulateAsFound } from '../../sim-core/index.ts';
import { planOf, start } from '../support/bench.ts';
import { inverters, ring } from '../support/inverters.ts';

const oscillations = (sim: Simulation) => sim.readings().restless ?? [];
const said = (sim: Simulation) =>
  findingsNow(sim)
    .filter((f) => f.code === 'bench/oscillates')
    .map((f) => `${f.severity}: ${plain(sayFinding(f, sim.circuit.plan))}`);
/** Turns until nobody waits any more. */
function turnsToEnd(text: string): number {
  const found = simulateAsFound(planOf(text));
  if (!found.ok) throw new Error(found.failure.says);
  const rest = found.value.restInSlices();
  for (let turns = 1; ; turns++) if (rest.go(1)) return turns;
}

const RC = 'resistor R1 100k from b10 to b11\ncapacitor C1 10n from a10 to -a9';

describe('the parts of a loop', () => {
  test('are those that set its period, not an LED with its resistor at the output', () => {
    const sim = start(inverters('HC', 1, `${RC}\nresistor R2 1k from c11 to c40\nled LED1 from b40 to -a40`));
    expect(oscillations(sim)).toMatchObject([{ chips: ['U1'], resistors: ['R1'], capacitors: ['C1'], meant: true }]);
    expect(said(sim)).toEqual([
      'marginal: Hex inverter U1 oscillates and never rests: the period is 839 µs, set by resistor R1 and ceramic capacitor C1. What you see is one moment of many.',
    ]);
  });

  test('of a timer are both resistors that charge its capacitor; a chip that only listens is not among them', () => {
    const sim = start(`
      ${inverters('HC', 1, 'wire WI from a10 to B2:a30')}
      board-63 B2
      wire WP from +j40 to B2:+j1
      wire WM from -j40 to B2:-j1
      wire WN from B2:-j2 to B2:-a1
      wire WQ from B2:+j2 to B2:+a1
      timer U2 at B2:e20
      wire TG from B2:a20 to B2:-a2
      wire TV from B2:j20 to B2:+j3
      wire TR from B2:a23 to B2:+a3
      resistor RA 10k from B2:i20 to B2:i21
      resistor RB 10k from B2:h21 to B2:h22
      capacitor CT 100n from B2:i22 to B2:i30
      wire WC from B2:j30 to B2:-j20
      wire WT from B2:g22 to B2:a40
      wire WU from B2:b40 to B2:a21
      wire WO from B2:a22 to B2:b30`);
    const [loop, ...others] = oscillations(sim);
    expect(others).toEqual([]);
    expect(loop).toMatchObject({ chips: ['U2'], capacitors: ['CT'], meant: true });
    expect(loop?.resistors.toSorted()).toEqual(['RA', 'RB']);
    // 0.693 (RA + 2 RB) C
    expect((loop?.period ?? 0) / (Math.LN2 * 30e3 * 100e-9)).toBeCloseTo(1, 1);
  });

  test('are told gate by gate: what hears the loop and is heard by nobody does not lengthen it', () => {
    // gate 2 repeats gate 1 and comes back to gate 3, which leads nowhere
    const sim = start(inverters('HC', 3, `${RC}\nwire K2 from c11 to a12\nwire K3 from b13 to a14`));
    expect(oscillations(sim)).toMatchObject([{ chips: ['U1'], resistors: ['R1'], capacitors: ['C1'] }]);
  });

  test('two loops on one bench are two', () => {
    const sim = start(inverters('HC', 2, `wire K1 from b11 to b10\nwire K2 from b13 to b12`));
    expect(oscillations(sim).map((o) => [o.chips, o.meant])).toEqual([
      [['U1'], true],
      [['U1'], true],
    ]);
  });
});

describe('the period', () => {
  test.each([
    ['HC', 1, 12e-9],
    ['HC', 3, 12e-9],
    ['HCT', 5, 16e-9],
    ['LS', 1, 15e-9],
    ['LS', 3, 15e-9],
  ])('of a ring of %s × %i is twice its delays', (family, n, delay) => {
    const [loop] = oscillations(start(ring(family, n)));
    expect(loop).toMatchObject({ chips: ['U1'], resistors: [], capacitors: [], meant: true });
    expect((loop?.period ?? 0) / (2 * n * delay)).toBeCloseTo(1, 9);
  });

  test('of a memory that drives its own address is that of the longest round: 0, 1, 3, 2 and back', () => {
    const sim = start(
      memoryBench(
        `wire WOE from j16 to -j9
        wire WWE from j15 to +j9
        wire F0 from a20 to a19
        wire F1 from a21 to a18
        resistor R0 10k from b19 to -a30
        resistor R1 10k from b18 to -a31
        memory U1 000 01030002`,
        'WA0',
        'WA1',
      ),
    );
    const [loop] = oscillations(sim);
    expect(loop).toMatchObject({ chips: ['U1'], resistors: [], capacitors: [], meant: false });
    expect(said(sim)[0]).toMatch(
      /^fault: Memory U1 drives itself in a loop that never rests: the period is .*, set by its own delay\. Break/,
    );
  });
});

describe('waiting', () => {
  test.each([
    ['a memory that drives its own address', ringOfMemory()],
    ['a ring of five', ring('HC', 5)],
    ['a Schmitt oscillator', inverters('HC', 1, RC)],
  ])('for %s ends as soon as its states come again and again', (_, text) => {
    expect(turnsToEnd(text)).toBeLessThan(2000);
  });

  test('a moment at which it ends is not in the middle of an edge', () => {
    for (const farads of ['1n', '10n', '33n', '100n']) {
      const sim = start(inverters('HC', 1, RC.replace('10n', farads)));
      const output = sim.readings().chips[0]?.pins.find((p) => p.pin === '2');
      expect(Math.min(Math.abs(output?.volts ?? 9), Math.abs((output?.volts ?? 9) - 5))).toBeLessThan(0.01);
    }
  });

  test('among the ticks of a clock that never let a voltage arrive ends too, is no oscillation, and time goes on', () => {
    const text = memoryBench(`wire WOE from j16 to -j9
      wire WWE from j15 to +j9
      clock-generator CK1 5M
      wire X1 from CK1.+ to +j30
      wire X2 from CK1.- to -j30
      wire X3 from CK1.out to a40
      resistor RX 1k from b40 to b45
      capacitor CX 1n from a45 to -a45`);
    expect(turnsToEnd(text)).toBeLessThan(3000);
    const sim = start(text);
    expect(oscillations(sim)).toEqual([]);
    expect(sim.pending).toBe(true);
    const before = sim.now;
    expect(sim.wait(1e-6)).toBe(true);
    expect(sim.now).toBeCloseTo(before + 1e-6, 12);
  });
});

test('gates without a GND wire, beside an output that may pull them anywhere, are not set going again and again', () => {
  const sim = start(`
    bench-supply PS1
    board-63 B1
    board-63 B2
    wire WP from PS1.+ to B1:+j1
    wire WM from PS1.- to B1:-j1
    wire WQ from PS1.+ to B2:+j1
    wire WN from PS1.- to B2:-j1
    wire WR from B1:-j2 to B1:-a1
    wire WS from B1:+j2 to B1:+a1
    quad-nor U1 LS at B1:e8
    wire WV from B1:h8 to B1:+j4
    wire WA from B1:c9 to B1:-a2
    resistor R1 100k from B1:c13 to B1:+a2
    octal-register U2 HCT at B2:e8
    wire WC from B2:h8 to B2:+j4
    wire WG from B2:c17 to B2:-j20
    diode D1 from B1:c11 to B2:h14
    switch PS1 set 1`);
  const begun = sim.now;
  sim.wait(1e-6);
  expect(sim.now - begun).toBeCloseTo(1e-6, 12);
  expect(sim.pending).toBe(false);
});

test('what is switched off is no oscillation any more', () => {
  const sim = start(ring('HC', 3));
  expect(oscillations(sim)).toHaveLength(1);
  sim.act({ do: 'set', part: 'PS1', pole: 0, closed: false });
  expect(oscillations(sim)).toEqual([]);
});
