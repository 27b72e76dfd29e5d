/** What a person asks of the plan builder: which inputs give which outputs, through which memory, shown by what. */
import type { LedColour } from '../parts/figures/junctions.ts';
import type { Arrangement } from './led-placement.ts';

/**
 * What the outputs drive: single LEDs, the segments a to g and DP of one digit a memory, a bar of LEDs, or loads: each a strong LED connected to
 * plus, in the place of a relay or a motor, and is pulled down by an array of Darlington switches where its data pin is high.
 */
export type Show = 'leds' | 'digit' | 'bar' | 'loads';

/** One output as it is asked for: its name, its polarity, and what differs from the others. */
export interface RequestedOutput {
  readonly name: string;
  /** a 1 of the table is the low level at the pin; its LED is then connected to plus */
  readonly activeLow?: boolean;
  readonly colour?: LedColour;
  /** current wanted in its LED [A]; absent: as for all */
  readonly amps?: number;
}

/** What the builder is asked for: inputs, outputs, memory, what shows the outputs, and with how much current [A]. */
export interface BuildRequest {
  readonly title: string;
  /** names, least significant first; the first is set by the first pole and goes to A0 */
  readonly inputs: readonly string[];
  /** eight to a memory at most: the first eight are D0 to D7 of the first memory */
  readonly outputs: readonly RequestedOutput[];
  /** 2^inputs values; bit i is outputs[i] */
  readonly rows: ArrayLike<number>;
  /** masks of the bits that may be anything */
  readonly dontCare?: ArrayLike<number>;
  readonly rules?: readonly string[];
  readonly expressions?: readonly string[];
  /** part kind of the memories */
  readonly memory: string;
  /** true: erased memories, with all that writes them byte by byte; false: the image is in them already */
  readonly byHand: boolean;
  readonly show: Show;
  /** of single LEDs; absent: in a row */
  readonly arrangement?: Arrangement;
  /** true: LEDs are driven by an octal buffer, which guarantees their current; false: on the memory itself, which lights them only typically */
  readonly buffered: boolean;
  /** current wanted in an LED [A] */
  readonly amps: number;
}

/** Bits of one memory's word. */
export const WORD = 8;

/** How many memories the outputs take. */
export const memoriesFor = ({ outputs }: Pick<BuildRequest, 'outputs'>): number => Math.ceil(outputs.length / WORD);
