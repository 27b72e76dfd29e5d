/** The contract of a rule: what it looks for and in what, the sentence and the fixes of what it finds, all in one file; and how rules point at things. */

import type { Plan } from '../../shared/plan.ts';
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import type { Fix, FixBench } from '../fixes/fix.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite, LedSite, Placed } from '../run/circuit/sites.ts';
import type { Ref, Wording } from '../sentence/wording.ts';
import type { Marginals } from '../tolerance/marginal.ts';
import { compareCounting, compareTexts } from '../units/text-list.ts';
import type { Severity } from './finding.ts';
import type { ButtonPress } from './press.ts';
import type { RuleContext } from './rule-context.ts';
import type { TableAttempt } from './table-check.ts';

export const toPart = (p: Placed): Ref => ({ kind: 'part', id: p.part.id });
export const toPin = (leg: Leg): Ref => ({ kind: 'pin', id: `${leg.part.id}.${leg.pin}` });
export const toLed = (site: LedSite): Ref => ({ kind: 'led', id: site.id });
export const toWire = (id: string): Ref => ({ kind: 'wire', id });

/** A net has no name of its own: a terminal beside the boards stands for it, or the first of its legs by name, or a wire. */
export function toNet(net: Net | undefined): readonly Ref[] {
  const legs = net?.legs ?? [];
  const outside = legs.filter((leg) => !leg.hole);
  const pins = (outside.length > 0 ? outside : legs).map(toPin);
  const refs = pins.length > 0 ? pins : (net?.ends ?? []).map((end) => toWire(end.wire.id));
  return refs.sort((a, b) => compareTexts(a.id, b.id)).slice(0, 1);
}

/** The leg of a chip's pin, by the pin's number. */
export const legOfPin = (site: ChipSite, pin: string): Leg | undefined => site.placed.legs.find((l) => l.pin === pin);

/** As a person counts: the order of the file has no part in a sentence. */
export const inCountingOrder = (refs: readonly Ref[]): Ref[] => [...refs].sort((a, b) => compareCounting(a.id, b.id));

/** Each thing once, in the order of its first mention. */
export function distinct(refs: readonly Ref[]): Ref[] {
  const seen = new Set<string>();
  return refs.filter((r) => {
    const key = `${r.kind} ${r.id}`;
    return !seen.has(key) && seen.add(key);
  });
}

/**
 * `Data`: what a finding of this rule has to say, by name. Every reference in it is a place of the finding, in the order of the names, the most important
 * first. Where it has `measured` and `limit`, of two findings alike the one farther beyond its limit is kept.
 */
interface RuleWords<Data extends object> {
  /** the file's path below rules/, without its ending: 'GROUP/RULE' */
  readonly code: string;
  readonly severity: Severity;
  /** instead of `severity`, where it depends on the figures */
  severityOf?(data: Data): Severity;
  /**
   * 'cause': what pins of its parts suffer follows from this; 'effect': may follow from a cause, and is said only where there is none; 'unwired': of parts that
   * are not wired yet, of which nothing else is said
   */
  readonly role?: 'cause' | 'effect' | 'unwired';
  /** two findings at the same place are two if this differs */
  apart?(data: Data): string | number;
  /** what is so, the figure, the limit, the cure */
  message(data: Data): Wording;
  /** the best first; empty where the bench has no room for one. Absent: only a person can say what was meant. */
  fixes?(data: Data, bench: FixBench): readonly Fix[];
}

/** What chips have reported so far, oldest first. */
interface Log {
  readonly circuit: Circuit;
  readonly events: readonly ChipEvent[];
}

/** What the memories hold now. */
interface Stored {
  readonly circuit: Circuit;
  readonly memories: Plan['memories'];
}

/**
 * A rule reads one of seven things, and is asked again only when that has changed: the wiring (whatever the switches and the voltages),
 * the present moment, the log of what chips reported, what the memories hold, what the rows of the table show, or, only in a dry run, what came of
 * pressing a button, and what is marginal with other specimens of its parts.
 */
export type Rule<Data extends object = object> = RuleWords<Data> &
  (
    | { readonly reads: 'wiring'; look(circuit: Circuit): readonly Data[] }
    | { readonly reads: 'moment'; look(scene: RuleContext): readonly Data[] }
    | { readonly reads: 'log'; look(log: Log): readonly Data[] }
    | { readonly reads: 'stored'; look(stored: Stored): readonly Data[] }
    | { readonly reads: 'table'; look(trial: TableAttempt): readonly Data[] }
    | { readonly reads: 'press'; look(press: ButtonPress): readonly Data[] }
    | { readonly reads: 'marginal'; look(marginals: Marginals): readonly Data[] }
  );

export const defineRule = <Data extends object>(rule: Rule<Data>): Rule<Data> => rule;
