/** What the second worker can be asked for, and what it answers. */
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import type {
  BuildSheet,
  Change,
  CheckReading,
  ChipPins,
  Choices,
  GateCount,
  MemoryCard,
  MemoryImage,
  Outcome,
  OutputForm,
  ReadingBand,
  Ruled,
  Share,
  StageCheck,
  SumOfProducts,
  SwitchedInput,
  TableProof,
  TidiedPlan,
  TruthTable,
  UsualCause,
  WrongWord,
} from '../../sim-core/index.ts';

import type { SaidFinding } from './protocol.ts';

export type Job =
  /** every row of the wanted table on a bench that stands as this plan says, supplies on */
  | { readonly job: 'shown'; readonly plan: Plan }
  /** the shortest sums of products */
  | { readonly job: 'sums'; readonly table: TruthTable }
  /** how a read-out differs; of: what the table has on the memory's pins, if it has anything there */
  | {
      readonly job: 'compare';
      readonly wanted: MemoryImage;
      readonly seen: MemoryImage;
      readonly dataPins: number;
      readonly of?: { readonly pins: ChipPins; readonly outputs: readonly string[] };
    }
  /** what rules say of every row */
  | { readonly job: 'rules'; readonly inputs: readonly string[]; readonly outputs: readonly string[]; readonly text: string }
  /** a table to begin with */
  | { readonly job: 'start'; readonly plan: Plan }
  /** a bench that does what a table says */
  | { readonly job: 'build'; readonly table: TableSource; readonly choices: Choices }
  | { readonly job: 'card'; readonly plan: Plan }
  | { readonly job: 'sheet'; readonly plan: Plan }
  /** mistakes with which a check of the build sheet fails; read: what came of it, if that is known */
  | { readonly job: 'causes'; readonly plan: Plan; readonly check: StageCheck; readonly read?: CheckReading }
  | { readonly job: 'prove'; readonly plan: Plan }
  /** the same circuit with wiring that is easier to follow; locked: parts and wires that stay */
  | { readonly job: 'tidy'; readonly plan: Plan; readonly locked: readonly string[] }
  /** the edits each of which makes every row of the table right */
  | { readonly job: 'repair'; readonly plan: Plan }
  /** what a check finds: all settings of the switches tried, all buttons pressed */
  | { readonly job: 'check'; readonly plan: Plan }
  /** a reading over specimens; of: as `readingBand` takes it */
  | { readonly job: 'band'; readonly plan: Plan; readonly of: string }
  /** one share of the rows of either, for a worker that helps another */
  | { readonly job: 'share'; readonly plan: Plan; readonly share: Share };

/** A table by its rules, or by its rows. */
export type TableSource =
  | { readonly inputs: readonly string[]; readonly outputs: readonly string[]; readonly rules: string }
  | {
      readonly inputs: readonly string[];
      readonly outputs: readonly string[];
      readonly rows: readonly number[];
      readonly free?: readonly number[];
    };

/** One share of a sweep, or all of it: as `Proving` in sim-core/findings/table-proof.ts. */
export interface SweptBench {
  readonly proof: TableProof;
  readonly shown: Uint16Array;
  readonly unknown: Uint16Array;
}

/** What the LEDs show, by row of the wanted table. */
export interface Shown {
  /** which pole sets which input, in the order of the wanted inputs */
  readonly inputs: readonly SwitchedInput[];
  readonly value: Uint16Array;
  /** bits whose level is unknown: dim, undefined, or without an LED */
  readonly unknown: Uint16Array;
}

export interface JobSums {
  /** by output */
  readonly sums: readonly SumOfProducts[];
  /** by output: as gates would make it, with exclusive ORs where that takes fewer */
  readonly forms: readonly OutputForm[];
  /** what they would be built of with gates of two inputs, and of four */
  readonly narrow: GateCount;
  readonly wide: GateCount;
}

export interface ImagesCompared {
  readonly says: readonly string[];
  readonly differs: readonly WrongWord[];
}

export interface Repairs {
  /** what is said above the repairs, or that there are none */
  readonly heading: string;
  /** the likeliest first, each as what a hand does */
  readonly repairs: ReadonlyArray<{ readonly says: string; readonly change: Change }>;
}

export interface JobResult {
  readonly shown: Shown;
  readonly sums: JobSums;
  readonly compare: ImagesCompared;
  readonly rules: Ruled;
  readonly start: PlanWanted;
  readonly build: Plan;
  readonly card: readonly MemoryCard[];
  readonly sheet: BuildSheet;
  readonly causes: readonly UsualCause[];
  readonly prove: TableProof;
  readonly tidy: TidiedPlan;
  readonly repair: Repairs;
  readonly check: readonly SaidFinding[];
  readonly band: ReadingBand;
  readonly share: SweptBench;
}

/** part: how much of the job is done, 0 to 1 */
export type JobMessage = { readonly part: number } | { readonly result: Outcome<JobResult[Job['job']]> };

/** A worker for long work, as much of it as its client needs; ending it is the only way to stop what it does. */
export type JobWorker = Pick<Worker, 'postMessage' | 'terminate' | 'onmessage' | 'onerror'>;
