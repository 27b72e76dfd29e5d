/**
 * The order of writing bytes by hand with the fewest moves. Between two writes every address and data switch that differs is flipped, then the write
 * button is pressed: an open path from where the switches stand, through all bytes that must change, its length counted in flipped poles.
 * Bits that nobody cares about are written as the image's fill has them. Exact to 16 bytes (Held and Karp 1962); above, nearest neighbour, 2-opt and Or-opt, with a lower bound beside it.
 */
import type { MemoryImage } from './memory-image.ts';
import { anyOrder, exactOrder, flipsBetween, lowerBound, type Stop } from './shortest-path.ts';

/** Seconds of a hand: our own judgement of an unhurried person with a list, no source. */
export const HAND_SPEED = { flip: 1, press: 1.5, look: 2 } as const;

/** What the switches stand at; a data switch for every data pin. */
export interface Standing {
  readonly address: number;
  readonly data: number;
}

export interface ProgrammingStep {
  readonly address: number;
  readonly data: number;
  /** poles to flip before the press */
  readonly addressFlips: number;
  readonly dataFlips: number;
}

export interface ProgrammingOrder {
  readonly steps: readonly ProgrammingStep[];
  /** poles flipped in all; one press a step comes on top */
  readonly flips: number;
  /** the same bytes in ascending order of address */
  readonly flipsAscending: number;
  /** no order has fewer flips than this; equal to `flips` where the order is exact */
  readonly atLeast: number;
  readonly exact: boolean;
  readonly seconds: number;
}

const EXACT = 16;
/** Above so many bytes nobody writes by hand, and improving would take seconds: nearest neighbour only. */
const IMPROVED = 1024;

/** wanted: bits that are not given may hold anything. stored: what the memory holds now. Bytes already right are left alone. */
export function programmingOrder(wanted: MemoryImage, stored: Uint8Array, standing: Standing): ProgrammingOrder {
  const stops: Stop[] = [];
  for (let address = 0; address < wanted.bytes.length; address++) {
    const [byte, given] = [wanted.bytes[address] ?? 0, wanted.given[address] ?? 0];
    if ((byte ^ (stored[address] ?? 0)) & given) stops.push({ address, data: byte });
  }
  const start: Stop = { address: standing.address, data: standing.data };
  const exact = stops.length <= EXACT;
  const order = exact ? exactOrder(start, stops) : anyOrder(start, stops, stops.length <= IMPROVED);
  const steps = stepsOf(start, order);
  const flips = flipsOf(start, order);
  return {
    steps,
    flips,
    flipsAscending: flipsOf(start, stops),
    atLeast: exact ? flips : Math.min(flips, lowerBound(start, stops)),
    exact,
    seconds: flips * HAND_SPEED.flip + steps.length * (HAND_SPEED.press + HAND_SPEED.look),
  };
}

function stepsOf(start: Stop, order: readonly Stop[]): ProgrammingStep[] {
  let at = start;
  return order.map((stop) => {
    const step = { address: stop.address, data: stop.data, addressFlips: at.address ^ stop.address, dataFlips: at.data ^ stop.data };
    at = stop;
    return step;
  });
}

function flipsOf(start: Stop, order: readonly Stop[]): number {
  let at = start;
  let flips = 0;
  for (const stop of order) {
    flips += flipsBetween(at, stop);
    at = stop;
  }
  return flips;
}
