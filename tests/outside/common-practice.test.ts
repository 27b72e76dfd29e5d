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
        board-63 B1
        bench-supply PS1
        switch PS1 set 1
        eeprom-2kx8 U1 at d12
        wire P1 red from PS1.+ to +j1
        wire P2 black from PS1.- to -j1
        wire P3 black from -j2 to -a1
        wire P4 red from +j10 to i12
        wire P5 black from -a20 to a23
        resistor R1 ${ohms} from a19 to -a18`);
      return sim.readings().chips[0]!.pins.find((p) => p.pin === '8')!.level;
    };
    expect(held('10k')).toBe('L');
    expect(held('47k')).toBe('L');
    // 0.8 V / 10 µA = 80 kΩ is the limit
    expect(held('82k')).toBe('X');
    expect(held('1M')).toBe('X');
  });
});
