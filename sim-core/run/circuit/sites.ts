/** What stands where on a circuit: each LED, contact, supply and chip with its legs, its nodes and its place in the network. */
import type { PlanPart } from '../../../shared/plan.ts';
import type { Leg } from '../../board/layout.ts';
import type { Junction } from '../../devices/device-models.ts';
import type { Device, Node } from '../../devices/network.ts';
import type { ChipSpec, Contact, InputFigures, Led, Params, PartKind, Turning, WindingModel } from '../../parts/part.ts';

/** A part on this bench: the plan's line, its kind, its completed figures. */
export interface Placed {
  readonly part: PlanPart;
  readonly kind: PartKind;
  readonly params: Params;
  readonly legs: readonly Leg[];
}

export interface LedSite {
  /** 'D3', or 'DS1.a' */
  readonly id: string;
  readonly placed: Placed;
  readonly led: Led;
  readonly junction: Junction;
  readonly device: Device;
  readonly anode: Leg;
  readonly cathode: Leg;
}
export interface ContactSite {
  readonly placed: Placed;
  readonly pole: number;
  readonly contact: Contact;
  readonly device: Device;
  readonly legs: readonly [Leg, Leg];
}
export interface SupplySite {
  readonly placed: Placed;
  readonly device: Device;
  readonly plus: Leg;
  readonly minus: Leg;
}
export interface ChipPin {
  readonly name: string;
  readonly leg: Leg;
  readonly node: Node;
}
export interface ChipInput extends ChipPin {
  readonly figures: InputFigures;
  /** the node that its thresholds are parts of, if they are */
  readonly of?: Node;
}
export interface ChipSite {
  readonly placed: Placed;
  readonly spec: ChipSpec;
  readonly inputs: readonly ChipInput[];
  /** bleed: see Drive [S] */
  readonly outputs: readonly (ChipPin & { readonly device: Device; readonly bleed: number })[];
  readonly supply: ChipPin;
  readonly ground: ChipPin;
  /** the supply from which on its outputs are certain [V]; 0: it needs none */
  readonly certainFrom: number;
  /** its supply current as a conductance, right at 5 V; by what the chip does [S] */
  readonly drain: Device;
  readonly drains: { readonly working: number; readonly resting: number };
  /** names of pins that overload has burnt: their bond is open, and what the gate behind them reads is undefined */
  readonly burnt: ReadonlySet<string>;
  /** of ChipSpec.marks, in its order */
  readonly marks: readonly ChipPin[];
  /** of ChipSpec.contacts, in its order */
  readonly contacts: readonly Device[];
  /** where the current of its winding is kept, if it has one */
  readonly coil?: Node;
}
/** A winding, from one leg to the other. */
export interface CoilSite {
  readonly placed: Placed;
  readonly device: Device;
  readonly legs: readonly [Leg, Leg];
  readonly model: WindingModel;
  readonly turning?: Turning;
}
/** A node inside a part, the so manieth of it, at the current or the voltage of its leg. */
export interface InnerNode {
  readonly node: Node;
  readonly placed: Placed;
  readonly leg: Leg;
  readonly turn: number;
}
/** One primitive as seen from the legs that it joins; its current flows from the first to the second. */
export interface Branch {
  readonly placed: Placed;
  readonly device: Device;
  readonly legs: readonly [Leg, Leg];
  /** of an output: the leg that takes the second one's place while it pulls high */
  readonly whenHigh?: Leg;
}
