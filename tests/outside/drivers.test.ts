/** What outputs can give and take, against the points of their data sheets; Darlington arrays, LEDs in a bar, the diode and the potentiometer. */
import { describe, expect, test } from 'vitest';
import { start } from '../support/bench.ts';
import { logicBench } from '../support/logic-bench.ts';

/** A hexadecimal output into a resistor that takes `amps` at `at` volts: what is on the pin [V]. */
function loaded(id: string, params: string, output: string, side: 'high' | 'low', set: Record<string, 0 | 1>, load: Load): number {
  const { at, amps, supply, drive } = load;
  const ohms = (side === 'high' ? at : supply - at) / amps;
  const bench = logicBench(id, {
    params,
    volts: supply,
    drive,
    more: (hole) => `RL resistor ${hole(output)} ${side === 'high' ? '-j20' : '+j20'} ohms=${ohms}`,
  });
  bench.set(set);
  return bench.volts(output);
}
interface Load {
  readonly at: number;
  readonly amps: number;
  readonly supply: number;
  readonly drive: 'typical' | 'guaranteed';
}

describe('an output under load has the voltage that its sheet gives, within 10 mV', () => {
  const inverter = ['schmitt-inverter', '1Y', { '1A': 0 }, { '1A': 1 }] as const;
  const buffer = ['octal-buffer', '1Y1', { '/1G': 0, '1A1': 1 }, { '/1G': 0, '1A1': 0 }] as const;
  // SOURCES.md S15, S16 for HC; S17, S18 for LS, of which the typical low levels are from memory
  test.each([
    ['HC standard', inverter, 'family=HC', 4.5, 4e-3, [4.32, 3.98], 4e-3, [0.15, 0.26]],
    ['HCT standard', inverter, 'family=HCT', 4.5, 4e-3, [4.32, 3.98], 4e-3, [0.15, 0.26]],
    ['HC bus', buffer, 'family=HC', 4.5, 6e-3, [4.2, 3.98], 6e-3, [0.2, 0.26]],
    ['LS standard', inverter, 'family=LS', 4.75, 0.4e-3, [3.4, 2.7], 8e-3, [0.35, 0.5]],
    ['LS bus', buffer, 'family=LS', 4.75, 2.6e-3, [3.3, 2.4], 24e-3, [0.35, 0.5]],
  ] as const)('%s', (_, [id, output, high, low], params, supply, source, highs, sink, lows) => {
    for (const [i, drive] of (['typical', 'guaranteed'] as const).entries()) {
      const up = { at: highs[i]!, amps: source, supply, drive };
      expect(Math.abs(loaded(id, params, output, 'high', high, up) - up.at), `${drive} high`).toBeLessThan(0.01);
      const down = { at: lows[i]!, amps: sink, supply, drive };
      expect(Math.abs(loaded(id, params, output, 'low', low, down) - down.at), `${drive} low`).toBeLessThan(0.01);
    }
  });

  // 4.10, 3.75 and 3.55 V typical, 3.90, 3.40 and 3.10 V guaranteed at 10, 20 and 25 mA: SOURCES.md S37; the middle ones are not fitted
  test('the digit driver with a latch, within 50 mV', () => {
    const on = { '/LT': 0, '/BL': 1, LE: 0 } as const;
    for (const [amps, typical, guaranteed] of [
      [10e-3, 4.1, 3.9],
      [20e-3, 3.75, 3.4],
      [25e-3, 3.55, 3.1],
    ] as const)
      for (const [drive, at] of [
        ['typical', typical],
        ['guaranteed', guaranteed],
      ] as const)
        expect(
          Math.abs(loaded('seven-segment-driver-latch', '', 'a', 'high', on, { at, amps, supply: 5, drive }) - at),
          `${drive} at ${amps}`,
        ).toBeLessThan(0.05);
  });
  // 0.5 V at 24 mA, at 6 mA: SOURCES.md S36
  test('the digit drivers sink what they must', () => {
    const low = { at: 0.5, supply: 5, drive: 'guaranteed' } as const;
    expect(loaded('seven-segment-driver-low', '', 'a', 'low', { '/LT': 0, '/BI-RBO': 1 }, { ...low, amps: 24e-3 })).toBeCloseTo(0.5, 2);
    // 2 kΩ inside takes its share
    expect(loaded('seven-segment-driver-high', '', 'a', 'low', { '/LT': 1, '/BI-RBO': 0 }, { ...low, amps: 6e-3 - 4.5 / 2e3 })).toBeCloseTo(
      0.5,
      2,
    );
  });
});

describe.each(['darlington-array-7', 'darlington-array-8'])('%s', (id) => {
  // typical and most: SOURCES.md S20, S21
  test.each([
    [0.1, 0.9, 1.1],
    [0.2, 1.0, 1.3],
    [0.35, 1.3, 1.6],
  ])('at %d A leaves the voltage of its sheet, within 10 mV', (amps, typical, most) => {
    for (const [drive, at] of [
      ['typical', typical],
      ['guaranteed', most],
    ] as const) {
      const v = loaded(id, '', 'OUT1', 'low', { IN1: 1 }, { at, amps, supply: 5, drive });
      expect(Math.abs(v - at), drive).toBeLessThan(0.01);
    }
  });
  // 0.7 to 0.9 V: from memory
  test('at the current of one LED keeps 0.7 to 0.9 V', () => {
    const v = loaded(id, '', 'OUT1', 'low', { IN1: 1 }, { at: 0.8, amps: 10e-3, supply: 5, drive: 'typical' });
    expect(v).toBeGreaterThan(0.7);
    expect(v).toBeLessThan(0.9);
  });
  // 0.93 mA typical at 3.85 V; 0.4 typical, 0.7 mA at most at 2.4 V: SOURCES.md S20, S21
  test('takes the input current of its sheet', () => {
    const into = (volts: number) => {
      const b = logicBench(id, { volts, open: ['IN1'], more: (hole) => `RI resistor ${hole('IN1')} +j20 ohms=10` });
      return (volts - b.volts('IN1')) / 10;
    };
    expect(into(3.8593) * 1e3).toBeCloseTo(0.93, 3);
    expect(into(2.4)).toBeLessThan(0.7e-3);
    expect(Math.abs(into(2.4) - 0.4e-3)).toBeLessThan(0.05e-3);
  });
  test('its diodes wire what is above COM away to COM', () => {
    const b = logicBench(id, {
      more: (hole) => `RL resistor ${hole('OUT1')} +j20 ohms=100\nRC resistor ${hole('COM')} -j20 ohms=100`,
    });
    // from plus through 100 Ω, a diode and 100 Ω to minus (derived): at some 18 mA the diode keeps about 1.1 V
    const [out, com] = [b.volts('OUT1'), b.volts('COM')];
    expect(out - com).toBeGreaterThan(0.9);
    expect(out - com).toBeLessThan(1.5);
    expect((5 - out) / 100).toBeCloseTo(com / 100, 3);
  });
});

// LED n between pins n and 21 − n: from memory
test('a bar of ten LEDs lights LED n from pin n to pin 21 − n, and no other', () => {
  for (let n = 1; n <= 10; n++) {
    const row = 9 + n;
    const sim = start(
      `
      B1 board-63
      PS1 bench-supply
      PS1 hands 1
      W1 wire PS1.+ +j1
      W2 wire PS1.- -j1
      W3 wire +j2 +a1
      DS1 led-bar-graph e10
      RL resistor a${row} +a20 ohms=330
      WK wire j${row} -j20`,
      { still: true },
    );
    const { leds } = sim.readings();
    expect(leds.map((l) => l.led)).toEqual(Array.from({ length: 10 }, (_, i) => `DS1.${i + 1}`));
    expect(leds.map((l) => (l.glow === 'lit' ? l.led : '')).join('')).toBe(`DS1.${n}`);
    // as a single red LED behind 330 Ω: the reference of LED.test.ts, 9.41 mA
    expect(leds[n - 1]!.amps * 1e3).toBeCloseTo(9.41, 1);
  }
});

test('a diode lets current through one way: 0.72 V at 10 mA, from memory', () => {
  const across = (turned: boolean) => {
    const [a, k] = turned ? ['b10', 'b5'] : ['b5', 'b10'];
    const sim = start(
      `B1 board-63\nPS1 bench-supply ohms=0.001 volts=5\nPS1 hands 1\nW1 wire PS1.+ a1\nW2 wire PS1.- a10\nR1 resistor b1 a5 ohms=428\nD1 diode ${a} ${k}`,
      { still: true },
    );
    return sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/5a')!.index]!.volts;
  };
  expect(across(false)).toBeCloseTo(0.72, 3);
  expect(across(true)).toBeCloseTo(5, 3);
});

test('a potentiometer divides as its wiper stands: closed form of two resistors', () => {
  for (const wiper of [0.1, 0.25, 0.5, 0.9]) {
    const sim = start(
      `B1 board-63\nPS1 bench-supply ohms=0.001\nPS1 hands 1\nW1 wire PS1.- a10\nW2 wire PS1.+ a12\nVR1 potentiometer b10 ohms=10k wiper=${wiper}`,
      { still: true },
    );
    expect(sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/11a')!.index]!.volts).toBeCloseTo(5 * wiper, 4);
  }
});
