/** The answer to a why, about an LED or anything else: a chain from what is seen to something a hand can touch, and of an LED its proof. */
import type { Change } from '../document/changes.ts';
import type { Finding } from '../findings/finding.ts';
import type { Brightness } from '../run/readout/readings.ts';
import type { Ref } from '../sentence/wording.ts';

/** How an LED is to look. */
export type Look = 'lit' | 'dark';

/** One link: what is so, where, and the figures that show it. Words are made elsewhere. */
export interface Reason {
  readonly code: string;
  readonly at: readonly Ref[];
  readonly data: Readonly<Record<string, number | string>>;
}

/** A reason, or what a rule says of the same place in its own words. */
export type Link = Reason | Finding;

/** The first is the answer in one sentence; the others lead to what a hand can touch. */
export type Chain = readonly [Reason, ...Link[]];

/** One edit of the plan that changes the LED, tried on a copy. */
export interface TestedFix {
  readonly change: Change;
  readonly code: string;
  readonly at: readonly Ref[];
  readonly data: Readonly<Record<string, number | string>>;
  /** what its proof shows to be so */
  readonly claims?: Reason;
  /** of an edit that is several at once: each of them */
  readonly both?: readonly Reason[];
  /** the LED's current [A] and look before and after */
  readonly before: { readonly amps: number; readonly brightness: Brightness };
  readonly after: { readonly amps: number; readonly brightness: Brightness };
  /** of the table: rows that were right before and after, of so many that were tried, and how many it has; absent: the table says nothing of it */
  readonly rows?: { readonly was: number; readonly right: number; readonly of: number; readonly all: number };
  /** other LEDs whose look changes too */
  readonly others: readonly string[];
}

/** Why an LED is as it is: the chain from what is seen to what a hand can touch, and a fix that was tried. */
export interface WhyAnswer {
  readonly led: string;
  readonly brightness: Brightness;
  readonly amps: number;
  /** set when the question supposed something that is not so: asked why it is dark, it is lit */
  readonly refused?: 'dark' | 'lit';
  /** from the LED back to the cause */
  readonly reasons: readonly Reason[];
  readonly proof?: TestedFix;
  /** what would be so if another edit were the right one, each of which makes every row right too */
  readonly instead?: readonly Reason[];
}
