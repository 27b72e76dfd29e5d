/** Least to most of a reading: against closed forms, against every corner solved one by one, and what is refused. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { memoryBench } from '../../sim-core/findings/example-benches.ts';
import { type ReadingBand, readingBand, simulate } from '../../sim-core/index.ts';
import type { PartOverride } from '../../sim-core/run/circuit/part-overrides.ts';
import { planOf, start } from '../support/bench.ts';

const bandOf = (plan: Plan, of: string): ReadingBand => {
  const found = readingBand(plan, of);
  if (!found.ok) throw new Error(found.failure.says);
  return found.value;
};
const supplied = (rest: string, tolerance = 0) => `
  board-63 B1
  bench-supply PS1 5 with tolerance ${tolerance}
  wire P1 red from PS1.+ to +j1
  wire P2 black from PS1.- to -j1
  switch PS1 set 1
${rest}`;
const divider = supplied(`resistor R1 10k from +j3 to f3 with tolerance 5
  resistor R2 10k from g3 to -j4 with tolerance 5
  meter M1 volts at h3
  meter M2 amps through R1.1`);

describe('two resistors of 10 kΩ, 5 %, across 5 V', () => {
  // the supply has 50 mΩ of its own, which moves these by some 10 µV and 1 nA. By hand: 5 V · 9.5/(9.5 + 10.5) and 5 V · 10.5/(10.5 + 9.5); 5 V / 21 kΩ and 5 V / 19 kΩ
  test('divide to 2.375 V to 2.625 V', () => {
    const { unit, typical, least, most, movers, turning } = bandOf(planOf(divider.replace(/ +meter M1.*/, '')), 'R2.1');
    expect([unit, movers, turning]).toEqual(['V', ['R1.ohms', 'R2.ohms'], []]);
    expect(typical).toBeCloseTo(2.5, 4);
    expect(least).toBeCloseTo(2.375, 4);
    expect(most).toBeCloseTo(2.625, 4);
  });
  test('take 238.1 µA to 263.2 µA, by the meter in their way and at the supply', () => {
    for (const of of ['M2', 'PS1']) {
      const { unit, typical, least, most } = bandOf(planOf(divider.replace(/ +meter M1.*/, '')), of);
      expect(unit).toBe('A');
      expect(typical).toBeCloseTo(5 / 20e3, 8);
      expect(least).toBeCloseTo(5 / 21e3, 8);
      expect(most).toBeCloseTo(5 / 19e3, 8);
    }
  });
  test('read the same by a voltmeter and by a tip in a hole, each with its own 10 MΩ', () => {
    const alone = divider.replace(/ +meter M1.*/, '');
    const load = (a: number, b: number) => (5 * (1 / a)) / (1 / a + 1 / b + 1e-7);
    for (const band of [bandOf(planOf(divider), 'M1'), bandOf(planOf(alone), 'h3')]) {
      expect(band.least).toBeCloseTo(load(10.5e3, 9.5e3), 4);
      expect(band.most).toBeCloseTo(load(9.5e3, 10.5e3), 4);
    }
  });
});

/** Readings with every parameter with a tolerance at either bound, one plan a corner. */
function corners(plan: Plan, read: (plan: Plan) => number): number[] {
  const varied = plan.parts.flatMap((p, i) => {
    const { tolerance, ohms, volts } = p.params ?? {};
    const name = ohms === undefined ? 'volts' : 'ohms';
    return Number(tolerance) > 0 ? [{ i, name, nominal: Number(ohms ?? volts), share: Number(tolerance) / 100 }] : [];
  });
  return Array.from({ length: 2 ** varied.length }, (_, corner) => {
    const parts = [...plan.parts];
    for (const [bit, { i, name, nominal, share }] of varied.entries()) {
      const params = { ...parts[i]!.params, [name]: nominal * ((corner >> bit) & 1 ? 1 + share : 1 - share) };
      parts[i] = { ...parts[i]!, params };
    }
    return read({ ...plan, parts });
  });
}
const pinVolts = (plan: Plan, part: string, pin: string) => {
  const sim = start(plan, { bounce: false, still: true });
  const leg = sim.circuit.placed.get(part)!.legs.find((l) => l.pin === pin)!;
  return sim.readings().nets[sim.circuit.netOf(leg).index]!.volts;
};

/** None across the supply: what only loads that is left nominal. Nodes 1 to 3 in rows 5, 10 and 15, plus and minus: each resistor joins two of them, and none is left alone. */
const NODES = ['+j', 5, 10, 15, '-j'] as const;
const network = (joins: readonly (readonly [a: number, b: number, ohms: number, tolerance: number])[], supply: number) => {
  const free = new Map<string, number>();
  const hole = (node: number) => {
    const at = NODES[node]!;
    const used = (free.get(String(at)) ?? 0) + 1;
    free.set(String(at), used);
    if (typeof at === 'string') return `${at}${10 + used}`;
    return `${'abcdghij'[used - 1]}${at}`;
  };
  const lines = joins.map(
    ([a, b, ohms, tolerance], i) => `  resistor R${i + 1} ${ohms} from ${hole(a)} to ${hole(b)} with tolerance ${tolerance}`,
  );
  return planOf(supplied(`${lines.join('\n')}\n${[5, 10, 15].map((r) => `  wire J${r} grey from e${r} to f${r}`).join('\n')}`, supply));
};

test('of random networks of resistors the least and the most are those of all corners, solved one by one', () => {
  const ohms = fc.integer({ min: 100, max: 100_000 });
  const tolerance = fc.constantFrom(1, 2, 5, 10, 20);
  const spine = fc.tuple(...[0, 1, 2, 3].map((n) => fc.tuple(fc.constant(n), fc.constant(n + 1), ohms, tolerance)));
  const more = fc.array(fc.tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 4 }), ohms, tolerance), { maxLength: 3 });
  fc.assert(
    fc.property(spine, more, fc.constantFrom(0, 5), (joins, others, supply) => {
      const plan = network([...joins, ...others.filter(([a, b]) => a !== b && Math.abs(a - b) < 4)], supply);
      const band = bandOf(plan, 'R2.2');
      const all = corners(plan, (p) => pinVolts(p, 'R2', '2'));
      expect(band.typical).toBeCloseTo(pinVolts(plan, 'R2', '2'), 9);
      expect(band.least).toBeCloseTo(Math.min(band.typical, ...all), 6);
      expect(band.most).toBeCloseTo(Math.max(band.typical, ...all), 6);
    }),
    { numRuns: 8 },
  );
});

test('so they are where there are too many to try all corners: ten resistors in a ladder', () => {
  const rows = [1, 2, 3, 4, 5].map((k) => 5 * k);
  const lines = rows.flatMap((row, k) => [
    `  resistor RS${k} ${1000 + 100 * k} from ${k === 0 ? '+j4' : `j${row - 5}`} to f${row} with tolerance 5`,
    `  resistor RP${k} ${2000 + 300 * k} from g${row} to -j${row + 1} with tolerance 10`,
  ]);
  const plan = planOf(supplied(lines.join('\n')));
  const band = bandOf(plan, 'RP4.1');
  const all = corners(plan, (p) => pinVolts(p, 'RP4', '1'));
  expect(band.movers).toHaveLength(10);
  expect(all).toHaveLength(1024);
  expect(band.least).toBeCloseTo(Math.min(...all), 8);
  expect(band.most).toBeCloseTo(Math.max(...all), 8);
});

test('an LED: resistor, supply and forward voltage, all eight corners', () => {
  const plan = planOf(
    supplied('led LED1 red from f5 to f6\nresistor R1 330 from +j5 to g5 with tolerance 5\nwire W1 black from g6 to -j6', 5),
  );
  const [redLeast, redMost] = [1.7, 2.5];
  const sim = start(plan);
  const site = sim.circuit.leds[0]!;
  const { is, nvt, rs } = site.junction;
  const nominal = nvt * Math.log1p(10e-3 / is) + 10e-3 * rs;
  const amps: number[] = [];
  for (const ohms of [330 * 0.95, 330 * 1.05])
    for (const volts of [4.75, 5.25])
      for (const forward of [redLeast, redMost]) {
        const overrides = new Map<string, PartOverride>([
          ['R1', { params: { ohms } }],
          ['PS1', { params: { volts } }],
          ['LED1', { forward: forward - nominal }],
        ]);
        const made = simulate(plan, { overrides });
        if (!made.ok) throw new Error(made.failure.says);
        amps.push(made.value.readings().leds[0]!.amps);
      }
  const band = bandOf(plan, 'LED1');
  expect(band.typical).toBeCloseTo(sim.readings().leds[0]!.amps, 9);
  expect(band.least).toBeCloseTo(Math.min(...amps), 9);
  expect(band.most).toBeCloseTo(Math.max(...amps), 9);
  expect(new Set(band.movers)).toEqual(new Set(['LED1.forward', 'R1.ohms', 'PS1.volts']));
});

const READS = 'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n';

test('worst leakage widens a pin that a resistor holds: 10 µA through 10 kΩ is 0.1 V either way', () => {
  const plan = planOf(memoryBench(`${READS}resistor R3 10k from a16 to -a20 with tolerance 0`, 'WA3'));
  const { typical, least, most } = bandOf(plan, 'U1.5');
  expect(typical).toBeCloseTo(0, 3);
  expect(least - typical).toBeCloseTo(-0.1, 4);
  expect(most - typical).toBeCloseTo(0.1, 4);
});

test('the band of a demonstration holds what its own readings show', () => {
  const plan = demoPlan('greenhouse')!;
  const sim = start({ ...plan, switches: { ...plan.switches, PS1: [true] } });
  const { leds, supplies } = sim.readings();
  const lit = leds.find((l) => l.brightness === 'lit')!;
  for (const [of, amps] of [
    [lit.led, lit.amps],
    ['PS1', supplies[0]!.amps],
  ] as const) {
    const band = bandOf(sim.plan(), of);
    expect(band.typical).toBeCloseTo(amps, 8);
    expect(band.least).toBeLessThan(band.typical);
    expect(band.most).toBeGreaterThan(band.typical);
  }
});

test('nothing moves a dark LED: its picoamperes are no reading', () => {
  const dark = bandOf(
    planOf(supplied('led LED1 red from f5 to f6\nresistor R1 330 from -j5 to g5 with tolerance 5\nwire W1 black from g6 to -j7', 5)),
    'LED1',
  );
  expect(dark.movers).toEqual([]);
  expect([dark.least, dark.typical, dark.most].every((a) => Math.abs(a) < 1e-9)).toBe(true);
});

describe('there is none', () => {
  const refusal = (text: string, of: string) => {
    const found = readingBand(planOf(text), of);
    if (found.ok) throw new Error(`${found.value.least} to ${found.value.most}`);
    return found.failure;
  };
  test('of what is not on the bench, and of a logic probe', () => {
    expect(refusal(divider, 'R9.1')).toEqual({
      code: 'run/nothing-to-read',
      at: 'R9.1',
      says: 'There is nothing called R9.1 to read. Name a meter, an LED, a supply, a pin such as U1.9 or a hole such as a12.',
    });
    expect(refusal(divider.replace('volts at', 'level at'), 'M1').code).toBe('run/nothing-to-read');
  });
  test('of a hole that nothing is in', () => {
    expect(refusal(divider, 'a40')).toMatchObject({
      code: 'run/nothing-to-read',
      says: 'Nothing connects to a40, so there is no voltage to read.',
    });
  });
  test('of an input that floats', () => {
    expect(refusal(memoryBench(READS, 'WA3'), 'U1.5')).toEqual({
      code: 'run/undefined-reading',
      at: 'U1.5',
      says: 'U1.5 floats or is undefined (X), here or with other specimens, so it has no least and most.',
    });
  });
  test('of a bench whose clock runs', () => {
    const clocked = `${READS}clock-generator CK1 1000\nwire WC1 from CK1.out to b16\nwire WC2 from CK1.+ to +j8\nwire WC3 from CK1.- to -j8`;
    expect(refusal(memoryBench(clocked, 'WA3'), 'U1.5').code).toBe('run/no-rest');
  });
});
