/**
 * Values that the builder chooses by computation: resistors that hold inputs low, that limit LEDs, and that let a switch overrule a data pin.
 * Each is checked afterwards, at the extremes, by the same judgement as any plan's margins.
 */
import { type Channel, type CurrentAndSlope, channelLaw, type Junction, junctionLaw, readyJunction } from '../devices/device-models.ts';
import type { ChipSpec, Led } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { LED_STEPS } from '../run/readout/readings.ts';
import { forwardSpread } from '../tolerance/tolerances.ts';
import { nearestIn, nextDownIn, nextUpIn } from '../units/e-series.ts';

/** What everything is sized for [V]: the usual supply, and the ends of its ± 10 %. */
const VOLTS = { nominal: 5, least: 4.5, most: 5.5 } as const;

/** Share of a low level that leakage through a pull-down may use up. Our choice. */
const LEAK_SHARE = 0.25;
/** No pull-down is larger [Ω]: beyond it a finger or a damp board counts. Common practice, no source. */
const MOST_PULL_DOWN = 10_000;

/** Holds an input low against the leakage of all pins on its net [A]. */
export const pullDownFor = (leakage: number, vil: number): number =>
  nextDownIn('E12', Math.min(MOST_PULL_DOWN, (LEAK_SHARE * vil) / leakage));

const now: CurrentAndSlope = { i: 0, g: 0 };

/** Drop across an output that carries these amperes [V]. */
const dropAt = (channel: Channel, amps: number): number =>
  rootBetween(0, VOLTS.most, (volts) => {
    channelLaw(volts, channel, now);
    return amps - now.i;
  });

/** Where a falling function is nought, by halving; the upper end if it is above nought everywhere. */
function rootBetween(low: number, high: number, f: (x: number) => number): number {
  let [left, right] = [low, high];
  for (let k = 0; k < 60; k++) {
    const middle = (left + right) / 2;
    if (f(middle) > 0) left = middle;
    else right = middle;
  }
  return right;
}

const forward = ({ is, nvt, rs }: Junction, amps: number): number => nvt * Math.log1p(amps / is) + amps * rs;

export interface LedPath {
  readonly junction: Junction;
  readonly led: Led;
  /** the chip whose output carries its current, and the side that does */
  readonly chip: ChipSpec;
  readonly side: 'high' | 'low';
}

/** Resistors are so much larger at most. */
const MOST_OVER = 1 + Number(resistor.params.find((p) => p.name === 'tolerance')?.fallback) / 100;
/** A resistor is sized for no less than this [V], though less may be left of the supply: then less flows than was wanted. Our choice. */
const LEAST_DROP = 0.1;

/**
 * The resistor for the current that is wanted [A], and the current that flows then with parts as drawn. It is never so large that an ill-matched LED on a
 * low supply would no longer look lit, if the chip promises as much at all: then more flows than was wanted.
 */
export function limitFor({ junction, led, chip, side }: LedPath, wanted: number): { readonly ohms: number; readonly amps: number } {
  const over = (volts: number, current: number, drive: 'typical' | 'guaranteed') =>
    volts - forward(junction, current) - dropAt(chip.drive[drive][side], current);
  const asked = nextUpIn('E12', Math.max(over(VOLTS.nominal, wanted, 'typical'), LEAST_DROP) / wanted);
  const { nominal, most } = forwardSpread({ junction, led });
  const surelyLit = (over(VOLTS.least, LED_STEPS.lit, 'guaranteed') - (most - nominal)) / LED_STEPS.lit / MOST_OVER;
  const ohms = surelyLit > 0 && surelyLit < asked ? nextDownIn('E12', surelyLit) : asked;
  const amps = rootBetween(0, VOLTS.nominal / ohms, (current) => over(VOLTS.nominal, current, 'typical') - current * ohms);
  return { ohms, amps };
}

/** Part by which a level made by resistors is kept beyond its threshold. Our choice. */
const LEVEL_ROOM = 1.15;

/**
 * From a closed switch to a data pin: small enough for a high level against the pull-down and, if there is one, an LED and its resistor on the same net;
 * and if it can be, large enough for the memory to read low against it.
 */
export function seriesFor(memory: ChipSpec, pullDown: number, load?: { readonly junction: Junction; readonly ohms: number }): number {
  const needs = LEVEL_ROOM * memory.input.vih;
  let draws = needs / pullDown + memory.released.leakage;
  if (load) {
    const { is, nvt, rs } = load.junction;
    junctionLaw(needs, readyJunction({ is, nvt, rs: rs + load.ohms }), now);
    draws += now.i;
  }
  const most = nextDownIn('E12', (VOLTS.least - needs) / draws);
  channelLaw(memory.input.vil / 2, memory.drive.guaranteed.low, now);
  const least = nextUpIn('E12', VOLTS.most / now.i);
  return Math.min(most, Math.max(least, nearestIn('E12', Math.sqrt(most * least))));
}
