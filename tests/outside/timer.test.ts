/** The timer against its published formulas, and Schmitt inputs against their published thresholds. */
import { describe, expect, test } from 'vitest';
import type { Simulation } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

const level = (sim: Simulation, pin: number) => sim.readings().chips[0]!.pins[pin - 1]!.level;
const volts = (sim: Simulation, pin: number) => sim.readings().chips[0]!.pins[pin - 1]!.volts;

/** Times at which a pin's level changes, to one step [s]. */
function changes(sim: Simulation, pin: number, count: number, step: number): number[] {
  const found: number[] = [];
  let before = level(sim, pin);
  for (let turn = 0; found.length < count && turn < 100_000; turn++) {
    sim.wait(step);
    const now = level(sim, pin);
    if (now !== before) found.push(sim.now);
    before = now;
  }
  return found;
}

/** Timer at e20: GND a20, TRIG b21, OUT c22, /RESET a23, CONT j23, THRES j22, DISCH j21, VCC j20. */
const TIMER = `
  board-63 B1
  bench-supply PS1 with ohms 1m
  switch PS1 set 1
  wire W1 from PS1.+ to +j1
  wire W2 from PS1.- to -j1
  wire W3 from -j2 to -a1
  wire W4 from +j2 to +a1
  timer U1 at e20
  wire WG from a20 to -a2
  wire WV from j20 to +j3
  wire WR from a23 to +a3`;

// biome-ignore lint/suspicious/noApproximativeNumericConstant: as the sheet prints it
const PRINTED = 0.693;

describe('as an astable', () => {
  // tH = 0.693 (RA + RB) C, tL = 0.693 RB C, f = 1.44/((RA + 2 RB) C): SOURCES.md S38
  test.each([
    [10e3, 22e3, 100e-9],
    [22e3, 100e3, 10e-9],
    [4.7e3, 47e3, 1e-6],
  ])('RA %d Ω, RB %d Ω, C %d F: both times and the rate within 1 %', (ra, rb, c) => {
    const sim = start(`${TIMER}
      resistor RA ${ra} from i20 to i21
      resistor RB ${rb} from h21 to h22
      capacitor CT ${c} from i22 to i30
      wire WC from j30 to -j20
      wire WT from g22 to a40
      wire WU from b40 to a21`);
    const [tH, tL] = [PRINTED * (ra + rb) * c, PRINTED * rb * c];
    const edges = changes(sim, 3, 4, tL / 2000);
    const lengths = edges.slice(1).map((t, i) => t - edges[i]!);
    const [first, second, third] = lengths as [number, number, number];
    const [high, low] = first > second ? [first, second] : [second, first];
    expect(third / first).toBeCloseTo(1, 2);
    expect(Math.abs(high / tH - 1)).toBeLessThan(0.01);
    expect(Math.abs(low / tL - 1)).toBeLessThan(0.01);
    expect(Math.abs(1 / (high + low) / (1.44 / ((ra + 2 * rb) * c)) - 1)).toBeLessThan(0.01);
  });
  // both times are RC·ln 2 of what charges and discharges: f = 1/(ln 2·(RA + 2 RB)·C) = 480.9 Hz, 1.44 in print makes it 480; duty (RA + RB)/(RA + 2 RB)
  test('10 kΩ, 10 kΩ and 100 nF: 480 Hz and a duty of 2/3, within 1 %', () => {
    const sim = start(`${TIMER}
      resistor RA 10k from i20 to i21
      resistor RB 10k from h21 to h22
      capacitor CT 100n from i22 to i30
      wire WC from j30 to -j20
      wire WT from g22 to a40
      wire WU from b40 to a21`);
    const edges = changes(sim, 3, 6, 1e-6);
    const lengths = edges.slice(1).map((t, i) => t - edges[i]!);
    const [one, other] = [lengths[1]! + lengths[2]!, Math.max(lengths[1]!, lengths[2]!)];
    expect(Math.abs(1 / one / 480 - 1)).toBeLessThan(0.01);
    expect(Math.abs(other / one / (2 / 3) - 1)).toBeLessThan(0.01);
  });
});

describe('as a monostable', () => {
  const bench = (r: number, c: number) =>
    start(
      `${TIMER}
      resistor RT ${r} from i20 to i22
      capacitor CT ${c} from h22 to i30
      wire WD from g22 to g21
      wire WC from j30 to -j20
      resistor RP 10k from b21 to +a20
      push-button SB1 at e50
      wire WB from a21 to a50
      wire WM from a52 to -a40`,
      { bounce: false },
    );

  // tw = 1.1 R C: SOURCES.md S38
  test.each([
    [10e3, 1e-6],
    [91e3, 100e-9],
  ])('R %d Ω, C %d F: one pulse of 1.1 RC within 1 %, however long the button is held within it', (r, c) => {
    const sim = bench(r, c);
    expect(level(sim, 3)).toBe('L');
    const tw = 1.1 * r * c;
    const pressed = sim.now;
    sim.begin({ do: 'press', part: 'SB1' });
    sim.wait(tw / 20);
    sim.begin({ do: 'release', part: 'SB1' });
    expect(level(sim, 3)).toBe('H');
    const [end] = changes(sim, 3, 1, tw / 2000);
    expect(Math.abs((end! - pressed) / tw - 1)).toBeLessThan(0.01);
    sim.wait(tw);
    expect(level(sim, 3)).toBe('L');
  });
  // what 1.1 stands for: RC·ln 3, from 0 to two thirds of the supply
  test('100 kΩ and 100 nF: ln 3 = 1.0986 times RC, within 0.3 %', () => {
    const sim = bench(100e3, 100e-9);
    const pressed = sim.now;
    sim.begin({ do: 'press', part: 'SB1' });
    sim.wait(1e-4);
    sim.begin({ do: 'release', part: 'SB1' });
    const [end] = changes(sim, 3, 1, 1e-6);
    expect(Math.abs((end! - pressed) / (Math.log(3) * 10e-3) - 1)).toBeLessThan(0.003);
  });
  // the output stays high while TRIG is low: SOURCES.md S38
  test('a button held longer than the pulse makes it longer', () => {
    const sim = bench(10e3, 100e-9);
    sim.begin({ do: 'press', part: 'SB1' });
    sim.wait(5e-3);
    expect(level(sim, 3)).toBe('H');
    sim.begin({ do: 'release', part: 'SB1' });
    sim.wait(1e-5);
    expect(level(sim, 3)).toBe('L');
  });
});

test('CONT stands at two thirds of the supply, and a resistor to minus lowers both thresholds', () => {
  const sim = start(TIMER, { still: true });
  // 2/3 of 5 V: SOURCES.md S38
  expect(volts(sim, 5)).toBeCloseTo(10 / 3, 3);
  const lowered = start(`${TIMER}\nresistor RC 10k from j23 to j40\nwire WC from i40 to -j30`, { still: true });
  // 10 kΩ beside the divider's lower 10 kΩ: half of 5 V (derived)
  expect(volts(lowered, 5)).toBeCloseTo(2.5, 3);
});

/** An inverter's input on a capacitor that charges and discharges slowly through 100 kΩ. */
function thresholds(family: string, supply: number): { up: number; down: number } {
  const sim = start(
    `
    board-63 B1
    bench-supply PS1 ${supply} with ohms 1m
    switch PS1 set 1
    wire W1 from PS1.+ to +j1
    wire W2 from PS1.- to -j1
    wire W3 from -j2 to -a1
    schmitt-inverter U1 ${family} at e10
    wire WV from j10 to +j3
    wire WG from a16 to -a3
    dip-switch S1 at e30 with poles 1
    wire WS from j30 to +j30
    resistor RD 10 from a30 to -a30
    resistor RR ${family === 'LS' ? 1000 : 100e3} from b30 to b10
    capacitor CC ${family === 'LS' ? 10e-6 : 100e-9} from c10 to c40
    wire WC from a40 to -a35`,
    { bounce: false },
  );
  const passes = (closed: boolean): number => {
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed });
    const before = level(sim, 2);
    for (let turn = 0; turn < 20_000; turn++) {
      sim.wait(5e-6);
      if (level(sim, 2) !== before) return volts(sim, 1);
    }
    return Number.NaN;
  };
  const up = passes(true);
  sim.wait(0.2);
  return { up, down: passes(false) };
}

describe('a Schmitt input', () => {
  // at 4.5 V typical 2.5 and 1.6 V: SOURCES.md S39
  test('HC at 4.5 V turns at the typical 2.5 V and 1.6 V, within 1 %', () => {
    const { up, down } = thresholds('HC', 4.5);
    expect(Math.abs(up / 2.5 - 1)).toBeLessThan(0.01);
    expect(Math.abs(down / 1.6 - 1)).toBeLessThan(0.01);
  });
  // least and most of VT+, VT− and their difference: SOURCES.md S39
  test.each([
    [2, [0.7, 1.5], [0.3, 1.0], [0.2, 1.2]],
    [4.5, [1.55, 3.13], [0.9, 2.45], [0.4, 2.1]],
    [6, [2.1, 4.2], [1.2, 3.2], [0.5, 2.5]],
  ] as const)('HC at %d V keeps the limits of its sheet', (supply, [leastUp, mostUp], [leastDown, mostDown], [least, most]) => {
    const { up, down } = thresholds('HC', supply);
    for (const [value, low, high] of [
      [up, leastUp, mostUp],
      [down, leastDown, mostDown],
      [up - down, least, most],
    ] as const) {
      expect(value).toBeGreaterThanOrEqual(low);
      expect(value).toBeLessThanOrEqual(high);
    }
  });
  // 1.6 and 0.8 V typical: from memory
  test('LS turns at 1.6 V and 0.8 V, within 1 %', () => {
    const { up, down } = thresholds('LS', 5);
    expect(Math.abs(up / 1.6 - 1)).toBeLessThan(0.01);
    expect(Math.abs(down / 0.8 - 1)).toBeLessThan(0.01);
  });
});

describe('clocks', () => {
  test.each([
    [
      'crystal-oscillator',
      'crystal-oscillator U1 10k at e10\nwire WV from h10 to +j3\nwire WG from a16 to -a3\nwire WO from h16 to a30',
      3,
      0.5,
      1e4,
    ],
    [
      'clock-generator',
      'clock-generator U1 500 with duty 200m\nwire WV from U1.+ to +j3\nwire WG from U1.- to -a3\nwire WO from U1.out to a30',
      3,
      0.2,
      500,
    ],
  ])('%s has its rate and duty, to a thousandth', (_, lines, pin, duty, hertz) => {
    const sim = start(
      `board-63 B1\nbench-supply PS1\nswitch PS1 set 1\nwire W1 from PS1.+ to +j1\nwire W2 from PS1.- to -j1\nwire W3 from -j2 to -a1\n${lines}`,
    );
    const edges = changes(sim, pin, 4, 1e-3 / hertz / 4);
    const [first, second, third, fourth] = edges as [number, number, number, number];
    expect(Math.abs((third - first) * hertz - 1)).toBeLessThan(1e-3);
    expect(Math.abs((fourth - second) * hertz - 1)).toBeLessThan(1e-3);
    const part = (second - first) * hertz;
    expect(Math.min(Math.abs(part - duty), Math.abs(1 - part - duty))).toBeLessThan(1e-3);
  });
});
