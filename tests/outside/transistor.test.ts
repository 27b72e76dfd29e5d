/** A transistor as a switch against the closed forms of Ebers and Moll 1954 (Proc. IRE 42(12)). */
import { describe, expect, test } from 'vitest';
import { THERMAL_VOLTAGE } from '../../sim-core/devices/device-models.ts';
import { start } from '../support/bench.ts';

/** Emitter to minus, collector through `load` and base through `drive` to plus; volts of collector and base. */
function atWork(load: number, drive: number, gain = 150) {
  const sim = start(`
    board-30 B1
    bench-supply PS1 with ohms 1m
    switch PS1 set 1
    wire W1 red from PS1.+ to +j1
    wire W2 black from PS1.- to a10
    npn-transistor Q1 at b10 with gain ${gain}
    resistor R1 ${load} from a12 to a20
    resistor R2 ${drive} from a11 to a25
    wire W3 red from b20 to +j10
    wire W4 red from b25 to +j11`);
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
      board-30 B1
      bench-supply PS1
      switch PS1 set 1
      wire W1 red from PS1.+ to +j1
      wire W2 black from PS1.- to a10
      npn-transistor Q1 at b10
      resistor R1 1k from a12 to a20
      resistor R2 10k from a11 to a5
      wire W3 red from b20 to +j10
      wire W4 black from b5 to c10`);
    expect(sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/12a')!.index]!.volts).toBeCloseTo(5, 5);
  });
  test('lights an LED that a memory pin alone could not, and follows the pin', () => {
    const bench = (byte: string) => `
      board-63 B1
      bench-supply PS1
      eeprom-2kx8 U1 at d12
      capacitor C1 100n from j12 to -j9
      wire P1 red from PS1.+ to +j1
      wire P2 black from PS1.- to -j1
      wire P3 black from -j2 to -a1
      wire P4 red from +j10 to i12
      wire P5 black from -a20 to a23
      wire P6 black from -j14 to i18
      wire OE black from i16 to -j16
      wire WE red from i15 to +j14
      ${[12, 13, 14, 15, 16, 17, 18, 19].map((row) => `wire A${row} black from a${row} to -a${row - 10}`).join('\n')}
      wire P13 black from -j11 to i13
      wire P14 black from -j12 to i14
      wire P15 black from -j15 to i17
      switch PS1 set 1
      resistor RB 10k from a20 to a40
      npn-transistor Q1 at b39
      wire E1 black from a39 to -a35
      led LED1 red from b45 to c41
      resistor RL 150 from a45 to +a40
      wire PA red from +j11 to +a45
      memory U1 000 ${byte}`;
    expect(start(bench('FF')).readings().leds[0]!.amps).toBeGreaterThan(0.015);
    expect(start(bench('FE')).readings().leds[0]!.brightness).toBe('dark');
  });
});
