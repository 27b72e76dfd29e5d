/** What the second worker can be asked for, and what it answers. */
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import type { MemoryImage, Outcome, Replacement, SumOfProducts, SwitchedInput, TruthTable, WrongByte } from '../core.ts';

export type Job =
  /** every row of the wanted table on a bench that stands as this plan says, supplies on */
  | { readonly job: 'shown'; readonly plan: Plan }
  /** the shortest sums of products */
  | { readonly job: 'sums'; readonly table: TruthTable }
  /** how a read-out differs; dataPins: D0 and so many more that are in use */
  | { readonly job: 'compare'; readonly wanted: MemoryImage; readonly seen: MemoryImage; readonly dataPins: number }
  /** a table to begin with */
  | { readonly job: 'start'; readonly plan: Plan };

/** What the lamps show, by row of the wanted table. */
export interface Shown {
  /** which pole sets which input, in the order of the wanted inputs */
  readonly inputs: readonly SwitchedInput[];
  readonly value: Uint16Array;
  /** bits that nobody can tell: dim, undecided, or without a lamp */
  readonly unknown: Uint16Array;
}

export interface Sums {
  /** by output */
  readonly sums: readonly SumOfProducts[];
  /** what they would be built of with gates of two inputs, and of four */
  readonly narrow: Replacement;
  readonly wide: Replacement;
}

export interface Compared {
  readonly says: readonly string[];
  readonly differs: readonly WrongByte[];
}

export interface JobResult {
  readonly shown: Shown;
  readonly sums: Sums;
  readonly compare: Compared;
  readonly start: PlanWanted;
}

/** part: how much of the job is done, 0 to 1 */
export type Reckoned = { readonly part: number } | { readonly result: Outcome<JobResult[Job['job']]> };
