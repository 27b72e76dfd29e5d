/** The lock of a kept bench: another tab's is respected, a reload is waited for, and a browser that is slow to answer is not taken for another tab. */
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { benchLock } from '../../client/plans/bench-lock.ts';
import { systemClock } from '../../client/worker/clock.ts';

const NAME = 'lampwright-bench-b1';
/** Who has the lock, as a browser keeps it: one holder, the others in a queue. slow: how long an answer takes [ms] */
function browser(slow = 0) {
  let holder: string | undefined;
  const queue: (() => void)[] = [];
  const next = () => {
    if (holder === undefined) queue.shift()?.();
  };
  const free = () => {
    holder = undefined;
    next();
  };
  return {
    take: () => {
      holder = NAME;
    },
    free,
    request: (name: string, { signal }: { signal: AbortSignal }, granted: () => Promise<void>) =>
      new Promise<void>((done, refuse) => {
        const begin = () => {
          holder = name;
          void granted().then(() => {
            free();
            done();
          });
        };
        signal.addEventListener('abort', () => {
          const at = queue.indexOf(begin);
          if (at < 0) return;
          queue.splice(at, 1);
          refuse(signal.reason);
        });
        queue.push(begin);
        setTimeout(next, slow);
      }),
    query: () => Promise.resolve({ held: holder === undefined ? [] : [{ name: holder }] }),
  };
}
/** What taking the lock has come to: not yet, refused, or how to let go of it. */
function holding(locks: object | undefined) {
  const state: { now: 'waiting' | 'refused' | (() => void) } = { now: 'waiting' };
  void benchLock(
    locks as LockManager | undefined,
    systemClock,
  )('b1').then((letGo) => {
    state.now = letGo ?? 'refused';
  });
  return state;
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('a bench that nobody holds is held at once, and free again when it is let go', async () => {
  const locks = browser();
  const mine = holding(locks);
  await vi.advanceTimersByTimeAsync(10);
  expect(mine.now).toBeTypeOf('function');
  expect((await locks.query()).held).toHaveLength(1);
  if (typeof mine.now === 'function') mine.now();
  await vi.advanceTimersByTimeAsync(10);
  expect((await locks.query()).held).toEqual([]);
});

test('one that another tab holds is refused after the time that a reload takes', async () => {
  const locks = browser();
  locks.take();
  const mine = holding(locks);
  await vi.advanceTimersByTimeAsync(400);
  expect(mine.now).toBe('waiting');
  await vi.advanceTimersByTimeAsync(200);
  expect(mine.now).toBe('refused');
  // what was refused does not come later
  locks.free();
  await vi.advanceTimersByTimeAsync(1000);
  expect((await locks.query()).held).toEqual([]);
});

test('a tab that is being reloaded lets go in time', async () => {
  const locks = browser();
  locks.take();
  const mine = holding(locks);
  await vi.advanceTimersByTimeAsync(300);
  locks.free();
  await vi.advanceTimersByTimeAsync(10);
  expect(mine.now).toBeTypeOf('function');
});

test('a browser that takes seconds to answer is not another tab', async () => {
  const mine = holding(browser(3000));
  await vi.advanceTimersByTimeAsync(2900);
  expect(mine.now).toBe('waiting');
  await vi.advanceTimersByTimeAsync(200);
  expect(mine.now).toBeTypeOf('function');
});

test('without locks every tab may work on it', async () => {
  const mine = holding(undefined);
  await vi.advanceTimersByTimeAsync(10);
  expect(mine.now).toBeTypeOf('function');
});
