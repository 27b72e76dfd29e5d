/** What has been done to a plan, in order, and how much of it is not taken back: undo and redo without end. */
import { type Change, invert } from './changes.ts';

/** The changes made to a plan, oldest first, and how many of them are in effect. */
export interface History {
  /** oldest first, each as it was made; from `at` on: taken back, each as it would be made again */
  readonly changes: readonly Change[];
  /** how many of them stand */
  readonly at: number;
}

/** A new change, or a step along those that are there. */
export type Step = Change | 'undo' | 'redo';

/** Nothing has been done yet. */
export const NO_HISTORY: History = { changes: [], at: 0 };

/** The change that a step means; undefined: there is nothing to take back, or to do again. It still has to be rebased. */
export function changeOf({ changes, at }: History, step: Step): Change | undefined {
  if (step === 'redo') return changes[at];
  if (step !== 'undo') return step;
  const last = changes[at - 1];
  return last && invert(last);
}

/** The history after a step. made: the step's change as it was made in the end. */
export function after({ changes, at }: History, step: Step, made: Change): History {
  if (step === 'undo') return { changes: swap(changes, at - 1, invert(made)), at: at - 1 };
  if (step === 'redo') return { changes: swap(changes, at, made), at: at + 1 };
  return { changes: [...changes.slice(0, at), made], at: at + 1 };
}

const swap = (changes: readonly Change[], index: number, by: Change): Change[] => changes.map((c, i) => (i === index ? by : c));
