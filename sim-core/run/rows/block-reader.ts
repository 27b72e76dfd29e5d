/** What is read off a block at rest: the levels of its inputs and the looks of its LEDs, at one voltage of its rail or all over a range. */
import type { Network } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { brightnessPlace } from '../readout/measure.ts';
import type { BlockParts } from './block-class.ts';
import { type Range, spreadOf, TERMS, valueAt } from './polynomial.ts';
import { exact } from './supply-rail.ts';

/** One state of a class over one range of its rail. */
export interface BlockCurve {
  /** see BlockClass.curve */
  readonly terms: Float64Array;
  /** of its inputs, without asking whether they float, and of its LEDs as places in BRIGHTNESSES, in the middle of the range */
  readonly levels: readonly Level[];
  readonly looks: Uint8Array;
  /** are they the same in all of it? */
  readonly steady: boolean;
  /** what the block takes from its rail: coefficients that can be added and taken away without rounding */
  readonly takes: Float64Array;
}

/** An input that is so near to a threshold is not judged here [V]. */
const NEAR = 1e-6;
/** Where LEDs are looked at to tell whether they look alike in all of a range. */
const LOOKS = [-1, -0.5, 0, 0.5, 1] as const;

export class BlockReader {
  private readonly whole: Network;
  private readonly parts: BlockParts;
  /** node voltages of the whole circuit, of which only the block's are filled in */
  private readonly x: Float64Array;
  /** by input: its place among the nodes */
  private readonly places: readonly number[];

  constructor(whole: Network, parts: BlockParts) {
    this.whole = whole;
    this.parts = parts;
    this.x = new Float64Array(whole.n + 1);
    this.places = parts.inputs.map(({ node }) => parts.nodes.indexOf(node));
  }

  over(terms: Float64Array, range: Range): BlockCurve {
    const levels = this.levels(terms, 0, range.middle);
    const looks = this.looks(terms, 0, range.middle);
    const steady = this.levelsStay(terms, range) && this.looksStay(terms, range);
    return { terms, levels, looks, steady, takes: terms.slice(terms.length - TERMS).map(exact) };
  }

  levels(terms: Float64Array, t: number, volts: number): Level[] {
    return this.parts.inputs.map(({ figures, of }, i) => {
      const at = valueAt(terms, (this.places[i] as number) * TERMS, t);
      const whole = of === undefined ? 1 : volts;
      return at <= figures.vil * whole - NEAR ? 'L' : at >= figures.vih * whole + NEAR ? 'H' : 'X';
    });
  }

  looks(terms: Float64Array, t: number, volts: number): Uint8Array {
    this.spread(terms, t, volts);
    return Uint8Array.from(this.parts.leds, (led) => brightnessPlace(this.whole.flow(led.device, this.x).i, led));
  }

  /** Is every input on one side of each of its thresholds all the way? */
  private levelsStay(terms: Float64Array, { middle, half }: Range): boolean {
    const above = new Float64Array(TERMS);
    return this.parts.inputs.every(({ figures, of }, i) => {
      const place = (this.places[i] as number) * TERMS;
      return [figures.vil, figures.vih].every((mark) => {
        for (let d = 0; d < TERMS; d++) above[d] = terms[place + d] as number;
        above[0] = (above[0] as number) - mark * (of === undefined ? 1 : middle);
        if (of !== undefined) above[1] = (above[1] as number) - mark * half;
        return Math.abs(above[0] as number) > spreadOf(above, 0) + NEAR;
      });
    });
  }

  /** Does every LED look alike all the way, even if its current spread twice as far as it was seen to? */
  private looksStay(terms: Float64Array, { middle, half }: Range): boolean {
    const { leds } = this.parts;
    if (leds.length === 0) return true;
    const amps = LOOKS.map((t) => {
      this.spread(terms, t, middle + t * half);
      return leds.map((led) => this.whole.flow(led.device, this.x).i);
    });
    return leds.every((led, k) => {
      const here = amps.map((of) => of[k] as number);
      const [least, most] = [Math.min(...here), Math.max(...here)];
      return brightnessPlace(least - (most - least), led) === brightnessPlace(most + (most - least), led);
    });
  }

  private spread(terms: Float64Array, t: number, volts: number): void {
    for (const [i, node] of this.parts.nodes.entries()) this.x[node] = valueAt(terms, i * TERMS, t);
    this.x[this.parts.rail] = volts;
    this.x[this.whole.n] = 0;
  }
}
