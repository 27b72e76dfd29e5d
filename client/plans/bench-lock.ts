/** One tab at a time works on a kept bench. Where a browser knows no locks, the count of writes alone has to find a rival. */
import type { Clock } from '../worker/clock.ts';

/** A tab that is being reloaded lets go in a moment [ms]. */
const PATIENCE = 500;

/** Takes the lock of a bench: the answer lets go of it; undefined: another tab has it, and has had it for longer than a reload takes. */
export type BenchLock = (id: string) => Promise<(() => void) | undefined>;

/** locks: undefined where the browser knows none. */
export const benchLock =
  (locks: Pick<LockManager, 'request' | 'query'> | undefined, clock: Clock): BenchLock =>
  async (id) => {
    if (!locks) return () => {};
    const name = `lampwright-bench-${id}`;
    const waiting = new AbortController();
    // who has it is asked for: on a busy machine what is free may be long in coming
    const look = async () => {
      const { held = [] } = await locks.query();
      if (held.some((lock) => lock.name === name)) waiting.abort();
      else patient = clock.after(PATIENCE, look);
    };
    let patient = clock.after(PATIENCE, look);
    return new Promise((found) => {
      const take = () => {
        patient();
        return new Promise<void>((letGo) => found(() => letGo()));
      };
      locks.request(name, { signal: waiting.signal }, take).catch(() => found(undefined));
    });
  };
