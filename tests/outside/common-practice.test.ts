/** Figures that every bench of this kind uses: common practice, no source, except where a line says otherwise. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { start } from '../support/bench.ts';

const demo = (id: string) => JSON.parse(readFileSync(`shared/demos/${id}.plan.json`, 'utf8')) as Plan;

describe('common practice', () => {
  // normal indicators 2 to 10 mA: from memory; fitted is none of it, since the greenhouse only says which resistors it has
  test('every LED of the greenhouse that is lit carries the current of an indicator', () => {
    const sim = start({ ...demo('greenhouse'), switches: {} });
    sim.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
    const lit = new Set<string>();
    for (let setting = 0; setting < 32; setting++) {
      for (let pole = 0; pole < 5; pole++) sim.act({ do: 'set', part: 'S1', pole, closed: ((setting >> pole) & 1) === 1 });
      for (const { led, amps, brightness } of sim.readings().leds) {
        if (brightness === 'dark') continue;
        lit.add(led);
        expect(amps, `${led} at ${setting}`).toBeGreaterThan(2e-3);
        expect(amps, `${led} at ${setting}`).toBeLessThan(10e-3);
      }
    }
    expect(lit.size).toBeGreaterThan(4);
  });
  test('a 10 kΩ pull-down holds an open input low, a 1 MΩ one does not: 10 µA of leakage make 0.1 V and 10 V', () => {
    const held = (ohms: string) => {
      const sim = start(`
        B1 board-63
        PS1 bench-supply
        PS1 hands 1
        U1 eeprom-2kx8 d12
        P1 wire PS1.+ +j1 red
        P2 wire PS1.- -j1 black
        P3 wire -j2 -a1 black
        P4 wire +j10 i12 red
        P5 wire -a20 a23 black
        R1 resistor a19 -a18 ohms=${ohms}`);
      return sim.readings().chips[0]!.pins.find((p) => p.pin === '8')!.level;
    };
    expect(held('10k')).toBe('L');
    expect(held('47k')).toBe('L');
    // 0.8 V / 10 µA = 80 kΩ is the limit
    expect(held('82k')).toBe('X');
    expect(held('1M')).toBe('X');
  });
});
