/**
 * The current laws of the electrical primitives: each a monotone function of one voltage, so that any circuit of them has exactly one operating point.
 * Currents in A, voltages in V, conductances in S. Each law writes its value and its slope into `out` to keep the inner loop free of allocation.
 */
import { wrightOmega } from './wright-omega.ts';

export interface CurrentAndSlope {
  i: number;
  g: number;
}

/** kT/q at 298.15 K, from the exact SI values of k and e. */
export const THERMAL_VOLTAGE = 0.025692579121085315;

export interface Junction {
  /** saturation current [A] */
  readonly is: number;
  /** emission coefficient times kT/q [V] */
  readonly nvt: number;
  /** series resistance [Ω], > 0 */
  readonly rs: number;
}

/** A junction with what its law needs of it at every voltage: offset = ln(Is·Rs/nVt) + Is·Rs/nVt, 1/nVt, nVt/Rs and 1/Rs. */
export interface ReadyJunction extends Junction {
  readonly offset: number;
  readonly perVolt: number;
  readonly amps: number;
  readonly siemens: number;
}

export const readyJunction = ({ is, nvt, rs }: Junction): ReadyJunction => ({
  is,
  nvt,
  rs,
  offset: Math.log((is * rs) / nvt) + (is * rs) / nvt,
  perVolt: 1 / nvt,
  amps: nvt / rs,
  siemens: 1 / rs,
});

/** I = (nVt/Rs)·ω(ln(Is·Rs/nVt) + (V + Is·Rs)/nVt) − Is: Banwell & Jayakumar 2000, Electronics Letters 36(4), in logarithmic form. */
export function junctionLaw(v: number, j: ReadyJunction, out: CurrentAndSlope): void {
  const w = wrightOmega(j.offset + v * j.perVolt);
  out.i = j.amps * w - j.is;
  out.g = (w / (1 + w)) * j.siemens;
}

/** One side of an output stage: next to nothing below its offset, then linear, saturating for large drops; odd in v. */
export interface Channel {
  /** conductance beyond the offset [S]; 0: an open collector's missing side */
  readonly g: number;
  /** drop beyond the offset at which it has bent to 1/√2 of the straight line [V]; Infinity: never saturates */
  readonly bend: number;
  /** drop that a bipolar output keeps whatever it carries [V]; absent: 0 */
  readonly offset?: number;
}

/** What remains of a channel's slope in saturation [S]; keeps the equations definite under bus contention. */
export const SATURATED_SLOPE = 1e-5;
/** Width of the bend at an offset [V]: about two of the thermal voltages that make it. */
const ONSET = 0.05;

/** What a drop v ≥ 0 exceeds an offset o by: the hyperbola ½·(v − o + √((v − o)² + w²)) through 0. */
export function beyond(v: number, o: number): number {
  return o > 0 ? 0.5 * (v + Math.sqrt((v - o) ** 2 + ONSET * ONSET) - Math.sqrt(o * o + ONSET * ONSET)) : v;
}

/** I = g·u/√(1 + (u/bend)²), a common smooth fit of a transistor's output curve; u is what the drop exceeds the offset by. */
export function channelLaw(v: number, c: Channel, out: CurrentAndSlope): void {
  const o = c.offset ?? 0;
  let u = v;
  let slope = 1;
  if (o > 0) {
    const size = Math.abs(v);
    u = v < 0 ? -beyond(size, o) : beyond(size, o);
    slope = 0.5 * (1 + (size - o) / Math.sqrt((size - o) ** 2 + ONSET * ONSET));
  }
  const r = u / c.bend;
  const root = Math.sqrt(1 + r * r);
  const rest = c.g > 0 ? SATURATED_SLOPE : 0;
  out.i = (c.g * u) / root + rest * u;
  out.g = slope * (c.g / (root * root * root) + rest);
}

/** Where an input clamp begins to conduct, and its resistance once it does; from memory, the sheets give only the absolute limit of 0.6 V. */
export const CLAMP_KNEE = 0.5;
const CLAMP_SPREAD = 0.2;
const CLAMP_OHMS = 25;

/** A clamp diode: nothing below its knee, then a parabola that ends in a straight line. */
export function clampLaw(v: number, out: CurrentAndSlope): void {
  const over = v - CLAMP_KNEE;
  if (over <= 0) {
    out.i = 0;
    out.g = 0;
  } else if (over < CLAMP_SPREAD) {
    out.g = over / CLAMP_SPREAD / CLAMP_OHMS;
    out.i = 0.5 * over * out.g;
  } else {
    out.g = 1 / CLAMP_OHMS;
    out.i = (over - 0.5 * CLAMP_SPREAD) / CLAMP_OHMS;
  }
}

export interface Supply {
  /** set voltage [V] */
  readonly volts: number;
  /** internal resistance [Ω], > 0 */
  readonly ohms: number;
  /** current limit [A] */
  readonly amps: number;
}

/** What the current still rises by from where the limit sets in down to a short, as a part of the limit. */
const LIMITED_RISE = 1e-3;
/**
 * The limit takes over within this part of itself on either side, along a parabola; our choice. A sharp corner has no linearisation that holds on both
 * of its sides, and a step in time that ends there can come back to where it began for ever.
 */
const LIMIT_BEND = 0.01;

/** Does it give (V − v)/R at v across its terminals [V], and at all voltages above? */
export function supplyIsStraight(v: number, s: Supply): boolean {
  supplyLaw(v, s, probe);
  return probe.g === 1 / s.ohms;
}
const probe: CurrentAndSlope = { i: 0, g: 0 };

/** Current into the plus terminal at v across the terminals: (v − V)/R, held at the limit when asked for more. */
export function supplyLaw(v: number, s: Supply, out: CurrentAndSlope): void {
  const straight = (v - s.volts) / s.ohms;
  const corner = s.volts - s.amps * s.ohms;
  // a supply whose own resistance keeps it below its limit has its corner below 0
  const rise = (LIMITED_RISE * s.amps) / Math.max(Math.abs(corner), 1);
  const limited = -s.amps + (v - corner) * rise;
  const over = straight - limited;
  const bend = LIMIT_BEND * s.amps;
  if (over >= bend) {
    out.i = straight;
    out.g = 1 / s.ohms;
  } else if (over <= -bend) {
    out.i = limited;
    out.g = rise;
  } else {
    out.i = limited + (over + bend) ** 2 / (4 * bend);
    out.g = rise + ((over + bend) / (2 * bend)) * (1 / s.ohms - rise);
  }
}
