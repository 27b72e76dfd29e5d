/**
 * Values that the builder chooses by computation: resistors that hold inputs low, that limit lamps, and that let a switch overrule a data pin.
 * Each is checked afterwards, at the extremes, by the same judgement as any plan's margins.
 */
import { type Channel, type CurrentAndSlope, channelLaw, type Junction, junctionLaw, readyJunction } from '../devices/laws.ts';
import type { ChipSpec, Lamp } from '../parts/part.ts';
import { LAMP_STEPS } from '../run/readings.ts';
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
function dropAt(channel: Channel, amps: number): number {
  let low = 0;
  let high: number = VOLTS.most;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    channelLaw(middle, channel, now);
    if (now.i < amps) low = middle;
    else high = middle;
  }
  return high;
}

const forward = ({ is, nvt, rs }: Junction, amps: number): number => nvt * Math.log1p(amps / is) + amps * rs;

export interface LampPath {
  readonly junction: Junction;
  readonly lamp: Lamp;
  /** the chip whose output carries its current, the side that does, and how many lamps it may have to carry at once */
  readonly chip: ChipSpec;
  readonly side: 'high' | 'low';
  readonly lamps: number;
}

/** Part of an absolute maximum that a lamp's current is kept below: supply, resistor and lamp may each be off. Our choice. */
const KEEP = 0.6;

/** The current [A] that can be had of what is wanted, and the resistor for it. */
export function limitFor(
  { junction, lamp, chip, side, lamps }: LampPath,
  wanted: number,
): { readonly ohms: number; readonly amps: number } {
  const amps = Math.max(
    LAMP_STEPS.lit,
    Math.min(wanted, KEEP * lamp.mostCurrent.value, KEEP * chip.mostPinCurrent.value, (KEEP * chip.mostPackageCurrent.value) / lamps),
  );
  const rest = VOLTS.nominal - forward(junction, amps) - dropAt(chip.drive.typical[side], amps);
  const ohms = nextUpIn('E12', Math.max(rest, 0.1) / amps);
  return { ohms, amps };
}

/** Part by which a level made by resistors is kept beyond its threshold. Our choice. */
const LEVEL_ROOM = 1.15;

/**
 * From a closed switch to a data pin: small enough for a high level against the pull-down and, if there is one, a lamp and its resistor on the same net;
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
