/** A transistor as a switch against the closed forms of Ebers and Moll 1954 (Proc. IRE 42(12)). */
import { describe, expect, test } from 'vitest';
import { THERMAL_VOLTAGE } from '../../sim-core/devices/device-models.ts';
import { start } from '../support/bench.ts';

/** Emitter to minus, collector through `load` and base through `drive` to plus; volts of collector and base. */
function atWork(load: number, drive: number, gain = 150) {
  const sim = start(`
    B1 board-30
    PS1 bench-supply ohms=0.001
    PS1 hands 1
    W1 wire PS1.+ +j1 red
    W2 wire PS1.- a10 black
    Q1 npn-transistor b10 gain=${gain}
    R1 resistor a12 a20 ohms=${load}
    R2 resistor a11 a25 ohms=${drive}
    W3 wire b20 +j10 red
    W4 wire b25 +j11 red`);
  const volts = (strip: string) => sim.readings().nets[sim.circuit.nets.ofStrip.get(strip)!.index]!.volts;
  const [collector, base] = [volts('B1/12a'), volts('B1/11a')];
  return { collector, base, ic: (5 - collector) / load, ib: (5 - base) / drive };
}

describe('an NPN transistor', () => {
  test('carries its gain times the base current while it is not saturated', () => {
    for (const gain of [50, 150, 400]) {
      const { ic, ib, collector } = atWork(100, 1e6, gain);
      expect(collector).toBeGreaterThan(1);
      expect(Math.abs(ic / ib / gain - 1)).toBeLessThan(1e-4);
    }
  });
  test('saturates at the voltage of the closed form, beside what its series resistances take', () => {
    for (const [load, drive] of [
      [1000, 10_000],
      [470, 4700],
      [330, 2200],
    ] as const) {
      const { ic, ib, collector } = atWork(load, drive);
      // V = kT/q · ln((1/αR + (Ic/Ib)/βR) / (1 − (Ic/Ib)/βF)), αR = 5/6
      const ideal = THERMAL_VOLTAGE * Math.log((6 / 5 + ic / ib / 5) / (1 - ic / ib / 150));
      expect(ic / ib).toBeLessThan(20);
      // both junctions have 50 mΩ, and neither carries more than collector and base current together
      expect(Math.abs(collector - ideal)).toBeLessThan(0.1 * (ic + ib) + 1e-6);
    }
  });
  test('without base current it is open', () => {
    const sim = start(`
      B1 board-30
      PS1 bench-supply
      PS1 hands 1
      W1 wire PS1.+ +j1 red
      W2 wire PS1.- a10 black
      Q1 npn-transistor b10
      R1 resistor a12 a20 ohms=1k
      R2 resistor a11 a5 ohms=10k
      W3 wire b20 +j10 red
      W4 wire b5 c10 black`);
    expect(sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/12a')!.index]!.volts).toBeCloseTo(5, 5);
  });
  test('lights an LED that a memory pin alone could not, and follows the pin', () => {
    const bench = (byte: string) => `
      B1 board-63
      PS1 bench-supply
      U1 eeprom-2kx8 d12
      C1 capacitor j12 -j9 farads=100n
      P1 wire PS1.+ +j1 red
      P2 wire PS1.- -j1 black
      P3 wire -j2 -a1 black
      P4 wire +j10 i12 red
      P5 wire -a20 a23 black
      P6 wire -j14 i18 black
      OE wire i16 -j16 black
      WE wire i15 +j14 red
      ${[12, 13, 14, 15, 16, 17, 18, 19].map((row) => `A${row} wire a${row} -a${row - 10} black`).join('\n')}
      P13 wire -j11 i13 black
      P14 wire -j12 i14 black
      P15 wire -j15 i17 black
      PS1 hands 1
      RB resistor a20 a40 ohms=10k
      Q1 npn-transistor b39
      E1 wire a39 -a35 black
      D1 led b45 c41 colour=red
      RL resistor a45 +a40 ohms=150
      PA wire +j11 +a45 red
      U1 memory 000=${byte}`;
    expect(start(bench('FF')).readings().leds[0]!.amps).toBeGreaterThan(0.015);
    expect(start(bench('FE')).readings().leds[0]!.brightness).toBe('dark');
  });
});
