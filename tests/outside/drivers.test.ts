/** What outputs can give and take, against the points of their data sheets; Darlington arrays, LEDs in a bar, the diode and the potentiometer. */
import { describe, expect, test } from 'vitest';
import { start } from '../support/bench.ts';
import { logicBench } from '../support/logic-bench.ts';

/** A hexadecimal output into a resistor that takes `amps` at `at` volts: what is on the pin [V]. */
function loaded(id: string, family: string, output: string, side: 'high' | 'low', set: Record<string, 0 | 1>, load: Load): number {
  const { at, amps, supply, drive } = load;
  const ohms = (side === 'high' ? at : supply - at) / amps;
  const bench = logicBench(id, {
    family,
    volts: supply,
    drive,
    more: (hole) => `resistor RL ${ohms} from ${hole(output)} to ${side === 'high' ? '-j20' : '+j20'}`,
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

describe('an output of HC at 6 V, where its curves are not fitted', () => {
  const inverter = ['schmitt-inverter', '1Y', { '1A': 0 }, { '1A': 1 }] as const;
  const buffer = ['octal-buffer', '1Y1', { '/1G': 0, '1A1': 1 }, { '/1G': 0, '1A1': 0 }] as const;
  // 5.2 mA (7.8 mA for a bus): high 5.8 V typical, 5.48 V guaranteed; low 0.15 V typical, 0.26 V guaranteed: from memory. One curve serves all supplies.
  test.each([
    ['standard', inverter, 5.2e-3],
    ['bus', buffer, 7.8e-3],
  ] as const)('%s: typical within 0.2 V of its sheet, guaranteed no better than its sheet', (_, [id, output, high, low], amps) => {
    const on = (side: 'high' | 'low', drive: Load['drive'], at: number) =>
      loaded(id, 'HC', output, side, side === 'high' ? high : low, { at, amps, supply: 6, drive });
    expect(Math.abs(on('high', 'typical', 5.8) - 5.8)).toBeLessThan(0.2);
    expect(Math.abs(on('low', 'typical', 0.15) - 0.15)).toBeLessThan(0.2);
    expect(on('high', 'guaranteed', 5.48)).toBeLessThanOrEqual(5.48);
    expect(on('low', 'guaranteed', 0.26)).toBeGreaterThanOrEqual(0.26);
  });
});

describe('the seven-segment drivers', () => {
  // at 5 V: 3.75 V typical and 3.40 V guaranteed at 20 mA: SOURCES.md S37; fitted are 10 and 25 mA
  test('the one with a latch gives what its sheet says between the fitted points, within 50 mV', () => {
    const on = { '/LT': 0, '/BL': 1, LE: 0 } as const;
    const at = (volts: number, amps: number, drive: Load['drive']) =>
      loaded('seven-segment-driver-latch', '', 'a', 'high', on, { at: volts, amps, supply: 5, drive });
    expect(Math.abs(at(3.75, 20e-3, 'typical') - 3.75)).toBeLessThan(0.05);
    expect(Math.abs(at(3.4, 20e-3, 'guaranteed') - 3.4)).toBeLessThan(0.05);
  });
  // open at 5 V: 4.55 V typical, 4.10 V guaranteed, beside a voltmeter of 10 MΩ: SOURCES.md S37
  test('the one with a latch has a high level of an emitter follower, open too', () => {
    const on = { '/LT': 0, '/BL': 1, LE: 0 } as const;
    const open = (drive: Load['drive']) =>
      loaded('seven-segment-driver-latch', '', 'a', 'high', on, { at: 4.5, amps: 4.5 / 10e6, supply: 5, drive });
    expect(Math.abs(open('typical') - 4.55)).toBeLessThan(0.03);
    expect(open('guaranteed')).toBeGreaterThanOrEqual(4.1);
    expect(open('guaranteed')).toBeLessThan(open('typical'));
  });
  // 1.3 mA at least, 2 mA typical, into 0.85 V: from memory; what is built in are the 2 kΩ of SOURCES.md S36
  test('the one with resistors inside gives a segment its current', () => {
    const volts = loaded(
      'seven-segment-driver-high',
      '',
      'a',
      'high',
      { '/LT': 0, '/BI-RBO': 1 },
      { at: 0.85, amps: 2e-3, supply: 5, drive: 'typical' },
    );
    const amps = volts / (0.85 / 2e-3);
    expect(amps).toBeGreaterThan(1.3e-3);
    expect(Math.abs(amps / 2e-3 - 1)).toBeLessThan(0.1);
  });
});

describe.each(['darlington-array-7', 'darlington-array-8'])('%s', (id) => {
  // 0.7 to 0.9 V: from memory
  test('at the current of one LED keeps 0.7 to 0.9 V', () => {
    const v = loaded(id, '', 'OUT1', 'low', { IN1: 1 }, { at: 0.8, amps: 10e-3, supply: 5, drive: 'typical' });
    expect(v).toBeGreaterThan(0.7);
    expect(v).toBeLessThan(0.9);
  });
  // 0.4 mA typical, 0.7 mA at most at 2.4 V: SOURCES.md S21; fitted is another point
  test('takes the input current of its sheet at 2.4 V', () => {
    const b = logicBench(id, { volts: 2.4, open: ['IN1'], more: (hole) => `resistor RI 10 from ${hole('IN1')} to +j20` });
    const amps = (2.4 - b.volts('IN1')) / 10;
    expect(amps).toBeLessThan(0.7e-3);
    expect(Math.abs(amps - 0.4e-3)).toBeLessThan(0.05e-3);
  });
  test('its diodes wire what is above COM away to COM', () => {
    const b = logicBench(id, {
      more: (hole) => `resistor RL 100 from ${hole('OUT1')} to +j20\nresistor RC 100 from ${hole('COM')} to -j20`,
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
      board-63 B1
      bench-supply PS1
      switch PS1 set 1
      wire W1 from PS1.+ to +j1
      wire W2 from PS1.- to -j1
      wire W3 from +j2 to +a1
      led-bar-graph DS1 at e10
      resistor RL 330 from a${row} to +a20
      wire WK from j${row} to -j20`,
      { still: true },
    );
    const { leds } = sim.readings();
    expect(leds.map((l) => l.led)).toEqual(Array.from({ length: 10 }, (_, i) => `DS1.${i + 1}`));
    expect(leds.map((l) => (l.brightness === 'lit' ? l.led : '')).join('')).toBe(`DS1.${n}`);
    // as a single red LED behind 330 Ω: the reference of LED.test.ts, 9.41 mA
    expect(leds[n - 1]!.amps * 1e3).toBeCloseTo(9.41, 1);
  }
});

// fitted is 0.72 V at 10 mA
test('a diode keeps 0.5 to 0.65 V at 1 mA and 0.8 to 1 V at 100 mA, from memory, and lets nothing through the other way', () => {
  const across = (ohms: number, turned = false) => {
    const [a, k] = turned ? ['b10', 'b5'] : ['b5', 'b10'];
    const sim = start(
      `board-63 B1\nbench-supply PS1 5 with ohms 1m\nswitch PS1 set 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a10\nresistor R1 ${ohms} from b1 to a5\ndiode D1 from ${a} to ${k}`,
      { still: true },
    );
    return sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/5a')!.index]!.volts;
  };
  const between = (volts: number, least: number, most: number) => expect(least < volts && volts < most, String(volts)).toBe(true);
  between(across(4.4e3), 0.5, 0.65);
  between(across(41), 0.8, 1);
  expect(across(428, true)).toBeCloseTo(5, 3);
});

test('a potentiometer divides as its wiper stands: closed form of two resistors', () => {
  for (const wiper of [0.1, 0.25, 0.5, 0.9]) {
    const sim = start(
      `board-63 B1\nbench-supply PS1 with ohms 1m\nswitch PS1 set 1\nwire W1 from PS1.- to a10\nwire W2 from PS1.+ to a12\npotentiometer VR1 10k at b10 with wiper ${wiper}`,
      { still: true },
    );
    expect(sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/11a')!.index]!.volts).toBeCloseTo(5 * wiper, 4);
  }
});
