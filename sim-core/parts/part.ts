/** The contract of a part: one file says what a part is and which primitives it is made of. What a chip and a write are stands in contract/. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanPart } from '../../shared/plan.ts';
import type { Footprint } from '../board/footprints.ts';
import type { CoilModel } from '../devices/coil.ts';
import type { Junction, Supply } from '../devices/device-models.ts';
import type { TransistorModel } from '../devices/transistor.ts';
import type { ChipSpec } from './contract/chip.ts';
import type { Bounce, Figure, Params } from './contract/figure.ts';

export {
  type Chip,
  type ChipBench,
  type ChipSpec,
  type ChipState,
  constantCurrent,
  type Drive,
  type InputFigures,
  type Level,
  type SupplyCurrent,
  thresholdsOf,
} from './contract/chip.ts';
export type { Bounce, Figure, Params } from './contract/figure.ts';
export type { ChipEvent, PinAddress, WriteFault, WriteReport, WriteTime } from './contract/write-report.ts';

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
  | { readonly name: string; readonly type: 'choice'; readonly choices: readonly string[]; readonly fallback: string }
  /** most: characters */
  | { readonly name: string; readonly type: 'text'; readonly most: number; readonly fallback: string };

export type PinRole = 'input' | 'output' | 'both' | 'supply' | 'ground' | 'passive' | 'none';
/** A pin of a kind of part: number, name and role. */
export interface Pin {
  /** number on the package, or the terminal's name */
  readonly pin: string;
  /** as the data sheet prints it: 'A0', '/WE'; the same as `pin` for a part whose pins have no names */
  readonly name: string;
  readonly role: PinRole;
}

/** What a part file says of one specimen: primitives between its pins, in terms of pin numbers. */
export interface Wiring {
  /** most: of a leak, what the worst specimen conducts [S] */
  conductor(a: string, b: string, siemens: number, most?: number): void;
  capacitor(a: string, b: string, farads: number): void;
  /** `LED`: this junction is something that lights; its name within the part ('' for a part that is one LED) */
  junction(anode: string, cathode: string, j: Junction, led?: Led): void;
  /** one pole of a switch: which pole it is decides its place in the plan's hands */
  contact(a: string, b: string, pole: number, c: Contact): void;
  supply(plus: string, minus: string, s: Supply): void;
  /** a winding, from a to b; turning: what its shaft does to it, between it and b */
  coil(a: string, b: string, c: WindingModel, turning?: Turning): void;
  transistor(collector: string, base: string, emitter: string, model: TransistorModel): void;
  chip(spec: ChipSpec): void;
}

/** A coil with the capacitance between its ends [F]. */
export type WindingModel = CoilModel & { readonly farads: number };

/** A shaft as its winding meets it: its inertia as a capacitance [F], its friction as a conductance [S], the back EMF across both. */
export interface Turning {
  readonly farads: number;
  readonly siemens: number;
  /** revolutions a minute for 1 V of back EMF */
  readonly rpmPerVolt: number;
}

export interface Led {
  readonly name: string;
  readonly colour: string;
  readonly mostCurrent: Figure;
  readonly mostReverse: Figure;
}

export interface Contact {
  /** closed, open, and the least that is guaranteed of an open one [Ω] */
  readonly on: number;
  readonly off: number;
  readonly leastOff: number;
  /** springs back when released */
  readonly momentary: boolean;
  readonly bounce: Bounce;
}

/** A kind of part: what it is called, its pins, footprint, parameters and figures, and what it is made of. */
export interface PartKind {
  readonly id: string;
  readonly title: string;
  /** other names that people search it by */
  readonly synonyms?: readonly string[];
  readonly group: 'supply' | 'memory' | 'logic' | 'switch' | 'passive' | 'led';
  /** letters that its specimens' ids begin with, where the group's own do not fit */
  readonly letters?: string;
  readonly params: readonly ParamSpec[];
  footprint(p: Params): Footprint;
  pins(p: Params): readonly Pin[];
  /** the figures it works with, each with its source */
  readonly figures: readonly Figure[];
  connect(w: Wiring, p: Params): void;
  /** what is wrong with figures that each are possible, as the rest of a sentence with its full stop; undefined: nothing */
  contradiction?(p: Params): string | undefined;
  /** what is left of it once it is damaged; absent: it joins nothing any more */
  wireDamaged?(w: Wiring, p: Params): void;
  /** what its value is called on the bench: '330 Ω', 'red' */
  value?(p: Params): string;
  /** the parameter that differs from one specimen to the next, by ± the parameter `tolerance` [%] */
  readonly spread?: { readonly of: string; readonly source: string };
  /** what leaks in it is more in some specimens: the source of what is typical and of the most */
  readonly leakage?: string;
  /** of a junction that is no LED: its forward voltage at 10 mA, as modelled, lowest and highest [V] */
  readonly forward?: { readonly typical: number; readonly least: number; readonly most: number; readonly source: string };
  /** most power it may turn into heat [W], where heat is what limits it */
  readonly mostPower?: Figure;
  /** most steady current through its junction or its collector [A] */
  readonly mostCurrent?: Figure;
  /** of a transistor: most voltage that sheets allow across it while it is off, and at which a typical one gives way [V] */
  readonly switches?: { readonly most: Figure; readonly gives: number };
  /** true for a capacitor that a chip may count as its decoupling */
  readonly decouples?: true;
  /** of a part that must not be put in the wrong way round: its two pins, and the most it bears either way [V] */
  readonly polar?: { readonly plus: string; readonly minus: string; readonly mostReverse: Figure; most(p: Params): Figure };
}

export const definePart = (kind: PartKind): PartKind => kind;

/**
 * The parameters of a part on a plan, completed and checked against its kind.
 * Fails with `plan/parameter-out-of-range`, `plan/unknown-parameter` or `plan/parameters-contradict`.
 */
export function readParams(kind: PartKind, part: PlanPart): Outcome<Params> {
  const given = part.params ?? {};
  const known = kind.params.map((s) => s.name);
  for (const name of Object.keys(given))
    if (!known.includes(name))
      return failed(
        'plan/unknown-parameter',
        `params/${name}`,
        `${part.id} (${kind.title}) has no figure called ${name}; it has ${known.join(', ') || 'none'}.`,
      );
  const params: Record<string, number | string | boolean> = {};
  for (const spec of kind.params) {
    const value = given[spec.name] ?? spec.fallback;
    const at = `params/${spec.name}`;
    if (spec.type === 'choice') {
      if (typeof value !== 'string' || !spec.choices.includes(value))
        return failed(
          'plan/parameter-out-of-range',
          at,
          `${part.id}: ${spec.name} is ${JSON.stringify(value)}; choose one of ${spec.choices.join(', ')}.`,
        );
    } else if (spec.type === 'text') {
      if (typeof value !== 'string' || value.trim() === '' || value.length > spec.most)
        return failed('plan/parameter-out-of-range', at, `${part.id}: ${spec.name} is a text of 1 to ${spec.most} characters.`);
    } else if (typeof value !== 'number' || !(value >= spec.least && value <= spec.most) || (spec.whole && !Number.isInteger(value)))
      return failed(
        'plan/parameter-out-of-range',
        at,
        `${part.id}: ${spec.name} is ${JSON.stringify(value)}; give a ${spec.whole ? 'whole ' : ''}number from ${spec.least} to ${spec.most}${spec.unit && ` ${spec.unit}`}.`,
      );
    params[spec.name] = value;
  }
  const wrong = kind.contradiction?.(params);
  return wrong === undefined ? done(params) : failed('plan/parameters-contradict', 'params', `${part.id}: ${wrong}`);
}

/** Pins without names of their own, numbered 1 … n. */
export const plainPins = (n: number): readonly Pin[] =>
  Array.from({ length: n }, (_, i) => ({ pin: String(i + 1), name: String(i + 1), role: 'passive' }));
