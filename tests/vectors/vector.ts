/** What a test vector is: a script for one specimen on a test bench of its own, and what its pins show meanwhile. */
import type { Level } from '../../sim-core/parts/contract/chip.ts';
import type { Params } from '../../sim-core/parts/contract/figure.ts';

/**
 * One script, on a bench where every input pin of its chip has a switch to each rail, and every pin of ChipSpec.marks
 * one more to a second supply. Names are pin names; `A` and `D` stand for a memory's whole address and word.
 */
export interface Vector {
  readonly says: string;
  readonly params?: Params;
  /** contents to begin with, hexadecimal address → bytes */
  readonly contents?: Readonly<Record<string, string>>;
  /** the chip's supply, if not 5 V, and the second one [V] */
  readonly volts?: number;
  readonly high?: number;
  readonly steps: readonly VectorStep[];
}

export type VectorStep =
  /** all at one moment, without waiting for what follows; a pin that was never set is open; `high`: on the second supply */
  | { readonly set: Readonly<Record<string, number | 'open' | 'high'>> }
  /** [s] */
  | { readonly wait: number }
  /** levels as the chip's pins show them at this moment, or the number on a bus; X where it is undefined, Z where the chip is high-impedance */
  | { readonly see: Readonly<Record<string, number | Level | 'Z'>> }
  | { readonly supply: 'on' | 'off' }
  | { readonly light: number; readonly wattsPerCm2: number; readonly covered?: true };
