/** What an action of the page is: its name, what may be typed after it, its keys, and how it is done. The catalogue feeds the command line and the key list. */

import type { BenchScene } from '../bench/bench-scene.ts';
import type { MeterPanel } from '../bench/meter-panel.ts';
import type { Outcome } from '../core.ts';
import type { Builder } from '../edit/builder.ts';
import type { PlanChooser } from '../plans/plan-chooser.ts';
import type { Session } from '../state/session.ts';
import type { TimingDiagram } from '../timing/timing-diagram.ts';
import type { Route } from '../ui/route.ts';

/** What an action may reach: the bench, its drawing, and the shell round it. */
export interface Desk {
  readonly session: Session;
  readonly scene: BenchScene;
  readonly chooser: PlanChooser;
  readonly builder: Builder;
  openShelf(open: boolean): void;
  /** turns the notebook to a page, and unfolds it */
  turn(place: Route): void;
  fold(folded: boolean): void;
  /** takes the meter in the hand, or puts it away */
  measure(on: boolean): Promise<MeterPanel | null>;
  /** opens the close-up of a chip */
  open(chip: string): void;
  strip(): TimingDiagram;
  wear(look: 'light' | 'dark'): void;
  showKeys(): void;
  showLine(): void;
}

/** A word that may stand somewhere, and what it means. */
export interface Offer {
  readonly word: string;
  readonly means?: string;
}

/** One place for a word after the action's name. */
export interface Slot {
  /** as the usage shows it: 'PART' */
  readonly shown: string;
  readonly optional?: true;
  /** it takes all further words too */
  readonly many?: true;
  /** there are few words for it, so that each is listed as an action of its own: 'page findings' */
  readonly few?: true;
  /** before: the words typed before this one */
  offers?(desk: Desk, before: readonly string[]): readonly Offer[];
}

export type Group = 'Hands' | 'Building' | 'Looking' | 'Notebook' | 'Plan';

/** What was done, as one sentence to be spoken; or why it could not be done. */
export type Answer = Outcome<string>;

export interface Command {
  /** one or two words in small letters */
  readonly name: string;
  readonly group: Group;
  readonly means: string;
  readonly takes: readonly Slot[];
  /** a line that could be typed on the greenhouse bench */
  readonly example?: string;
  /** key → the line that it types: { '+': 'zoom in' }. 'Mod' is Ctrl, or Cmd where keyboards have it. */
  readonly keys?: Readonly<Record<string, string>>;
  run(words: readonly string[], desk: Desk): Answer | Promise<Answer>;
}

/** "switch PART [POLE] on|off" */
export const usage = ({ name, takes }: Command): string =>
  [name, ...takes.map((s) => (s.optional ? `[${s.shown}${s.many ? '…' : ''}]` : `${s.shown}${s.many ? '…' : ''}`))].join(' ');
