/**
 * The order of writing bytes by hand with the fewest moves. Between two writes every address and data switch that differs is flipped, then the write
 * button is pressed: an open path from where the switches stand, through all bytes that must change, its length counted in flipped poles.
 * Don't-care bits stay as their switches are set. Exact to 16 bytes (Held and Karp 1962), unless bits that matter in some bytes only make the order
 * longer than the bound that leaves them out; above, nearest neighbour, 2-opt and Or-opt, with a lower bound beside it.
 */
import type { MemoryImage } from './memory-image.ts';
import { anyOrder, exactOrder, flipsBetween, lowerBound, type Stop } from './shortest-path.ts';

/** Seconds of a hand: our own judgement of an unhurried person with a list, no source. */
export const HAND_SPEED = { flip: 1, press: 1.5, look: 2 } as const;

/** What the switches stand at; a data switch for every data pin. */
export interface SwitchPositions {
  readonly address: number;
  readonly data: number;
}

/** One byte to write, and the bits of address and data that move for it. */
export interface ProgrammingStep {
  readonly address: number;
  readonly data: number;
  /** poles to flip before the press */
  readonly addressFlips: number;
  readonly dataFlips: number;
}

/** Bytes in an order with few switch moves, and whether no order has fewer. */
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
/** Above so many bytes no one writes by hand, and improving would take seconds: nearest neighbour only. */
const IMPROVED = 1024;

/** wanted: bits that are not given may hold anything. stored: what the memory holds now. Bytes already right are left alone. */
export function programmingOrder(wanted: MemoryImage, stored: Uint8Array, standing: SwitchPositions): ProgrammingOrder {
  const stops: Stop[] = [];
  for (let address = 0; address < wanted.bytes.length; address++) {
    const [byte, given] = [wanted.bytes[address] ?? 0, wanted.given[address] ?? 0];
    if ((byte ^ (stored[address] ?? 0)) & given) stops.push({ address, data: byte, given });
  }
  const start: Stop = { address: standing.address, data: standing.data };
  const few = stops.length <= EXACT;
  const order = few ? exactOrder(start, stops) : anyOrder(start, stops, stops.length <= IMPROVED);
  const steps = stepsOf(start, order);
  const flips = flipsOf(steps);
  const atLeast = Math.min(flips, few ? lengthOf(start, order) : lowerBound(start, stops));
  return {
    steps,
    flips,
    flipsAscending: flipsOf(stepsOf(start, stops)),
    atLeast,
    exact: few && flips === atLeast,
    seconds: flips * HAND_SPEED.flip + steps.length * (HAND_SPEED.press + HAND_SPEED.look),
  };
}

function stepsOf(start: Stop, order: readonly Stop[]): ProgrammingStep[] {
  let at = start;
  return order.map(({ address, data: asked, given = -1 }) => {
    const data = (asked & given) | (at.data & ~given);
    const step = { address, data, addressFlips: at.address ^ address, dataFlips: at.data ^ data };
    at = step;
    return step;
  });
}

const NONE: Stop = { address: 0, data: 0 };

const flipsOf = (steps: readonly ProgrammingStep[]): number =>
  steps.reduce((sum, { addressFlips, dataFlips }) => sum + flipsBetween(NONE, { address: addressFlips, data: dataFlips }), 0);

const lengthOf = (start: Stop, order: readonly Stop[]): number =>
  order.reduce((sum, stop, i) => sum + flipsBetween(order[i - 1] ?? start, stop), 0);
