/** Output curves through the points that data sheets give: current at a drop between the pin and the supply pin it is pulled to. */
import { beyond, type Channel, SATURATED_SLOPE } from '../../devices/device-models.ts';

/** So many volts are left at so many amperes. */
export type CurvePoint = readonly [volts: number, amps: number];

/** The side that an open-collector output does not have. */
export const NOTHING: Channel = { g: 0, bend: Number.POSITIVE_INFINITY };

/**
 * A channel through one, two or three points, ascending. One: straight from 0 V. Two: the offset follows. Three: so does the current at which it
 * saturates; otherwise that is `most` [A].
 */
export function channelThrough(points: readonly [CurvePoint, ...CurvePoint[]], most = Number.POSITIVE_INFINITY): Channel {
  const [first, second, third] = points;
  if (!second) return channel(straight(first, most, 0) / first[0], most, 0);
  if (!third) {
    const offset = offsetOf(first, second, most);
    return channel(straight(second, most, offset) / beyond(second[0], offset), most, offset);
  }
  // with the offset that the outer two ask for, the middle one tells where the curve bends
  const top = between(third[1] * (1 + 1e-9), third[1] * 1e3, (most) => {
    const c = channelThrough([first, third], most);
    return c.g * beyond(second[0], c.offset ?? 0) > straight(second, most, c.offset ?? 0);
  });
  return channelThrough([first, third], top);
}

const channel = (g: number, most: number, offset: number): Channel => ({ g, bend: most / g, ...(offset > 0 ? { offset } : {}) });

/** The straight line's current where a curve that saturates at `most` has this point: L from I = L/√(1 + (L/most)²). */
function straight([volts, amps]: CurvePoint, most: number, offset: number): number {
  const i = amps - SATURATED_SLOPE * beyond(volts, offset);
  return i / Math.sqrt(1 - (i / most) ** 2);
}

/** The offset from which both points lie on one straight line; 0 if that would be below 0. */
function offsetOf(a: CurvePoint, b: CurvePoint, most: number): number {
  const low = (offset: number) => beyond(a[0], offset) / straight(a, most, offset) > beyond(b[0], offset) / straight(b, most, offset);
  return low(0) ? between(0, b[0], low) : 0;
}

/** The place between two where `before` stops being true, by bisection. */
function between(from: number, to: number, before: (at: number) => boolean): number {
  let [low, high] = [from, to];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (before(middle)) low = middle;
    else high = middle;
  }
  return low;
}
