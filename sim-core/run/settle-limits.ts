/** How long, and through how many events, a bench is given to come to rest before it is said to have none. */

/** How long a bench is given to come to rest after the last event [s]: what still creeps then is a node in the air. */
export const SETTLE_LIMITS = 0.2;
/** Turns of the loop after which a bench is given up as never resting, or left behind for this stretch of time. */
export const TURNS_TO_REST = 30_000;
export const TURNS_IN_TIME = 300_000;
/** A level that passes a mark so many times after one move of a contact, with nothing due but clocks' ticks, has no rest: an oscillator's. */
const RESTLESS = 30;
/** The same while more is due: a memory may step through a sequence of its own before it stops. */
const RESTLESS_ANSWERING = 120;

/** Counts what keeps a bench from resting. */
export interface SettleLimits {
  /** the bench is waited for anew; watches: how many of its voltages' marks are watched */
  begin(watches: number): void;
  /** a contact has moved: levels may pass their marks anew */
  contactMoved(): void;
  /** these watches have passed their marks; due: something is due beside clocks' ticks. Returns them. */
  count(passed: Int32Array, due: boolean): Int32Array;
  /** some level has passed its mark too often */
  restless(): boolean;
  /** this part has done something that was due */
  heard(part: string): void;
  /** the parts that have answered too often; of a restless bench only those which `reads` says may not swing for ever, as a timer may */
  answering(reads: (part: string) => boolean): string[];
}

export function makeSettleLimits(): SettleLimits {
  /** by watch: how often it has passed its mark since a contact last moved */
  let passes = new Uint8Array(0);
  let restless = false;
  /** the first `many`: parts in the order in which they were first heard, and how often */
  const parts: string[] = [];
  const times: number[] = [];
  let many = 0;
  return {
    begin(watches) {
      if (passes.length === watches) passes.fill(0);
      else passes = new Uint8Array(watches);
      restless = false;
      many = 0;
    },
    contactMoved() {
      passes.fill(0);
    },
    count(passed, due) {
      const most = due ? RESTLESS_ANSWERING : RESTLESS;
      for (let p = 0; p < passed.length; p++) {
        const w = passed[p] as number;
        passes[w] = Math.min((passes[w] ?? 0) + 1, RESTLESS_ANSWERING);
        if ((passes[w] ?? 0) >= most) restless = true;
      }
      return passed;
    },
    restless() {
      return restless;
    },
    heard(part) {
      let k = 0;
      while (k < many && parts[k] !== part) k += 1;
      if (k === many) {
        parts[k] = part;
        times[k] = 0;
        many += 1;
      }
      times[k] = (times[k] as number) + 1;
    },
    answering: (reads) => parts.slice(0, many).filter((part, k) => (times[k] as number) >= RESTLESS / 2 && (!restless || reads(part))),
  };
}
