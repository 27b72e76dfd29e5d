/**
 * A Schmitt inverter of family LS with a resistor from output to input and a capacitor to minus: no closed form, since its output stage bends and current
 * comes out of its input. The same equations integrated by a general library (odex, GBS extrapolation); the relative error is printed.
 */
import { describe, expect, test } from 'vitest';
import type { Channel } from '../../sim-core/devices/device-models.ts';
import { FAMILIES } from '../../sim-core/parts/figures/families.ts';
import { start } from '../support/bench.ts';
import { inverters } from '../support/inverters.ts';
import { shockley } from '../support/reference-circuits.ts';
import { byOdex, zeroOf } from '../support/stepping.ts';

const { drive, schmitt, pullUp } = FAMILIES.LS;
const { high, low } = drive.standard.typical;
const { bleed = 0 } = drive.standard;
/** From an input's level to the output [s]: the part's own figure, from memory. */
const DELAY = 15e-9;

/** The stage's law as sim-core/devices/device-models.ts states it: a hyperbola from the offset on, straight, bent by saturation. */
function stage(v: number, { g, bend, offset = 0 }: Channel): number {
  const w = 0.05;
  const u = 0.5 * (v + Math.hypot(v - offset, w) - Math.hypot(offset, w));
  return (g * u) / Math.sqrt(1 + (u / bend) ** 2) + 1e-5 * u;
}

/** dv/dt at the input, the output's voltage being where its currents balance. */
function slope(v: number, isHigh: boolean, supply: number, ohms: number, farads: number): number {
  const left = (out: number) => (isHigh ? stage(supply - out, high) : -stage(out, low)) - (out - v) / ohms - bleed * out;
  const out = zeroOf(left, 0, supply);
  return ((out - v) / ohms + shockley(supply - v, pullUp ?? { is: 0, nvt: 1, rs: 1 })) / (farads + schmitt.capacitance);
}

function periodByOdex(supply: number, ohms: number, farads: number): number {
  const at = (v: number, isHigh: boolean) => slope(v, isHigh, supply, ohms, farads);
  /** where the voltage is a delay after it has passed a threshold */
  const after = (v: number, isHigh: boolean) => byOdex(([u = 0]) => [at(u, isHigh)], [v], [DELAY])[0]?.[0] ?? 0;
  /** time from one voltage to another, as the integral of dt/dv */
  const time = (from: number, to: number) => {
    const way = Math.sign(to - from);
    return byOdex(([v = 0]) => [way, way / at(v, way > 0)], [from, 0], [Math.abs(to - from)], 1e-9)[0]?.[1] ?? 0;
  };
  const [top, bottom] = [after(schmitt.vih, true), after(schmitt.vil, false)];
  return time(top, schmitt.vil) + DELAY + time(bottom, schmitt.vih) + DELAY;
}

describe('its period', () => {
  test.each([
    ['330', '100n', 330, 100e-9],
    ['680', '10n', 680, 10e-9],
    ['1k', '1u', 1e3, 1e-6],
  ])('with %s Ω and %s F is what odex gives', (r, c, ohms, farads) => {
    const sim = start(inverters('LS', 1, `resistor R1 ${r} from b10 to b11\ncapacitor C1 ${c} from a10 to -a9`));
    const { chips, restless } = sim.readings();
    expect(restless).toMatchObject([{ chips: ['U1'], resistors: ['R1'], capacitors: ['C1'], meant: true }]);
    const period = restless?.[0]?.period ?? 0;
    const expected = periodByOdex(chips[0]?.supply ?? 0, ohms, farads);
    const error = period / expected - 1;
    console.log(`LS Schmitt oscillator, ${r} Ω and ${c} F: ${period} s, odex ${expected} s, relative error ${error.toExponential(1)}`);
    expect(Math.abs(error)).toBeLessThan(1e-3);
  });
});
