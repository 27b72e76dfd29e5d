/** The contract of a face: how a kind of part is drawn, what of it can be touched, and how it shows a reading. */
import type { ChipReading, CoilReading, LedReading, Readings, SupplyReading } from '../../../sim-core/index.ts';
import type { PlacedPart } from '../../state/bench-model.ts';
import type { Box, Spot } from '../geometry.ts';

/** What a hand can do to a face. */
export interface FaceActions {
  set(part: string, pole: number, closed: boolean): void;
  press(part: string): void;
  release(part: string): void;
  ask(led: string): void;
  /** opens the close-up of a chip */
  open(chip: string): void;
}

/** One reading, with its lists looked up by name, and how it is to be shown. */
export interface Sight {
  readonly readings: Readings;
  readonly leds: ReadonlyMap<string, LedReading>;
  readonly chips: ReadonlyMap<string, ChipReading>;
  readonly supplies: ReadonlyMap<string, SupplyReading>;
  readonly coils: ReadonlyMap<string, CoilReading>;
  /** damaged parts, and what is said of each */
  readonly damage: ReadonlyMap<string, string>;
  /** LEDs that are gone, alone or with their part, and what is said of each */
  readonly gone: ReadonlyMap<string, string>;
  /** what the digits show, by part: 'shows 5' */
  readonly digits: ReadonlyMap<string, string>;
  /** top of the voltage ramp */
  readonly volts: number;
  readonly dark: boolean;
}

export interface Face {
  /** drawn on the board, under the wires */
  readonly body: SVGElement;
  /** drawn over the wires: all that a hand works or looks at, so that no wire takes its press or hides it */
  readonly over?: SVGElement;
  /** the outline that wires and labels keep clear of [pitch] */
  readonly box: Box;
  /** where its own writing stands beside it, which names keep off [pitch] */
  readonly writing?: readonly Box[];
  /** terminals of a part that stands off the boards, by pin */
  readonly terminals?: ReadonlyMap<string, Spot>;
  /** what it is, where its body has no room left for that in the presentation size */
  readonly title?: string;
  /** changes attributes of elements made before, and only of those that differ */
  show?(sight: Sight): void;
}

interface Place {
  /** each leg's hole, by pin number; empty for a part off the boards */
  readonly legs: ReadonlyMap<string, Spot>;
  /** middle of all boards: which way wires will leave */
  readonly middle: Spot;
  readonly actions: FaceActions;
}

export type DrawFace = (specimen: PlacedPart, place: Place) => Face;
