/** The figures of data sheets entered a second time, from the sources that the parts name: what a part shows, and what its chip is built with. */
import { describe, expect, test } from 'vitest';
import { readParams } from '../../sim-core/index.ts';
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

describe('a memory', () => {
  test.each(MEMORIES)('%s (%s): levels, currents and capacitances', (id, _, entered) => {
    const [vil = 0, vih = 0, vol = 0, iol = 0, ioh = 0, inside = 0, outside = 0, cin = 0, cio = 0, working = 0, resting = 0] = entered;
    const figures = kindOf(id)
      .figures.slice(0, 12)
      .map((f) => f.value);
    expect(figures).toEqual([vil, vih, vol, iol, 2.4, ioh, inside, outside, cin, cio, working, resting]);
    const spec = specOf(kindOf(id), paramsOf(id));
    expect(spec.input).toEqual({ vil, vih, leakage: inside, capacitance: cin });
    expect(spec.released).toEqual({ leakage: outside, capacitance: cio });
    expect(spec.supplyCurrent).toEqual({ working, resting });
    // 5 V ± 10 %; what is promised is a straight line through the guaranteed point at 4.5 V, typical is twice as strong at least
    expect(spec.supplyRange).toEqual([4.5, 5.5]);
    expect(spec.promises?.high).toBe(2.4);
    const { guaranteed, typical } = spec.drive;
    expect([guaranteed.high.g, guaranteed.low.g]).toEqual([close(ioh / 2.1), close(iol / vol)]);
    expect([typical.high.g, typical.low.g]).toEqual([close(Math.max(1 / 120, (2 * ioh) / 2.1)), close(Math.max(1 / 40, (2 * iol) / vol))]);
    expect([typical.high.bend, typical.low.bend]).toEqual([2.5, 1.5]);
    // common practice, and from memory; one output may give 100 mA for a second (S3)
    expect([spec.mostPinCurrent.value, spec.mostPackageCurrent.value, spec.harmFrom]).toEqual([10e-3, 60e-3, 2]);
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
  /** leakage of an output that has let go [A] */
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
    expect(spec.promises?.high).toBeCloseTo(promised, 12);
    expect(spec.harmFrom ?? 1).toBe(bipolar ? 2.5 : 1);
    expect(spec.mostClampCurrent?.value).toBe(bipolar ? undefined : 20e-3);
  });
});
