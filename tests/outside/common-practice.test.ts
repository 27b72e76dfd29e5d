/** Figures that every bench of this kind uses: common practice, no source, except where a line says otherwise. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eeprom2kTiming } from '../../sim-core/parts/memory/timing.ts';
import { start } from '../support/bench.ts';

const demo = (id: string) => JSON.parse(readFileSync(`shared/demos/${id}.plan.json`, 'utf8')) as Plan;
const ohmsOf = (plan: Plan, id: RegExp) => plan.parts.filter((p) => id.test(p.id) && p.kind === 'resistor').map((p) => p.params?.ohms);

describe('common practice', () => {
  test('a write pulse lasts 100 to 1000 ns, address stands 10 before and 50 ns after, data 50 before and 10 ns after, /OE is high 10 before and 10 ns after', () => {
    const t = eeprom2kTiming;
    const ns = [t.pulseLeast, t.pulseMost ?? 0, ...Object.values(t.least)].map((s) => Math.round(s * 1e9));
    expect(ns).toEqual([100, 1000, 10, 50, 50, 10, 10, 10]);
  });
  test('the greenhouse limits each LED with 330 Ω and pulls each sensor down with 10 kΩ', () => {
    expect(ohmsOf(demo('greenhouse'), /^R[0-7]$/)).toEqual(Array(8).fill(330));
    expect(demo('greenhouse').parts.filter((p) => p.params?.ohms === 10_000)).toHaveLength(5);
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
