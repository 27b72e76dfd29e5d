/** What a step of an explanation gives: its reasons in order, and the edits that might undo the cause, the likeliest first. */
import type { Change } from '../bench/changes.ts';
import type { Scene } from '../findings/scene.ts';
import type { Simulation } from '../run/face.ts';
import type { Reason } from './answer.ts';

export interface Mend extends Reason {
  readonly change: Change;
}

export interface Account {
  readonly reasons: readonly Reason[];
  readonly mends: readonly Mend[];
}

/** What an explanation may look at. */
export interface Question {
  readonly sim: Simulation;
  readonly scene: Scene;
}

export type Side = 'high' | 'low';

export const account = (reasons: readonly Reason[], mends: readonly Mend[] = []): Account => ({ reasons, mends });

/** First one thing, then what is behind it. */
export const because = (reason: Reason, behind: Account): Account => ({ reasons: [reason, ...behind.reasons], mends: behind.mends });
