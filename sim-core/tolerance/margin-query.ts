/** A figure of a bench that has to keep a limit: what it is, where, under which experiment it is read, and which spreads can move it. */

import type { ExperimentReading, ExperimentRunner } from './experiment.ts';
import type { Tolerance } from './tolerances.ts';

export type What =
  /** write pulse: guaranteed at least, maximum at most [s] */
  | 'pulse-width-guaranteed'
  | 'pulse-width-maximum'
  /** an input's voltage with the worst leakage on its net, against VIL and VIH [V] */
  | 'level-low'
  | 'level-high'
  /** an LED that is to look lit; its largest steady current [A] */
  | 'led-lit'
  | 'led-current'
  /** steady current of one output [A] */
  | 'pin-current'
  /** steady current of all outputs of a chip through its supply or ground pin [A] */
  | 'package-current'
  /** how far a chip's supply dips when a switch is moved, with real wiring [V] */
  | 'supply-dip';

/** Something that can be pointed at, as findings do: 'U1', 'U1.20', 'D3'. */
export interface MarginPlace {
  readonly kind: 'part' | 'pin' | 'led';
  readonly id: string;
}

export interface Asked {
  readonly what: What;
  readonly at: MarginPlace;
  readonly unit: 's' | 'V' | 'A';
  readonly must: 'at-least' | 'at-most';
  readonly limit: number;
  /** of the limit */
  readonly source: string;
  /** the button whose press it is about */
  readonly button?: string;
  readonly read: (seen: ExperimentReading) => number;
}

export interface MarginQuery extends Asked {
  readonly spreads: readonly Tolerance[];
  /**
   * What is drawn where chance is asked: the spreads of everything that is read from one trial. For a write pulse also where the chip's inputs change sides,
   * which a guarantee takes at its worse end.
   */
  readonly drawn: readonly Tolerance[];
  readonly trial: ExperimentRunner;
}

/** How far a figure is inside its limit, as a share of the limit; below 0: not kept. */
export const roomOf = ({ must, limit }: Pick<Asked, 'must' | 'limit'>, figure: number): number =>
  (must === 'at-least' ? figure - limit : limit - figure) / Math.abs(limit);
