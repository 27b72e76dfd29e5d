/** The contract of a part: one file says what a part is, which primitives it is made of, and how it behaves. */
import type { PlanCells, PlanPart } from '../../shared/plan.ts';
import type { Footprint } from '../bench/footprints.ts';
import type { Channel, Junction, Supply } from '../devices/laws.ts';
import type { Pull } from '../devices/network.ts';
import type { TransistorModel } from '../devices/transistor.ts';
import { done, failed, type Outcome } from '../outcome.ts';

/** Where a figure comes from: a named text, 'common practice, no source', 'from memory', or 'derived: …'. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/** One figure that a specimen carries: 330 Ω, red, 8 poles. */
export type ParamSpec =
  | {
      readonly name: string;
      readonly type: 'number';
      readonly unit: string;
      readonly fallback: number;
      readonly least: number;
      readonly most: number;
      readonly whole?: true;
      /** what a card calls it, where its name alone would not be understood */
      readonly called?: string;
    }
  | { readonly name: string; readonly type: 'choice'; readonly choices: readonly string[]; readonly fallback: string };

export type Params = Readonly<Record<string, number | string | boolean>>;

export type PinRole = 'input' | 'output' | 'both' | 'supply' | 'ground' | 'passive' | 'none';
export interface Pin {
  /** number on the package, or the terminal's name */
  readonly pin: string;
  /** as the data sheet prints it: 'A0', '/WE'; the same as `pin` for a part whose pins have no names */
  readonly name: string;
  readonly role: PinRole;
}

/** What an input does to the world and what it takes for high and low, relative to its ground pin. */
export interface InputFigures {
  /** highest voltage that is surely low, lowest that is surely high: in V, or as parts of what `of` names */
  readonly vil: number;
  readonly vih: number;
  /** the chip's supply voltage, or that of one of its pins, which has this part of the supply while nothing outside moves it */
  readonly of?: 'supply' | { readonly pin: string; readonly rest: number };
  /** a Schmitt input: between the two it keeps the level it had */
  readonly keeps?: true;
  /** worst-case leakage of either sign [A] */
  readonly leakage: number;
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
   * address, for what only a high voltage reaches and for its protection
   */
  readonly word?: { readonly address: readonly string[]; readonly data: readonly string[]; readonly beyond?: number };
  /** of a logic chip: what an output would be with these levels at its inputs; undefined where that depends on what it has stored */
  readonly answers?: (output: number, level: (input: number) => Level) => Level | 'Z' | undefined;
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
  /** leakage and capacitance of an output that has let go */
  readonly released: { readonly leakage: number; readonly capacitance: number };
  /** supply current [A] at 5 V when working and when resting */
  readonly supplyCurrent: { readonly working: number; readonly resting: number };
  /** largest steady current of one output, and of all together through a supply pin [A] */
  readonly mostPinCurrent: Figure;
  readonly mostPackageCurrent: Figure;
  /** how many times those two it takes until harm begins, where they are what a sheet promises and not its absolute maxima; absent: once */
  readonly harmFrom?: number;
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
  /** writes that each cell is good for */
  readonly endurance?: Figure;
  /** recommended range of the supply [V] */
  readonly supplyRange: readonly [least: number, most: number];
  /** a fresh chip of this kind with these contents (hexadecimal address → bytes), if it holds any */
  start(bench: ChipBench, contents: Readonly<Record<string, string>> | undefined): Chip;
}

/** L, H, or X: between the thresholds, or floating. */
export type Level = 'L' | 'H' | 'X';

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
  /** nobody can tell which of these it pulls, 1 << pull for each; the bench goes on as if it had let go */
  perhaps(output: number, pulls: number): void;
  /** what the output pulls stays, but nobody can tell any more for how long */
  doubt(output: number): void;
  draw(state: 'working' | 'resting'): void;
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
  /** what it is doing, for the screen and for explanations */
  state(now: number): ChipState;
  /** its contents in plan form, if it holds any */
  contents(): Readonly<Record<string, string>> | undefined;
  /** what those do not tell of its cells, in plan form; absent, or undefined: nothing */
  cells?(): PlanCells | undefined;
}

/** What the pins make of an address of so many bits: value of the known ones, and a mask of the unknown ones. */
export interface PinAddress {
  readonly value: number;
  readonly unknown: number;
  readonly bits: number;
}

export interface ChipState {
  readonly doing:
    | 'no supply'
    | 'working'
    | 'waiting'
    | 'reading'
    | 'off the bus'
    | 'storing'
    | 'ready to write'
    | 'programming'
    | 'erasing';
  readonly address?: PinAddress;
  /** what the outputs stand for */
  readonly data?: { readonly value: number; readonly unknown: number };
  /** what a write has taken from the pins and not stored yet: the address from the strobe's fall on, the byte from its rise on */
  readonly latched?: { readonly address: PinAddress; readonly data?: { readonly value: number; readonly unknown: number } };
  /** when what it does now will be done [s] */
  readonly until?: number;
  /** the cell that has been written most often, and how often */
  readonly wear?: { readonly address: number; readonly cycles: number };
}

/** Times of a write that a data sheet limits from below, beside the width of its pulse. */
export type WriteTime = 'address-setup' | 'address-hold' | 'data-setup' | 'data-hold' | 'output-enable-setup' | 'output-enable-hold';

/** One write as it was measured on the pins. Times in seconds; absent when it could not be measured. */
export interface WriteReport {
  readonly what: 'write';
  readonly part: string;
  readonly time: number;
  readonly outcome: 'stored' | 'uncertain' | 'ignored';
  /** why it was ignored or uncertain, and every limit that was not kept */
  readonly faults: readonly WriteFault[];
  readonly address: PinAddress;
  readonly data: { readonly value: number; readonly unknown: number };
  /** below VIL, and below VIH */
  readonly sureLow: number;
  readonly maybeLow: number;
  /** those that could be measured, with their limits; negative: on the wrong side of the edge. A hold is measured once something moves. */
  readonly times: readonly { readonly time: WriteTime; readonly measured: number; readonly limit: number }[];
  /** what its sheet asks of the pulse's width [s] */
  readonly limits?: { readonly least: number; readonly most?: number; readonly source: string };
  /** true: taken as a step of a protection sequence; no byte is stored */
  readonly command?: true;
}

export type WriteFault =
  | {
      readonly fault: 'pulse-short' | 'pulse-long' | WriteTime;
      readonly measured: number;
      readonly limit: number;
      readonly source: string;
    }
  | { readonly fault: 'output-enable-low' | 'output-enable-unknown' | 'busy' | 'address-unknown' | 'data-unknown' | 'never-sure-low' }
  | { readonly fault: 'supply-low' | 'just-powered'; readonly measured: number; readonly limit: number; readonly source: string }
  /** protected: by software; other-page: not the page whose bytes are being loaded; not-erased: a bit would have to go back the way that only erasing goes */
  | { readonly fault: 'protected' | 'other-page' | 'not-erased' }
  /** programming supply below its limit [V]; cycles of this cell above its endurance */
  | { readonly fault: 'no-program-voltage' | 'worn'; readonly measured: number; readonly limit: number; readonly source: string };

export type ChipEvent = WriteReport;

/** What a part file says of one specimen: primitives between its pins, in terms of pin numbers. */
export interface Wiring {
  conductor(a: string, b: string, siemens: number): void;
  capacitor(a: string, b: string, farads: number): void;
  /** `lamp`: this junction is something that lights; its name within the part ('' for a part that is one lamp) */
  junction(anode: string, cathode: string, j: Junction, lamp?: Lamp): void;
  /** one pole of a switch: which pole it is decides its place in the plan's hands */
  contact(a: string, b: string, pole: number, c: Contact): void;
  supply(plus: string, minus: string, s: Supply): void;
  transistor(collector: string, base: string, emitter: string, model: TransistorModel): void;
  chip(spec: ChipSpec): void;
}

export interface Lamp {
  readonly name: string;
  readonly colour: string;
  readonly mostCurrent: Figure;
  readonly mostReverse: Figure;
}

export interface Contact {
  /** closed and open [Ω] */
  readonly on: number;
  readonly off: number;
  /** springs back when let go */
  readonly momentary: boolean;
  /** longest bounce after a move [s]; 0: none */
  readonly bounce: number;
}

export interface PartKind {
  readonly id: string;
  readonly title: string;
  readonly group: 'supply' | 'memory' | 'logic' | 'switch' | 'passive' | 'lamp';
  /** letters that its specimens' ids begin with, where the group's own do not fit */
  readonly letters?: string;
  readonly params: readonly ParamSpec[];
  footprint(p: Params): Footprint;
  pins(p: Params): readonly Pin[];
  /** the figures it works with, each with its source */
  readonly figures: readonly Figure[];
  wire(w: Wiring, p: Params): void;
  /** what is left of it once it is damaged; absent: it joins nothing any more */
  wireDamaged?(w: Wiring, p: Params): void;
  /** what its value is called on the bench: '330 Ω', 'red' */
  value?(p: Params): string;
  /** the parameter that differs from one specimen to the next, by ± the parameter `tolerance` [%] */
  readonly spread?: { readonly of: string; readonly source: string };
  /** of a junction that is no lamp: its forward voltage at 10 mA, as modelled, lowest and highest [V] */
  readonly forward?: { readonly typical: number; readonly least: number; readonly most: number; readonly source: string };
  /** most power it may turn into heat [W], where heat is what limits it */
  readonly mostPower?: Figure;
  /** most steady current through its junction or its collector [A] */
  readonly mostCurrent?: Figure;
  /** true for a capacitor that a chip may count as its decoupling */
  readonly decouples?: true;
  /** of a part that must not be put in the wrong way round: its two pins, and the most it bears either way [V] */
  readonly polar?: { readonly plus: string; readonly minus: string; readonly mostReverse: Figure; most(p: Params): Figure };
  /** what a specimen on a test bench must do; run by the catalogue test */
  readonly vectors?: readonly Vector[];
}

/**
 * One script of a part's own test, on a bench where every input pin of its chip has a switch to each rail, and every pin of ChipSpec.marks
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
  /** levels as the chip's pins show them at this moment, or the number on a bus; X where nobody can tell, Z where the chip has let go */
  | { readonly see: Readonly<Record<string, number | Level | 'Z'>> }
  | { readonly supply: 'on' | 'off' }
  | { readonly light: number; readonly wattsPerCm2: number; readonly covered?: true };

export const definePart = (kind: PartKind): PartKind => kind;

/** The parameters of a part on a plan, completed and checked against its kind. */
export function readParams(kind: PartKind, part: PlanPart): Outcome<Params> {
  const given = part.params ?? {};
  const known = kind.params.map((s) => s.name);
  for (const name of Object.keys(given))
    if (!known.includes(name))
      return failed(`params/${name}`, `${part.id} (${kind.title}) has no figure called ${name}; it has ${known.join(', ') || 'none'}.`);
  const params: Record<string, number | string | boolean> = {};
  for (const spec of kind.params) {
    const value = given[spec.name] ?? spec.fallback;
    const at = `params/${spec.name}`;
    if (spec.type === 'choice') {
      if (typeof value !== 'string' || !spec.choices.includes(value))
        return failed(at, `${part.id}: ${spec.name} is ${JSON.stringify(value)}; choose one of ${spec.choices.join(', ')}.`);
    } else if (typeof value !== 'number' || !(value >= spec.least && value <= spec.most) || (spec.whole && !Number.isInteger(value)))
      return failed(
        at,
        `${part.id}: ${spec.name} is ${JSON.stringify(value)}; give a ${spec.whole ? 'whole ' : ''}number from ${spec.least} to ${spec.most}${spec.unit && ` ${spec.unit}`}.`,
      );
    params[spec.name] = value;
  }
  return done(params);
}

/** Pins without names of their own, numbered 1 … n. */
export const plainPins = (n: number): readonly Pin[] =>
  Array.from({ length: n }, (_, i) => ({ pin: String(i + 1), name: String(i + 1), role: 'passive' }));
