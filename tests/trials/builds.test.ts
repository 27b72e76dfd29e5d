/** Tables by chance, each made into a bench: proven in every row, written by hand, without a fault, and within its limits at worst. */
import fc from 'fast-check';
import { describe, expect } from 'vitest';
import { type BuildRequest, buildPlan, marginsOf, proveTable } from '../../sim-core/index.ts';
import { aWish, bad, built, writeByHand } from '../support/any-build.ts';
import { trial } from '../support/trial.ts';

const shape = ({ show, inputs, outputs }: BuildRequest) => ({ kind: `${show}`, inputs: inputs.length, outputs: outputs.length });
const LOADED = ['eeprom-2kx8', 'eeprom-8kx8', 'eeprom-32kx8', 'eeprom-64kx8', 'uv-eprom-2kx8'];

describe('the bench of a table', () => {
  trial('with its image loaded shows every row as wanted', { cases: aWish([2, 11], false, LOADED), sample: 12, full: 5000 }, (wish) => {
    const proof = proveTable(built(wish));
    expect(proof).toMatchObject({ ok: true, value: { rows: 2 ** wish.inputs.length, right: 2 ** wish.inputs.length, differences: [] } });
    return shape(wish);
  });

  trial(
    'written byte by byte as its card says, shows every row as wanted',
    { cases: aWish([2, 5], true, ['eeprom-2kx8', 'eeprom-8kx8', 'static-ram-2kx8']), sample: 3, full: 1000 },
    (wish) => {
      expect(proveTable(writeByHand(built(wish)))).toMatchObject({ ok: true, value: { right: 2 ** wish.inputs.length, differences: [] } });
      return shape(wish);
    },
  );

  const any = fc.oneof(aWish([2, 8], false, ['eeprom-2kx8']), aWish([2, 6], true, ['eeprom-2kx8', 'eeprom-32kx8', 'eeprom-64kx8']));
  trial('has no damage risk and no fault', { cases: any, sample: 3, full: 1000 }, (wish) => {
    expect(bad(built(wish))).toEqual([]);
    return shape(wish);
  });

  const byHand = aWish([2, 5], true, ['eeprom-2kx8', 'eeprom-8kx8']);
  trial('holds at the ends of supply, tolerances and thresholds', { cases: byHand, sample: 1, full: 100 }, (wish) => {
    const margins = marginsOf(built(wish), 'worst');
    expect(margins.ok && margins.value.filter((m) => !m.holds)).toEqual([]);
    expect(margins.ok && margins.value.some((m) => m.what === 'pulse-width-guaranteed')).toBe(true);
    return shape(wish);
  });
});

const anyCurrent = fc
  .record({
    show: fc.constantFrom('leds', 'digit', 'bar', 'loads'),
    activeLow: fc.boolean(),
    colour: fc.constantFrom('red', 'amber', 'green', 'blue', 'white'),
    amps: fc.double({ min: 1e-4, max: 30e-3, noNaN: true }),
  })
  .map(
    ({ show, activeLow, colour, amps }): BuildRequest => ({
      title: 'Any current',
      inputs: ['A'],
      outputs: Array.from({ length: 2 }, (_, i) => ({ name: `out ${i}`, colour, ...(activeLow && show !== 'loads' ? { activeLow } : {}) })),
      rows: [1, 2],
      memory: 'eeprom-2kx8',
      byHand: false,
      show,
      buffered: true,
      amps,
    }),
  );

trial(
  'every LED of a bench looks lit at worst, or its current is refused with one that can be had',
  { cases: anyCurrent, sample: 3, full: 1000 },
  (wish) => {
    const made = buildPlan(wish);
    const colour = wish.outputs[0]?.colour;
    const result = { kind: `${wish.show}, ${colour}${made.ok ? '' : ', refused'}`, milliamps: 1e3 * wish.amps };
    if (!made.ok) {
      const [, amps = '', unit, than] = /Ask for ([\d.]+) (mA|µA) (?:each )?or (more|less)\.$/.exec(made.failure.says) ?? [];
      expect(made.failure.code).toBe(than === 'more' ? 'build/current-too-low' : 'build/current-too-high');
      const offered = buildPlan({ ...wish, amps: Number(amps) * (unit === 'mA' ? 1e-3 : 1e-6) });
      // behind an array of switches an LED of 4 V gets one or the other at the ends of the supply
      if (wish.show !== 'loads' || (colour !== 'blue' && colour !== 'white')) expect(offered.ok ? '' : offered.failure.says).toBe('');
      return result;
    }
    const plan = made.value;
    expect(proveTable(plan)).toMatchObject({ value: { right: 2 } });
    // behind an array of switches nothing is left for an LED of 4 V on a supply of 4.5 V
    if (wish.show === 'loads' && (colour === 'blue' || colour === 'white')) return result;
    const margins = marginsOf(plan, 'worst');
    expect(margins.ok && margins.value.filter((m) => m.what.startsWith('led') && !m.holds)).toEqual([]);
    return result;
  },
);
