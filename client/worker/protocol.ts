/** What the page and its worker say to each other. The worker owns one live simulation; the page owns the drawing. */
import type { Plan } from '../../shared/plan.ts';
import type { Action, Change, Failure, MemoryPins, Readings, Ref, Sentence, Severity, Trace, WriteReport } from '../../sim-core/index.ts';

/** A finding in words. */
export interface SaidFinding {
  /** the same as long as the same is found at the same place, whatever its figures */
  readonly key: string;
  readonly code: string;
  readonly severity: Severity;
  /** the thing it is about first of all */
  readonly at: Ref | undefined;
  /** the others of which the same is said */
  readonly also: readonly Ref[];
  readonly says: Sentence;
  /** its fixes, each one act, in the words of a button */
  readonly fixes: ReadonlyArray<{ readonly says: string; readonly change: Change }>;
}

/** An answer to "why?" in words. */
export interface SaidWhy {
  /** what was asked, as it was asked */
  readonly about: string;
  readonly headline: Sentence;
  readonly note: string;
  readonly steps: ReadonlyArray<{ readonly says: Sentence; readonly figures: string }>;
  readonly proof?: { readonly called: string; readonly says: Sentence; readonly change: Change };
  /** what may be so instead: putting it right makes every row right too */
  readonly instead?: readonly Sentence[];
  /** a fix is still looked for */
  readonly looking?: true;
}

export type Ask =
  /** memory in which readings are laid as well */
  | { readonly ask: 'share'; readonly box: SharedArrayBuffer }
  /** replaces the bench, if the plan stands: its document or its text form */
  | { readonly ask: 'open'; readonly text: string; readonly name: string }
  | { readonly ask: 'act'; readonly act: Action }
  /** changes the plan under the running bench */
  | { readonly ask: 'edit'; readonly change: Change }
  /** 'LED3', 'W7': answers now and after every change; undefined: no more */
  | { readonly ask: 'why'; readonly about: string | undefined }
  /** records the pins of these parts, on this bench and on those that follow */
  | { readonly ask: 'watch'; readonly parts: readonly string[] }
  /** what is under way ends where the bench is now; nothing that waits is dropped */
  | { readonly ask: 'stop' };

export type Tell =
  /** a bench stands: after `open`, after an edit (as it was made in the end; its wanted table without rows), after a part was damaged */
  | { readonly tell: 'bench'; readonly plan: Plan; readonly after: 'open' | 'wear' | { readonly made: Change } }
  /** where the switches stand after an act */
  | { readonly tell: 'switches'; readonly switches: Plan['switches'] }
  /** it could not be done; the bench stands as before */
  | { readonly tell: 'refused'; readonly failure: Failure; readonly asked: Ask['ask'] }
  /** number: counts the readings, from 1; edition: how often a bench has been told to stand before they were read */
  | { readonly tell: 'readings'; readonly number: number; readonly edition: number; readonly readings: Readings }
  /** simulated seconds a second: below 1 while the bench takes more work than there is time for */
  | { readonly tell: 'pace'; readonly pace: number }
  | { readonly tell: 'findings'; readonly findings: readonly SaidFinding[] }
  /** what the chips reported since the last telling, if anything, and the memories and their cells as they are after it */
  | {
      readonly tell: 'written';
      readonly reports: readonly WriteReport[];
      readonly memories: Plan['memories'];
      readonly cells: Plan['cells'];
    }
  /** writes and reads of watched parts, recorded since the last telling */
  | { readonly tell: 'traced'; readonly traces: readonly Trace[] }
  | { readonly tell: 'why'; readonly why: SaidWhy }
  /** where the columns of the wanted table lie: after every `bench` that may have changed it */
  | { readonly tell: 'pins'; readonly pins: readonly MemoryPins[] }
  /** an ask has been dealt with to its end: one for each but `stop`, in their order */
  | { readonly tell: 'done' }
  /** the worker has begun, or is in the middle of long work */
  | { readonly tell: 'alive' };
