/** What is read off a bench: levels of pins where an output is unknown, meters, and voltages against a chip's own ground. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import type { Simulation } from '../../sim-core/index.ts';
import { MEMORY, planOf, start } from '../support/bench.ts';

const FED = `
  B1 board-63
  PS1 bench-supply
  PS1 hands 1
  WP wire PS1.+ +j1
  WN wire PS1.- -j1
  WA wire +j2 +a1
  WB wire -j2 -a1`;
/** Six inverters at e20: 1A a20, 1Y a21, 2A a22, 2Y a23, 3A a24, 3Y a25, GND a26; on the other side 4Y j26, 4A j25, 5Y j24, 5A j23, 6Y j22, 6A j21, VCC j20. */
const INVERTER = `${FED}
  U1 schmitt-inverter e20
  WG wire a26 -a2
  WV wire j20 +j3`;
const levels = (sim: Simulation, part = 'U1') =>
  sim
    .readings()
    .chips.find((c) => c.part === part)!
    .pins.map((p) => p.level ?? '-')
    .join('');

describe('the level of a pin', () => {
  test('is X at the output of the gate whose input floats, and at no other', () => {
    const sim = start(`${INVERTER}\n WI wire a22 -a3\n WJ wire a24 +a3\n W4 wire j25 -j5\n W6 wire j21 +j5`);
    // 1A 1Y 2A 2Y 3A 3Y GND, 4Y 4A 5Y 5A 6Y 6A VCC
    expect(levels(sim)).toBe('XXLHHL-HLXXLH-');
  });

  test('is what holds it where letting go and driving give the same, at the output itself too', () => {
    /** A memory with its /OE floating and this byte at its address; D0 held by a resistor. */
    const at = (byte: string, held: string) => {
      const sim = start(
        `${MEMORY}\n V1 wire a18 -a17\n V0 wire a19 -a18\n WE wire i15 +j14\n WR wire +j20 +a20\n U1 memory 0=${byte}\n R1 resistor a20 ${held}30 ohms=10k`,
      );
      return [sim.readings().chips[0]!.pins[8]!.level, sim.readings().chips[0]!.pins[9]!.level];
    };
    expect(at('00', '-a')).toEqual(['L', 'X']);
    expect(at('01', '+a')).toEqual(['H', 'X']);
    expect(at('00', '+a')).toEqual(['X', 'X']);
    expect(at('01', '-a')).toEqual(['X', 'X']);
  });

  test('and its voltage are taken against the ground pin of its chip', () => {
    const lifted = INVERTER.replace('WG wire a26 -a2', 'RG resistor a26 -a2 ohms=100').replace(
      'schmitt-inverter e20',
      'schmitt-inverter e20 family=LS',
    );
    const sim = start(`${lifted}\n WI wire a22 -a3\n R1 resistor a23 -a9 ohms=1k`);
    const pins = sim.readings().chips[0]!.pins;
    const ground = sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/26a')!.index]!.volts;
    expect(ground).toBeGreaterThan(0.1);
    expect(pins[2]!.volts).toBeCloseTo(-ground, 9);
    expect(pins[6]!.volts).toBe(0);
    expect(pins[13]!.volts).toBeCloseTo(sim.readings().chips[0]!.supply, 9);
    expect(sim.readings().chips[0]!.supply).toBeCloseTo(5 - ground, 2);
  });
});

describe('a level that changes slowly', () => {
  test('is told to the first input of the second chip as to any other, down and up', () => {
    const second = 'U2 schmitt-inverter e40\n WH wire a46 -a12\n WW wire j40 +j13';
    const slow =
      'S1 dip-switch e10 poles=1\n S1 hands 1\n WS wire a10 +a5\n WT wire j10 h50\n WX wire g50 a40\n R1 resistor f50 -j25 ohms=10k\n C1 capacitor i50 -j26 farads=1n';
    const sim = start(`${INVERTER}\n ${second}\n ${slow}`, { bounce: false });
    const pins = () => levels(sim, 'U2').slice(0, 2);
    expect(pins()).toBe('HL');
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed: false });
    // 2.78 V after 5.9 µs, 1.78 V after 10.3 µs: typical thresholds of HC at 5 V
    sim.wait(4e-6);
    expect(pins()).toBe('HL');
    sim.rest();
    expect(pins()).toBe('LH');
    sim.act({ do: 'set', part: 'S1', pole: 0, closed: true });
    expect(pins()).toBe('HL');
  });
});

describe('a meter', () => {
  const LED = 'LED1 led a40 a44\n R1 resistor b44 b50 ohms=330\n W1 wire b40 +a9\n W2 wire a50 -a9';
  const reads = (meters: Plan['meters'], more = '') => start({ ...planOf(`${FED}\n ${LED}\n ${more}`), meters }).readings();

  test('for volts reads from its red probe to its black one, or to ground; nothing in an empty row', () => {
    const { meters, leds } = reads([
      { id: 'M1', measures: 'volts', at: 'a40', against: 'b44' },
      { id: 'M2', measures: 'volts', at: 'b44', against: 'a40' },
      { id: 'M3', measures: 'volts', at: 'c44' },
      { id: 'M4', measures: 'volts', at: '-a20' },
      { id: 'M5', measures: 'volts', at: 'c44', against: '+a20' },
      { id: 'M6', measures: 'volts', at: 'a60', against: 'b44' },
      { id: 'M7', measures: 'volts', at: 'c44', against: 'a60' },
    ]);
    const { volts, amps } = leds[0]!;
    expect(meters.M1).toBeCloseTo(volts, 6);
    expect(meters.M2).toBeCloseTo(-volts, 6);
    expect(meters.M3).toBeCloseTo(330 * amps, 4);
    expect(meters.M4).toBe(0);
    expect(meters.M5).toBeCloseTo(-volts, 4);
    expect(meters.M6).toBe(0);
    expect(meters.M7).toBeCloseTo(330 * amps, 4);
  });

  test('for amperes reads what flows from the net into the leg', () => {
    const { meters, leds } = reads([
      { id: 'M1', measures: 'amps', leg: 'LED1.1' },
      { id: 'M2', measures: 'amps', leg: 'LED1.2' },
      { id: 'M3', measures: 'amps', leg: 'R1.1' },
      { id: 'M4', measures: 'amps', leg: 'PS1.-' },
      { id: 'M5', measures: 'amps', leg: 'PS1.+' },
    ]);
    const { amps } = leds[0]!;
    expect(amps).toBeGreaterThan(5e-3);
    for (const [id, sign] of Object.entries({ M1: 1, M2: -1, M3: 1, M4: 1, M5: -1 })) expect(meters[id], id).toBeCloseTo(sign * amps, 7);
  });

  test('at an output and at the supply pins shows which of them carries it: a high one from the supply, a low one to ground', () => {
    const meters: Plan['meters'] = ['2', '7', '14'].map((n) => ({ id: `M${n}`, measures: 'amps', leg: `U1.${n}` }));
    const inverter = (input: string, load: string) =>
      start({ ...planOf(`${INVERTER}\n WI wire a20 ${input}\n R1 resistor a21 ${load} ohms=1k`), meters }).readings().meters;
    const high = inverter('-a3', '-a30');
    expect(high.M2).toBeLessThan(-4e-3);
    expect(high.M14).toBeCloseTo(-high.M2!, 3);
    expect(high.M7).toBeCloseTo(0, 3);
    const low = inverter('+a3', '+a30');
    expect(low.M2).toBeGreaterThan(4e-3);
    expect(low.M7).toBeCloseTo(-low.M2!, 3);
    expect(low.M14).toBeCloseTo(0, 3);
  });
});
