/** What is read off a bench: levels of pins where an output is unknown, meters, and voltages against a chip's own ground. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import type { Simulation } from '../../sim-core/index.ts';
import { BRIGHTNESSES } from '../../sim-core/run/readout/readings.ts';
import { MEMORY, planOf, start } from '../support/bench.ts';

const FED = `
  board-63 B1
  bench-supply PS1
  switch PS1 set 1
  wire WP from PS1.+ to +j1
  wire WN from PS1.- to -j1
  wire WA from +j2 to +a1
  wire WB from -j2 to -a1`;
/** Six inverters at e20: 1A a20, 1Y a21, 2A a22, 2Y a23, 3A a24, 3Y a25, GND a26; on the other side 4Y j26, 4A j25, 5Y j24, 5A j23, 6Y j22, 6A j21, VCC j20. */
const INVERTER = `${FED}
  schmitt-inverter U1 at e20
  wire WG from a26 to -a2
  wire WV from j20 to +j3`;
const levels = (sim: Simulation, part = 'U1') =>
  sim
    .readings()
    .chips.find((c) => c.part === part)!
    .pins.map((p) => p.level ?? '-')
    .join('');

describe('the level of a pin', () => {
  test('is X at the output of the gate whose input floats, and at no other', () => {
    const sim = start(
      `${INVERTER}\n wire WI from a22 to -a3\n wire WJ from a24 to +a3\n wire W4 from j25 to -j5\n wire W6 from j21 to +j5`,
    );
    // 1A 1Y 2A 2Y 3A 3Y GND, 4Y 4A 5Y 5A 6Y 6A VCC
    expect(levels(sim)).toBe('XXLHHL-HLXXLH-');
  });

  test('is what holds it where letting go and driving give the same, at the output itself too', () => {
    /** A memory with its /OE floating and this byte at its address; D0 held by a resistor. */
    const at = (byte: string, held: string) => {
      const sim = start(
        `${MEMORY}\n wire V1 from a18 to -a17\n wire V0 from a19 to -a18\n wire WE from i15 to +j14\n wire WR from +j20 to +a20\n memory U1 0 ${byte}\n resistor R1 10k from a20 to ${held}30\n resistor R7 10k from j19 to -j30`,
      );
      return [8, 9, 16].map((i) => sim.readings().chips[0]!.pins[i]!.level);
    };
    expect(at('00', '-a')).toEqual(['L', 'X', 'L']);
    expect(at('01', '+a')).toEqual(['H', 'X', 'L']);
    expect(at('00', '+a')).toEqual(['X', 'X', 'L']);
    expect(at('81', '-a')).toEqual(['X', 'X', 'X']);
  });

  test('and its voltage are taken against the ground pin of its chip', () => {
    const lifted = INVERTER.replace('wire WG from a26 to -a2', 'resistor RG 100 from a26 to -a2').replace(
      'schmitt-inverter U1 at e20',
      'schmitt-inverter U1 at e20 with family LS',
    );
    const sim = start(`${lifted}\n wire WI from a22 to -a3\n resistor R1 1k from a23 to -a9`);
    const pins = sim.readings().chips[0]!.pins;
    const ground = sim.readings().nets[sim.circuit.nets.ofStrip.get('B1/26a')!.index]!.volts;
    expect(ground).toBeGreaterThan(0.1);
    expect(pins[2]!.volts).toBeCloseTo(-ground, 9);
    expect(pins[6]!.volts).toBe(0);
    expect(pins[13]!.volts).toBeCloseTo(sim.readings().chips[0]!.supply, 9);
    expect(sim.readings().chips[0]!.supply).toBeCloseTo(5 - ground, 2);
  });
});

describe('what a net is driven by', () => {
  const drives = (load: string, hole: string) => {
    const sim = start(`${INVERTER}\n wire WI from a20 to -a3\n wire WJ from a22 to +a3\n ${load}`);
    return sim.readings().nets[sim.circuit.nets.ofStrip.get(hole)!.index]!.drive;
  };
  test('an output that gives 4 mA and reaches its level drives it, high and low; against another it is in contention', () => {
    const high = drives('resistor R1 1k from a21 to -a30', 'B1/21a');
    const low = drives('resistor R1 1k from a23 to +a30', 'B1/23a');
    expect([high, low]).toEqual(['driven', 'driven']);
    expect(drives('wire W1 from b21 to b23', 'B1/21a')).toBe('contention');
  });
  test('an output whose input floats leaves it unknown, and another output of the chip does not', () => {
    expect(drives('', 'B1/25a')).toBe('unknown');
    expect(drives('', 'B1/21a')).toBe('driven');
    expect(drives('', 'B1/24a')).toBe('floating');
    expect(drives('resistor R1 1k from a25 to a40', 'B1/40a')).toBe('unknown');
  });
  test('a resistor holds it weakly up to 2 MΩ, firmly below 500 Ω (our choices)', () => {
    const through = (ohms: string) => drives(`resistor R1 ${ohms} from a40 to -a30`, 'B1/40a');
    expect(['470', '560', '1.8M', '2.2M'].map(through)).toEqual(['driven', 'weak', 'weak', 'floating']);
  });
});

test('brightness without sentences is the same as with them, where an output of one chip is unknown and those of another are not', () => {
  const second =
    'schmitt-inverter U2 at e40\n wire V1 from a46 to -a12\n wire V2 from j40 to +j13\n wire V3 from a40 to -a13\n wire V4 from a42 to -a14\n wire V5 from a44 to -a15\n wire V6 from j45 to -j15\n wire V7 from j43 to -j16\n wire V8 from j41 to -j17';
  const sim = start(
    `${INVERTER}\n ${second}\n wire WJ from a22 to -a3\n led LED1 from b21 to b50\n resistor R1 1k from a50 to -a30\n led LED2 from b23 to b53\n resistor R2 1k from a53 to -a33`,
  );
  const levels = new Uint8Array(2);
  sim.brightnesses(levels);
  const { leds } = sim.readings();
  expect([...levels].map((k) => BRIGHTNESSES[k])).toEqual(leds.map((l) => l.brightness));
  expect(leds.map((l) => l.brightness)).toEqual(['unknown', 'lit']);
});

test('a bench of resistors and LEDs comes to rest in the moment in which a switch is moved', () => {
  const sim = start(
    `${FED}\n dip-switch S1 at e10 with poles 1\n wire W1 from a10 to +a5\n led LED1 from j10 to j20\n resistor R1 330 from i20 to -j20`,
    { bounce: false },
  );
  const before = sim.now;
  sim.act({ do: 'set', part: 'S1', pole: 0, closed: true });
  expect(sim.now).toBe(before);
  expect(sim.readings().leds[0]!.brightness).toBe('lit');
});

test('a memory takes more current while it works than at rest, each time', () => {
  const sim = start(
    `${MEMORY}\n wire V1 from a18 to -a17\n wire V0 from a19 to -a18\n wire WE from i15 to +j14\n dip-switch S1 at e40 with poles 1\n wire W1 from a40 to -a30\n wire W2 from j40 to i16\n resistor RO 10k from j16 to +j20`,
    { bounce: false },
  );
  const amps = () => sim.readings().supplies[0]!.amps;
  const set = (closed: boolean) => sim.act({ do: 'set', part: 'S1', pole: 0, closed });
  const first = amps();
  set(true);
  const second = amps();
  set(false);
  expect(amps()).toBeCloseTo(first, 6);
  set(true);
  expect(amps()).toBeCloseTo(second, 6);
});

describe('a level that changes slowly', () => {
  test('is told to the first input of the second chip as to any other, down and up', () => {
    const second = 'schmitt-inverter U2 at e40\n wire WH from a46 to -a12\n wire WW from j40 to +j13';
    const slow =
      'dip-switch S1 at e10 with poles 1\n switch S1 set 1\n wire WS from a10 to +a5\n wire WT from j10 to h50\n wire WX from g50 to a40\n resistor R1 10k from f50 to -j25\n capacitor C1 1n from i50 to -j26';
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
  const LED = 'led LED1 from a40 to a44\n resistor R1 330 from b44 to b50\n wire W1 from b40 to +a9\n wire W2 from a50 to -a9';
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
      start({ ...planOf(`${INVERTER}\n wire WI from a20 to ${input}\n resistor R1 1k from a21 to ${load}`), meters }).readings().meters;
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
