/** What the page and its worker say to each other. The worker owns one live simulation; the page owns the drawing. */
import type { Plan } from '../../shared/plan.ts';
import type { Act, Change, Failure, Glow, Readings, Sentence, Severity, Trace, WriteReport } from '../core.ts';

/** A finding in words. */
export interface SaidFinding {
  readonly code: string;
  readonly severity: Severity;
  readonly says: Sentence;
}

/** An answer to "why?" in words. */
export interface SaidWhy {
  readonly lamp: string;
  readonly headline: Sentence;
  readonly note: string;
  readonly steps: ReadonlyArray<{ readonly says: Sentence; readonly figures: string }>;
  readonly proof?: { readonly says: Sentence; readonly change: Change };
}

/** Every row of the wanted table with the supplies on and all other switches as they stand. */
export interface Swept {
  /** which pole sets which input, in the order of the wanted inputs */
  readonly inputs: ReadonlyArray<{ readonly part: string; readonly pole: number; readonly highWhenClosed: boolean }>;
  /** the lamps of a row, by name: damaged ones are not among them */
  readonly lamps: readonly string[];
  /** a row's lamps, in that order */
  readonly rows: ReadonlyArray<readonly Glow[]>;
}

export type Ask =
  /** memory in which readings are laid as well */
  | { readonly ask: 'share'; readonly box: SharedArrayBuffer }
  /** replaces the bench, if the plan stands: its document or its text form */
  | { readonly ask: 'open'; readonly text: string; readonly name: string }
  | { readonly ask: 'act'; readonly act: Act }
  /** changes the plan under the running bench */
  | { readonly ask: 'edit'; readonly change: Change }
  /** answers now and after every change; undefined: no more */
  | { readonly ask: 'why'; readonly lamp: string | undefined }
  /** what every row of the wanted table would show */
  | { readonly ask: 'sweep' }
  /** records the pins of these parts, on this bench and on those that follow */
  | { readonly ask: 'watch'; readonly parts: readonly string[] };

export type Tell =
  /** a bench stands: after `open`, after an edit (as it was made in the end), after a part was damaged */
  | { readonly tell: 'standing'; readonly plan: Plan; readonly after: 'open' | 'wear' | { readonly made: Change } }
  /** where the switches stand after an act */
  | { readonly tell: 'hands'; readonly hands: Plan['hands'] }
  /** it could not be done; the bench stands as before */
  | { readonly tell: 'refused'; readonly failure: Failure; readonly asked: Ask['ask'] }
  /** number: counts the readings, from 1 */
  | { readonly tell: 'readings'; readonly number: number; readonly readings: Readings }
  /** simulated seconds a second: below 1 while the bench takes more work than there is time for */
  | { readonly tell: 'pace'; readonly pace: number }
  | { readonly tell: 'findings'; readonly findings: readonly SaidFinding[] }
  /** what the chips reported since the last telling, and the memories as they are after it */
  | { readonly tell: 'written'; readonly reports: readonly WriteReport[]; readonly memories: Plan['memories'] }
  /** writes and reads of watched parts, recorded since the last telling */
  | { readonly tell: 'traced'; readonly traces: readonly Trace[] }
  | { readonly tell: 'why'; readonly why: SaidWhy }
  /** undefined: the inputs are not all set by switches */
  | { readonly tell: 'swept'; readonly swept: Swept | undefined };
