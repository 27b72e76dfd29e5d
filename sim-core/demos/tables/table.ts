/** What a demonstration table is: names, the rules that fill it, and how its outputs are driven. */
import type { Arrangement } from '../../build/led-placement.ts';

/** A demonstration table: its names, its rules, and how its outputs are driven. */
export interface DemoTable {
  readonly id: string;
  readonly title: string;
  /** one or two sentences: what it is for, and what there is to see */
  readonly description: string;
  /** least significant first */
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
  /** in the language of sim-core/logic/expression */
  readonly rules: string;
  /** outputs whose drivers switch on at 0 */
  readonly activeLow?: readonly string[];
  /** how its LEDs stand if they are single ones; absent: in a row */
  readonly arrangement?: Arrangement;
}

/** A3 A2 A1 A0 … as a table wants them: least significant first. */
export const counted = (letter: string, count: number): readonly string[] => Array.from({ length: count }, (_, i) => `${letter}${i}`);
