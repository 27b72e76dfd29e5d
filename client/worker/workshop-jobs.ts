/** What the workshop can be asked for: a bench of a table, a programming card, a build sheet, a proof. */
import type { Plan } from '../../shared/plan.ts';
import type { BuildSheet, Choices, MemoryCard, Outcome, Proof, SwitchedInput } from '../core.ts';

/** A table by its rules, or by its rows. */
export type TableSource =
  | { readonly inputs: readonly string[]; readonly outputs: readonly string[]; readonly rules: string }
  | {
      readonly inputs: readonly string[];
      readonly outputs: readonly string[];
      readonly rows: readonly number[];
      readonly free?: readonly number[];
    };

export type WorkshopJob =
  | { readonly job: 'build'; readonly table: TableSource; readonly choices: Choices }
  | { readonly job: 'card'; readonly plan: Plan }
  | { readonly job: 'sheet'; readonly plan: Plan }
  | { readonly job: 'prove'; readonly plan: Plan };

/** A proof, and which poles set a row, in the order of the wanted inputs. */
export interface Proven extends Proof {
  readonly inputs: readonly SwitchedInput[];
}

export interface WorkshopResult {
  readonly build: Plan;
  readonly card: readonly MemoryCard[];
  readonly sheet: BuildSheet;
  readonly prove: Proven;
}

/** seen: rows so far, of so many */
export type WorkshopTell =
  | { readonly seen: number; readonly of: number }
  | { readonly result: Outcome<WorkshopResult[WorkshopJob['job']]> };
