/** How fast simulated time may pass so that its work fits into a tick: slower than real while a bench has more to do than there is time for. */

/** A bench of which nothing is known yet begins this slowly, so that a fast clock does not hold up the first tick. */
const FIRST = 1e-4;
/** The pace changes by no more than this a tick, and aims at this part of the work that is allowed. */
const [LEAST_STEP, MOST_STEP] = [0.1, 4];
const AIM = 0.8;
/** Ticks until the pace is worth telling, and from what ratio on a change of it is. */
const STEADY = 20;
const WORTH = 2;

export interface TimeScale {
  /** simulated seconds a second, at most 1 */
  readonly now: number;
  /** a tick's work has taken so long, and may take so long [ms] */
  took(ms: number, most: number): void;
  /** nothing happens by itself any more */
  rest(): void;
}

export function makeTimeScale(tell: (pace: number) => void): TimeScale {
  let now = FIRST;
  let told = 1;
  let slow = 0;
  const say = (pace: number) => {
    if (pace === told) return;
    told = pace;
    tell(pace);
  };
  return {
    get now() {
      return now;
    },
    took(ms, most) {
      now = Math.min(1, now * Math.min(MOST_STEP, Math.max(LEAST_STEP, (AIM * most) / Math.max(ms, 0.1))));
      slow = now < 1 ? slow + 1 : 0;
      if (now === 1) say(1);
      else if (slow >= STEADY && (told === 1 || Math.max(now / told, told / now) > WORTH)) say(now);
    },
    rest() {
      [now, slow] = [FIRST, 0];
      say(1);
    },
  };
}
