/** The contract of a chip: what it looks like from its pins, what it is told and what it can do, and what it shows of itself. */
import type { PlanCells } from '../../../shared/plan.ts';
import type { Channel } from '../../devices/device-models.ts';
import type { Pull } from '../../devices/network.ts';
import type { Partly } from '../../units/hex.ts';
import type { Bounce, Figure } from './figure.ts';
import type { ChipEvent, PinAddress } from './write-report.ts';

/** L, H, or X: between the thresholds, or floating. */
export type Level = 'L' | 'H' | 'X';

/** What an input does to the world and what it takes for high and low, relative to its ground pin. */
export interface InputFigures {
  /** highest voltage that is guaranteed low, lowest that is guaranteed high: in V, or as parts of what `of` names */
  readonly vil: number;
  readonly vih: number;
  /** the chip's supply voltage, or that of one of its pins, which has this part of the supply while nothing outside moves it */
  readonly of?: 'supply' | { readonly pin: string; readonly rest: number };
  /** a Schmitt input: between the two it keeps the level it had */
  readonly keeps?: true;
  /** worst-case leakage [A]; of either sign, unless `sinks` says that this is what comes out of it */
  readonly leakage: number;
  /** most that flows into it while it is high [A] */
  readonly sinks?: number;
  /** where nothing holds it, it counts as high from this voltage on [V]; absent: it may read either */
  readonly openHigh?: number;
  /** [F] */
  readonly capacitance: number;
}

/** The two thresholds of an input [V] at this supply voltage. */
export function thresholdsOf(
  { vil, vih, of }: Pick<InputFigures, 'vil' | 'vih' | 'of'>,
  supply: number,
): { readonly vil: number; readonly vih: number } {
  const whole = of === undefined ? 1 : of === 'supply' ? supply : of.rest * supply;
  return { vil: vil * whole, vih: vih * whole };
}

/** The two sides of an output, as data sheets show them typically and as they guarantee them. */
export interface Drive {
  readonly typical: { low: Channel; high: Channel };
  readonly guaranteed: { low: Channel; high: Channel };
  /** what such a stage takes from its pin to ground [S], so that a high one rests below the supply */
  readonly bleed?: number;
}

/** Supply current [A] when working and when resting. */
export interface SupplyCurrent {
  readonly working: number;
  readonly resting: number;
}

/** The same working or resting [A]; most: absent where nothing allows more than what is drawn typically. */
export function constantCurrent(typical: number, most = typical): ChipSpec['supplyCurrent'] {
  return { typical: { working: typical, resting: typical }, most: { working: most, resting: most } };
}

/** The pins a chip listens to and drives, in terms of its own pin names. */
export interface ChipSpec {
  /** the same as the ground pin for a chip that needs no supply of its own */
  readonly supplyPin: string;
  readonly groundPin: string;
  /** pin names; an output that can also be listened to stands in both lists */
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
  /**
   * of a memory: its address inputs, least significant first, and the pins of its word; beyond: so many bytes that a plan keeps past the last
   * address, for what only a high voltage reaches and for its protection; forgets: it holds its bytes only while it has its supply
   */
  readonly word?: {
    readonly address: readonly string[];
    readonly data: readonly string[];
    readonly beyond?: number;
    readonly forgets?: boolean;
  };
  /** of a logic chip: what an output would be with these levels at its inputs; undefined where that depends on what it has stored */
  readonly answers?: (output: number, level: (input: number) => Level) => Level | 'Z' | undefined;
  /** of a logic chip: by input, the outputs that it can move */
  readonly moves?: readonly (readonly number[])[];
  /** of a logic chip that stores: the input at whose edge it does */
  readonly clock?: string;
  /** levels that its control inputs must have for the outputs to drive the bus */
  readonly toRead?: Readonly<Record<string, 'L' | 'H'>>;
  readonly input: InputFigures;
  /** inputs that differ from the others, by pin name */
  readonly special?: Readonly<Record<string, InputFigures>>;
  readonly drive: Drive;
  /** lowest high level that its sheet promises at its outputs, under the load it names: in V, or as a part of the supply */
  readonly promises?: { readonly high: number; readonly of?: 'supply'; readonly source: string };
  /** outputs that differ from the others, by pin name */
  readonly specialDrive?: Readonly<Record<string, Drive>>;
  /** levels that its outputs reach while nothing overpowers them; absent: those that its inputs ask for */
  readonly reaches?: Pick<InputFigures, 'vil' | 'vih' | 'of'>;
  /** true: its pins may rise above the supply, no diode leads from them to it */
  readonly noUpperClamps?: true;
  /** true: what it needs against dips of its supply is inside */
  readonly decoupled?: true;
  /** leakage and capacitance of a high-impedance output */
  readonly released: { readonly leakage: number; readonly capacitance: number };
  /** what it draws at 5 V: what a meter shows, and the most that its sheet allows */
  readonly supplyCurrent: { readonly typical: SupplyCurrent; readonly most: SupplyCurrent };
  /** largest steady current of one output, and of all together through a supply pin [A] */
  readonly mostPinCurrent: Figure;
  readonly mostPackageCurrent: Figure;
  /** how many times those two it takes until damage begins, where they are what a sheet promises and not its absolute maxima; absent: once */
  readonly damageFactor?: number;
  /** most current through the diodes from a pin to the supply pins [A]; absent: the usual one */
  readonly mostClampCurrent?: Figure;
  /** by pin name, where no diode to the supply keeps the pin down: most voltage against ground [V] */
  readonly mostVolts?: Readonly<Record<string, Figure>>;
  /** absolute maximum of the supply [V], where a sheet gives one */
  readonly mostSupply?: Figure;
  /** supply voltages [V] at whose crossing the chip is told, ascending */
  readonly supplyMarks: readonly number[];
  /** pins that may stand above the supply (they have no clamp to it), and voltages [V] against ground at whose crossing the chip is told */
  readonly marks?: readonly { readonly pin: string; readonly volts: number }[];
  /** contacts that it moves itself: the pins that each joins, [Ω] closed and open, and whether it is closed while nothing moves it */
  readonly contacts?: readonly {
    readonly ends: readonly [string, string];
    readonly on: number;
    readonly off: number;
    readonly atRest: boolean;
  }[];
  /** currents of its winding, in either direction, at whose crossing the chip is told: two marks each after those of `marks`, at plus and at minus so many [A] */
  readonly coilMarks?: readonly number[];
  /** writes that each cell is good for */
  readonly endurance?: Figure;
  /** recommended range of the supply [V] */
  readonly supplyRange: readonly [least: number, most: number];
  /** a fresh chip of this kind with these contents (hexadecimal address → bytes), if it holds any */
  start(bench: ChipBench, contents: Readonly<Record<string, string>> | undefined): Chip;
}

/** What a chip can do to the bench. Indices are positions in ChipSpec.inputs and .outputs. Times in seconds. */
export interface ChipBench {
  readonly part: string;
  /** what the plan says of its cells, if it has any */
  readonly cells: PlanCells | undefined;
  level(input: number): Level;
  /** supply pin against ground pin at this moment [V] */
  supply(): number;
  /** does the pin of ChipSpec.marks[mark] stand above it? */
  above(mark: number): boolean;
  /** that pin's voltage against the ground pin at this moment [V] */
  volts(mark: number): number;
  drive(output: number, pull: Pull): void;
  /** it is unknown which of these it pulls, 1 << pull for each; the bench goes on as if it were high-impedance */
  perhaps(output: number, pulls: number): void;
  /** what the output pulls stays, but for how long is unknown */
  doubt(output: number): void;
  draw(state: 'working' | 'resting'): void;
  /** closes or opens ChipSpec.contacts[contact] */
  moveContact(contact: number, closed: boolean): void;
  /** how long after its move a contact that bounces so changes once more, each time [s] */
  rebounds(bounce: Bounce): readonly number[];
  /** wakes the chip later; a chip may have any number of alarms. background: a clock that ticks for ever; nothing waits for it to rest */
  alarm(time: number, name: string, background?: true): void;
  report(event: ChipEvent): void;
}

/** A chip's behaviour: it is told of crossings and alarms, in order of time, and answers through its bench. */
export interface Chip {
  /** once, when the bench first has voltages */
  begin(now: number): void;
  levelChanged(input: number, from: Level, now: number): void;
  supplyCrossed(mark: number, rising: boolean, now: number): void;
  /** ChipSpec.marks[mark] has been passed */
  markCrossed?(mark: number, rising: boolean, now: number): void;
  /** ultraviolet light has fallen through its window [W·s/cm²]; absent: it has none */
  light?(dose: number, now: number): void;
  alarm(name: string, now: number): void;
  /**
   * What each output pulls once it is left alone with other levels at its inputs, written into `pulls`; the answer is what it draws then. levels: bit i of `value`
   * is 1 where input i is high, of `unknown` where it is X. Undefined if that depends on more than these levels, or is unknown, or if the chip would do more than
   * drive its outputs. Absent: it always depends on more.
   */
  settled?(levels: Partly, pulls: Uint8Array): 'working' | 'resting' | undefined;
  /**
   * All that each output may pull once it is left alone with these levels at its inputs, 1 << pull for each, written into `may`; the answer is what it draws
   * then. Undefined if that depends on more than these levels. Absent: it always does.
   */
  mayPull?(levels: Partly, may: Uint8Array): 'working' | 'resting' | undefined;
  /** what it is doing, for the screen and for explanations */
  state(now: number): ChipState;
  /** its contents in plan form, if it holds any */
  contents(): Readonly<Record<string, string>> | undefined;
  /** what those do not tell of its cells, in plan form; absent, or undefined: nothing */
  cells?(): PlanCells | undefined;
}

/** What a chip shows of itself beside its pins. */
export interface ChipState {
  readonly doing:
    | 'no supply'
    | 'working'
    | 'waiting'
    | 'reading'
    | 'high-impedance'
    | 'storing'
    | 'ready to write'
    | 'programming'
    | 'erasing'
    | 'operated'
    | 'released';
  readonly address?: PinAddress;
  /** what the outputs stand for */
  readonly data?: Partly;
  /** what a write has taken from the pins and not stored yet: the address from the strobe's fall on, the byte from its rise on */
  readonly latched?: { readonly address: PinAddress; readonly data?: Partly };
  /** when what it does now will be done [s] */
  readonly until?: number;
  /** the cell that has been written most often, and how often */
  readonly wear?: { readonly address: number; readonly cycles: number };
}
