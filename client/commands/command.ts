/** What an action of the page is: its name, what may be typed after it, its keys, and how it is done. The catalogue feeds the command line and the key list. */

import type { Failure, Outcome } from '../../sim-core/index.ts';
import type { BenchScene } from '../bench/bench-scene.ts';
import type { MeterPanel } from '../bench/meter-panel.ts';
import type { Builder } from '../edit/builder.ts';
import type { PlanChooser } from '../plans/plan-chooser.ts';
import type { Session } from '../state/session.ts';
import type { TimingDiagram } from '../timing/timing-diagram.ts';
import type { Route } from '../ui/route.ts';
import type { JobClient } from '../worker/job-client.ts';

/** What an action may reach: the bench, its drawing, and the shell round it. */
export interface CommandContext {
  readonly session: Session;
  readonly scene: BenchScene;
  readonly chooser: PlanChooser;
  readonly builder: Builder;
  /** long work that a command begins */
  readonly jobs: JobClient;
  /** opens or closes Parts */
  openParts(open: boolean): void;
  /** shows a page of the panel, and the panel if it is hidden */
  showPage(place: Route): void;
  hidePanel(hidden: boolean): void;
  /** takes the meter up, or puts it down */
  measure(on: boolean): Promise<MeterPanel | null>;
  /** opens the inside view of a chip */
  lookInside(chip: string): void;
  timing(): TimingDiagram;
  setTheme(look: 'light' | 'dark'): void;
  /** The failure, if it could not be loaded. */
  showHelp(): Promise<Failure | undefined>;
  showFirstSteps(): void;
  showKeys(): void;
  showLine(): void;
}

/** A word that may be typed somewhere, and what it means. */
export interface Offer {
  readonly word: string;
  readonly means?: string;
}

/** One place for a word after the action's name. */
export interface Slot {
  /** as the usage shows it: 'PART' */
  readonly shown: string;
  /** the small words of which one must come before it: 'to' in "set R1 to 4k7" */
  readonly before?: readonly string[];
  /** the small word may be left out */
  readonly bare?: true;
  /** "U1 pin 9" is one value of it */
  readonly pin?: true;
  readonly optional?: true;
  /** it takes several words: each as one value (only in the last place), or all as one text */
  readonly many?: 'each' | 'text';
  /** there are few words for it, so that each is listed as an action of its own: 'meter volts' */
  readonly few?: true;
  /** before: the words given in the places before this one */
  offers?(context: CommandContext, before: readonly string[]): readonly Offer[];
}

export type Group = 'Controls' | 'Building' | 'View' | 'Panel' | 'Plan';

/** What was done, as one sentence to be spoken; or why it could not be done. */
export type Answer = Outcome<string>;

export interface Command {
  /** one to three words in small letters */
  readonly name: string;
  /** other names by which it may be typed */
  readonly synonyms: readonly string[];
  readonly group: Group;
  readonly means: string;
  readonly takes: readonly Slot[];
  /** a line that could be typed on the greenhouse bench */
  readonly example?: string;
  /** key → the line that it types: { '+': 'zoom in' }. 'Mod' is Ctrl, or Cmd where keyboards have it. */
  readonly keys?: Readonly<Record<string, string>>;
  /** words: one for each place, undefined where an optional place is empty */
  run(words: ReadonlyArray<string | undefined>, context: CommandContext): Answer | Promise<Answer>;
}

const slotUsage = ({ shown, before, many, optional }: Slot): string => {
  const says = `${before ? `${before[0]} ` : ''}${shown}${many ? '…' : ''}`;
  return optional ? `[${says}]` : says;
};

/** "wire FROM to TO [COLOUR]" */
export const usage = ({ name, takes }: Command): string => [name, ...takes.map(slotUsage)].join(' ');
