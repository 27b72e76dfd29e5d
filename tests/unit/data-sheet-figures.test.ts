/** The figures of data sheets entered a second time, from the sources that the parts name: what a part shows, and what its chip is built with. */
import { describe, expect, test } from 'vitest';
import { type Channel, channelLaw } from '../../sim-core/devices/device-models.ts';
import { PARTS, readParams } from '../../sim-core/index.ts';
import { FAMILIES as FAMILY_FIGURES } from '../../sim-core/parts/figures/families.ts';
import { clampDiode, junctionFor, smallDiode } from '../../sim-core/parts/figures/junctions.ts';
import { kindOf, specOf } from '../support/part-bench.ts';

const paramsOf = (id: string, params: Record<string, string> = {}) => {
  const read = readParams(kindOf(id), { id: 'U1', kind: id, params });
  if (!read.ok) throw new Error(read.failure.says);
  return read.value;
};
const close = (v: number) => expect.closeTo(v, 15);

/** VIL, VIH [V]; VOL [V] at IOL [A]; IOH at 2.4 V [A]; leakage in, out [A]; capacitance in, data [F]; supply current working, standing by [A] */
type Dc = readonly [id: string, source: string, figures: readonly number[]];
const MEMORIES: readonly Dc[] = [
  ['eeprom-2kx8', 'S2', [0.8, 2, 0.4, 2.1e-3, 0.4e-3, 10e-6, 10e-6, 6e-12, 12e-12, 30e-3, 2e-3]],
  ['eeprom-8kx8', 'S4', [0.8, 2, 0.4, 2.1e-3, 0.4e-3, 10e-6, 10e-6, 6e-12, 12e-12, 40e-3, 2e-3]],
  ['static-ram-2kx8', 'S6', [0.8, 2.2, 0.4, 8e-3, 4e-3, 5e-6, 5e-6, 8e-12, 8e-12, 85e-3, 25e-3]],
  ['static-ram-8kx8', 'S7', [0.8, 2.2, 0.4, 2.1e-3, 1e-3, 2e-6, 2e-6, 5e-12, 7e-12, 15e-3, 3e-3]],
  ['uv-eprom-2kx8', 'from memory, but for S2 as above', [0.8, 2, 0.45, 2.1e-3, 0.4e-3, 10e-6, 10e-6, 6e-12, 12e-12, 100e-3, 25e-3]],
  ['prom-2kx8', 'from memory', [0.8, 2, 0.5, 16e-3, 2e-3, 250e-6, 40e-6, 5e-12, 8e-12, 185e-3, 185e-3]],
];

/** Their high level ends below the supply: tests/outside/technologies.test.ts. */
const STAGED: ReadonlySet<string> = new Set(['uv-eprom-2kx8', 'prom-2kx8']);

describe('a memory', () => {
  test.each(MEMORIES)('%s (%s): levels, currents and capacitances', (id, _, entered) => {
    const [vil = 0, vih = 0, vol = 0, iol = 0, ioh = 0, inside = 0, outside = 0, cin = 0, cio = 0, working = 0, resting = 0] = entered;
    const figures = kindOf(id)
      .figures.slice(0, 12)
      .map((f) => f.value);
    expect(figures).toEqual([vil, vih, vol, iol, 2.4, ioh, inside, outside, cin, cio, working, resting]);
    const spec = specOf(kindOf(id), paramsOf(id));
    expect(spec.input).toEqual({ vil, vih, leakage: inside, capacitance: cin });
    // at 5 V a high output takes as much as a released one leaks
    expect(spec.released).toEqual({ leakage: outside, capacitance: cio });
    expect(spec.drive.bleed).toEqual(STAGED.has(id) ? close(outside / 5) : undefined);
    expect(spec.supplyCurrent.most).toEqual({ working, resting });
    // from memory: 8 mA of an EEPROM while it is read, a third to a half of the most of the others
    const draws = spec.supplyCurrent.typical.working;
    if (id.startsWith('eeprom')) expect(draws).toBe(8e-3);
    else expect([draws >= working / 3, draws <= working / 2]).toEqual([true, true]);
    // 5 V ± 10 %; what is promised is a straight line through the guaranteed point at 4.5 V, typical is twice as strong at least
    expect(spec.supplyRange).toEqual([4.5, 5.5]);
    expect(spec.promises?.high).toBe(2.4);
    const { guaranteed, typical } = spec.drive;
    expect([guaranteed.low.g, typical.low.g, typical.low.bend]).toEqual([close(iol / vol), close(Math.max(1 / 40, (2 * iol) / vol)), 1.5]);
    const at = (c: typeof guaranteed.high, volts: number) => {
      const out = { i: 0, g: 0 };
      channelLaw(volts, c, out);
      return out.i;
    };
    // what remains in saturation adds 21 µA
    expect(at(guaranteed.high, 2.1)).toBeLessThan(ioh + 22e-6);
    expect(at(guaranteed.high, 2.1)).toBeGreaterThanOrEqual(0.9999 * ioh);
    expect(at(typical.high, 2.1)).toBeGreaterThan(1.2 * ioh);
    if (!STAGED.has(id)) {
      expect([guaranteed.high.g, typical.high.g]).toEqual([close(ioh / 2.1), close(Math.max(1 / 120, (2 * ioh) / 2.1))]);
      expect(typical.high.bend).toBe(2.5);
    }
    // common practice, and from memory; one output may give 100 mA for a second (S3)
    expect([spec.mostPinCurrent.value, spec.mostPackageCurrent.value, spec.damageFactor]).toEqual([10e-3, 60e-3, 2]);
  });
  test('keeps bytes past its addresses, and says whether it forgets, only where it has them', () => {
    const word = (id: string) => specOf(kindOf(id), paramsOf(id)).word;
    expect(word('eeprom-2kx8')).toMatchObject({ beyond: 32 });
    expect(word('mask-rom-2kx8')).not.toHaveProperty('beyond');
    expect(word('static-ram-2kx8')).toMatchObject({ forgets: true });
    expect(word('eeprom-2kx8')).not.toHaveProperty('forgets');
  });
});

interface FamilyFigures {
  readonly id: string;
  readonly family: string;
  readonly source: string;
  /** VIL and VIH [V], or shares of the supply */
  readonly levels: { readonly vil: number; readonly vih: number; readonly of?: string };
  /** most of one output and of the package [A] */
  readonly most: readonly [pin: number, whole: number];
  /** [V] */
  readonly range: readonly [number, number];
  /** leakage of a high-impedance output [A] */
  readonly released: number;
  /** high level [V], or its share of the supply */
  readonly promised: number;
}
const CMOS = { range: [2, 6], released: 5e-6, promised: 3.98 / 4.5 } as const;
const FAMILIES: readonly FamilyFigures[] = [
  {
    id: 'schmitt-inverter',
    family: 'HC',
    source: 'S15, S39',
    levels: { vil: 1.6 / 4.5, vih: 2.5 / 4.5, of: 'supply' },
    most: [25e-3, 50e-3],
    ...CMOS,
  },
  { id: 'octal-buffer', family: 'HC', source: 'S15, S16', levels: { vil: 0.3, vih: 0.7, of: 'supply' }, most: [35e-3, 70e-3], ...CMOS },
  {
    id: 'octal-buffer',
    family: 'HCT',
    source: 'from memory',
    levels: { vil: 0.8, vih: 2 },
    most: [35e-3, 70e-3],
    ...CMOS,
    range: [4.5, 5.5],
  },
  {
    id: 'schmitt-inverter',
    family: 'HCT',
    source: 'from memory',
    levels: { vil: 0.9, vih: 1.4 },
    most: [25e-3, 50e-3],
    ...CMOS,
    range: [4.5, 5.5],
  },
  {
    id: 'octal-buffer',
    family: 'LS',
    source: 'S17, S18',
    levels: { vil: 0.8, vih: 2 },
    most: [24e-3, 192e-3],
    range: [4.75, 5.25],
    released: 20e-6,
    promised: 2.4,
  },
  {
    id: 'schmitt-inverter',
    family: 'LS',
    source: 'S17',
    levels: { vil: 0.8, vih: 1.6 },
    most: [8e-3, 64e-3],
    range: [4.75, 5.25],
    released: 20e-6,
    promised: 2.7,
  },
];

describe('a logic family', () => {
  test.each(FAMILIES)('$family in $id ($source): levels, limits and supply', ({ id, family, levels, most, range, released, promised }) => {
    const spec = specOf(kindOf(id), paramsOf(id, { family }));
    const bipolar = family === 'LS';
    expect(spec.input).toMatchObject({ ...levels, leakage: bipolar ? 0.2e-3 : 1e-6, capacitance: bipolar ? 5e-12 : 3.5e-12 });
    expect([spec.mostPinCurrent.value, spec.mostPackageCurrent.value]).toEqual(most);
    expect(spec.supplyRange).toEqual(range);
    expect(spec.mostSupply?.value).toBe(7);
    expect(spec.released).toEqual({ leakage: released, capacitance: 10e-12 });
    expect(spec.drive.bleed).toEqual(family === 'LS' ? close(released / 5) : undefined);
    expect(spec.promises?.high).toBeCloseTo(promised, 12);
    expect(spec.damageFactor ?? 1).toBe(bipolar ? 2.5 : 1);
    expect(spec.mostClampCurrent?.value).toBe(bipolar ? undefined : 20e-3);
  });
});

describe('of a logic family', () => {
  const ampsAt = (channel: Channel, volts: number) => {
    const flow = { i: 0, g: 0 };
    channelLaw(volts, channel, flow);
    return flow.i;
  };

  // the latching 7-segment driver: S37; 0.3 and 0.7 of the supply, 10 and 50 mA, 20 V, promised 0.92 of the supply: from memory
  test('4000 in the latching 7-segment driver', () => {
    const { input, supplyRange, mostSupply, released } = specOf(
      kindOf('seven-segment-driver-latch'),
      paramsOf('seven-segment-driver-latch', { family: '4000' }),
    );
    expect(input).toMatchObject({ vil: 0.3, vih: 0.7, of: 'supply', leakage: 1e-6, capacitance: 5e-12 });
    expect([supplyRange, mostSupply?.value]).toEqual([[3, 18], 20]);
    expect(released).toEqual({ leakage: 5e-6, capacitance: 10e-12 });
    const { schmitt, promises, mostPinCurrent, mostPackageCurrent } = FAMILY_FIGURES['4000'];
    expect([schmitt.vil, schmitt.vih, promises.standard.high]).toEqual([0.4, 0.6, 0.92]);
    expect([mostPinCurrent.bus.value, mostPackageCurrent.bus.value]).toEqual([10e-3, 50e-3]);
  });

  // HC: S15, LS: from memory, 4000: S37 and from memory; from where it works at all [V], set-up and longest edge [s]
  test.each([
    ['HC', 1.5, 20e-9, 250e-9],
    ['HCT', 1.5, 20e-9, 250e-9],
    ['LS', 3, 20e-9, 250e-9],
    ['4000', 2, 150e-9, 15e-6],
  ] as const)('%s works from %f V, and its clocks want data and edges in time', (name, alive, setup, slowest) => {
    const family = FAMILY_FIGURES[name];
    expect([family.alive, family.setup, family.slowest, family.upperClamps]).toEqual([alive, setup, slowest, name !== 'LS']);
    expect([family.schmitt.keeps, family.input.keeps]).toEqual([true, undefined]);
  });

  // [V] left at [A], and what flows into a short circuit (5 V): HC S15 (4 mA) and S16 (6 mA), LS S17 and S18, 4000 S37, short circuits from memory
  const high = 4.5 - 3.98;
  test.each([
    ['HC', 'standard', 'guaranteed', [high, 4e-3], [0.26, 4e-3]],
    ['HC', 'standard', 'typical', [0.18, 4e-3], [0.15, 4e-3]],
    ['HC', 'bus', 'guaranteed', [high, 6e-3], [0.26, 6e-3]],
    ['HC', 'bus', 'typical', [0.3, 6e-3], [0.2, 6e-3]],
    ['LS', 'standard', 'guaranteed', [4.75 - 2.7, 0.4e-3], [0.5, 8e-3]],
    ['LS', 'standard', 'typical', [5 - 3.4, 0.4e-3], [0.35, 8e-3]],
    ['LS', 'bus', 'guaranteed', [4.75 - 2.4, 2.6e-3], [0.5, 24e-3]],
    ['LS', 'bus', 'typical', [5 - 3.3, 2.6e-3], [0.35, 24e-3]],
    ['4000', 'standard', 'guaranteed', [0.4, 0.51e-3], [0.4, 0.51e-3]],
    ['4000', 'bus', 'typical', [0.4, 1.02e-3], [0.4, 1.02e-3]],
  ] as const)('%s, %s: a %s output gives and takes the currents of its sheet', (name, strength, which, source, sink) => {
    const drive = FAMILY_FIGURES[name].drive[strength][which];
    const ratio = (side: 'high' | 'low', [volts, amps]: readonly [number, number]) => ampsAt(drive[side], volts) / amps;
    expect([ratio('high', source), ratio('low', sink)]).toEqual([expect.closeTo(1, 1), expect.closeTo(1, 1)]);
  });
  test.each([
    ['HC', 'standard', 45e-3],
    ['HC', 'bus', 70e-3],
    ['LS', 'standard', 40e-3],
    ['LS', 'bus', 70e-3],
    ['4000', 'standard', 4e-3],
  ] as const)(
    '%s, %s: a high output gives no more than its typical current into a short circuit, and nearly as much',
    (name, strength, amps) => {
      const ratio = ampsAt(FAMILY_FIGURES[name].drive[strength].typical.high, 4.75) / amps;
      expect(ratio).toBeGreaterThan(0.8);
      expect(ratio).toBeLessThan(1.01);
    },
  );
});

// S1, S26, from memory: address and data stand still before a programming pulse for 2 µs
test('a UV EPROM shows and keeps its set-up', () => {
  expect(kindOf('uv-eprom-2kx8').figures.find((f) => f.name === 'address and data set-up')?.value).toBe(2e-6);
});

describe('a silicon junction', () => {
  const ampsAt = (is: number, nvt: number, rs: number, volts: number) => {
    // I = Is·(exp((U − I·Rs)/nVt) − 1) by bisection
    let [low, high] = [0, 1];
    for (let k = 0; k < 80; k++) {
      const middle = (low + high) / 2;
      if (is * Math.expm1((volts - middle * rs) / nvt) > middle) low = middle;
      else high = middle;
    }
    return low;
  };
  // a small switching diode: 0.72 V at 10 mA, 0.6 V at 1 mA; of a driver array: 1.7 V at 350 mA; from memory
  test('carries the currents of its sheet', () => {
    expect(ampsAt(smallDiode.is, smallDiode.nvt, smallDiode.rs, 0.72) / 10e-3).toBeCloseTo(1, 6);
    expect(ampsAt(smallDiode.is, smallDiode.nvt, smallDiode.rs, 0.6) / 1e-3).toBeCloseTo(1, 0);
    expect(ampsAt(clampDiode.is, clampDiode.nvt, clampDiode.rs, 1.7) / 350e-3).toBeCloseTo(1, 6);
    expect([smallDiode.rs, clampDiode.rs]).toEqual([1, 2]);
    expect(smallDiode.nvt / clampDiode.nvt).toBe(1);
  });
});

// LS, from memory: 0.2 mA out of an input held at 0.4 V, 20 µA into an output that has let go at 5 V
test('an input of LS that is held low gives its current, and a released output takes its own', () => {
  const { pullUp, drive } = FAMILY_FIGURES.LS;
  const { is, nvt, rs } = pullUp!;
  const across = (amps: number) => nvt * Math.log1p(amps / is) + amps * rs;
  expect(across(0.2e-3) / 4.6).toBeCloseTo(1, 1);
  expect(across(0.2e-3)).toBeLessThan(4.7);
  expect(across(0.2e-3)).toBeGreaterThan(4.5);
  expect(5 * drive.bus.bleed!).toBeCloseTo(20e-6, 9);
});

// forward voltage at 10 mA: S40, S13, typical values within their ranges
test.each([
  ['red', 1.9],
  ['amber', 2],
  ['green', 2.1],
  ['blue', 3.1],
  ['white', 3.1],
] as const)('the LED of a %s light has its forward voltage at 10 mA: %f V', (colour, volts) => {
  const { is, nvt, rs } = junctionFor(colour);
  expect(nvt * Math.log1p(0.01 / is) + 0.01 * rs).toBeCloseTo(volts, 9);
  expect(rs).toBeGreaterThanOrEqual(4);
  expect(rs).toBeLessThanOrEqual(10);
});

describe('every figure that a chip is built with', () => {
  interface Sourced {
    readonly source: string;
    readonly name?: string;
    readonly unit?: string;
  }
  const sourced = (x: unknown): Sourced[] => {
    if (typeof x !== 'object' || x === null) return [];
    const inside = Object.values(x).flatMap(sourced);
    return 'source' in x ? [x as Sourced, ...inside] : inside;
  };
  const specs = PARTS.filter((kind) => kind.group !== 'passive').flatMap((kind) => {
    try {
      return [specOf(kind, paramsOf(kind.id))];
    } catch {
      return [];
    }
  });

  test('says where it is from, and a measured quantity its name and unit', () => {
    const all = sourced([specs, Object.values(FAMILY_FIGURES)]);
    expect(all.length).toBeGreaterThan(150);
    for (const { source, name, unit } of all) {
      expect(source).toMatch(/^(SOURCES\.md S\d+|common practice|from memory|derived: )/);
      if (unit !== undefined) expect([name, unit]).toEqual([expect.stringMatching(/\w{3}/), expect.stringMatching(/^(A|V|s|F|Ω|W|Hz|)$/)]);
    }
  });
  test.each(PARTS.map((kind) => [kind.id, kind.figures] as const))(
    'so does every figure that %s shows, each by a name of its own and in its unit',
    (_, figures) => {
      expect(new Set(figures.map((f) => f.name)).size).toBe(figures.length);
      const units: readonly (readonly [RegExp, RegExp])[] = [
        [/capacitance/, /^F$/],
        [/^(supply|steady|input|saturation|collector) current|leakage, most|current limit/, /^A$/],
        [/voltage|output, (highest|lowest)|absolute most/, /^V$/],
        [/level, /, /^(V|of the supply)$/],
        [/time$|set-up|hold$|pulse, |^delay|write cycle/, /^s$/],
        [/resistance|contact, (open|closed)/, /^Ω$/],
        [/^power$/, /^W$/],
      ];
      for (const { name, unit, source } of figures) {
        expect(source, name).toMatch(/^(SOURCES\.md S\d+|common practice|from memory|derived: )/);
        expect(name).toMatch(/\w{3}/);
        const [, expected] = units.find(([words]) => words.test(name)) ?? [];
        if (expected) expect(unit, name).toMatch(expected);
      }
    },
  );
  test('so do the levels and the drive of a family', () => {
    for (const { sources } of Object.values(FAMILY_FIGURES))
      for (const source of [sources.levels, sources.drive.standard, sources.drive.bus])
        expect(source).toMatch(/^(SOURCES\.md S\d+|from memory)$/);
  });
});
