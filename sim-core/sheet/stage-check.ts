/** A check at the end of a stage: where the probes go or a wire is touched to, what must be closed meanwhile, and what a bench that is wired right shows. */
import type { Measured } from '../text/stage-words.ts';
import type { StageName } from './stages.ts';

/** A pole that is closed, or a button that is held, for a check. */
export interface ClosedPole {
  readonly part: string;
  readonly pole: number;
}

interface AtStage {
  readonly stage: StageName;
  /** what is open stays open */
  readonly closed: readonly ClosedPole[];
  readonly about: Measured;
  /** the plan itself does not keep what its parts ask for: it is to be fixed before anything is built */
  readonly drawnWrong?: true;
}

/**
 * Measured with a meter. 'ohms' and 'farads': supply off, and its plus wire out of the board; 'volts' and 'amps': supply on. A place is a tie point, a terminal such as PS1.-
 * or a leg such as U1.24.
 */
export interface MeterCheck extends AtStage {
  readonly by: 'ohms' | 'farads' | 'volts' | 'amps';
  readonly red: string;
  readonly black: string;
  /** [Ω, F, V, A]; absent: open, more than a meter shows */
  readonly expects?: number;
  /** the band over all specimens of the parts and the meter's own error; absent: none on that side */
  readonly least?: number;
  readonly most?: number;
}

/** Seen by eye, supply on: a wire is touched from one place to another, or, where there are none, nothing is touched. These light and no others. */
export interface LightCheck extends AtStage {
  readonly by: 'eye';
  readonly wire?: { readonly from: string; readonly to: string };
  /** LEDs such as LED3 or DS1.a, in order of the plan */
  readonly lights: readonly string[];
}

/** One check of a stage. */
export type StageCheck = MeterCheck | LightCheck;

/** What came of a check: Ω, F, V or A (Infinity: open), or the LEDs that light. */
export type CheckReading = number | readonly string[];

/** Does this reading pass the check? */
export function passes(check: StageCheck, reading: CheckReading): boolean {
  if (check.by === 'eye') return typeof reading !== 'number' && reading.join() === check.lights.join();
  if (typeof reading !== 'number') return false;
  return reading >= (check.least ?? Number.NEGATIVE_INFINITY) && reading <= (check.most ?? Number.POSITIVE_INFINITY);
}
