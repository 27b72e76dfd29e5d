/** One tab at a time works on a kept bench. Where a browser knows no locks, the count of writes alone has to find a rival. */
import type { Clock } from '../worker/clock.ts';

/** A tab that is being reloaded lets go in a moment [ms]. */
const PATIENCE = 500;

/** Takes the lock of a bench: the answer lets go of it; undefined: another tab has it. */
export type BenchLock = (id: string) => Promise<(() => void) | undefined>;

/** locks: undefined where the browser knows none. */
export const benchLock =
  (locks: Pick<LockManager, 'request'> | undefined, clock: Clock): BenchLock =>
  async (id) => {
    if (!locks) return () => {};
    const waiting = new AbortController();
    const patient = clock.after(PATIENCE, () => waiting.abort());
    return new Promise((found) => {
      const take = () => {
        patient();
        return new Promise<void>((letGo) => found(() => letGo()));
      };
      locks.request(`lampwright-bench-${id}`, { signal: waiting.signal }, take).catch(() => found(undefined));
    });
  };
