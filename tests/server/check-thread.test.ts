/** Threads for checks: a time limit that ends what will not end, a memory limit, a queue for a crowd, and a clean close. The job is a stand-in. */
import { expect, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { checksInThreads, type Limits } from '../../server/check/check-thread.ts';
import type { FailureCode } from '../../shared/failure-codes.ts';

/** A job that obeys its text: answer, loop for ever, eat memory, wait, or throw. */
const JOB = new URL(
  `data:text/javascript,${encodeURIComponent(`
    import { parentPort, workerData } from 'node:worker_threads';
    if (workerData === 'loop') for (;;);
    if (workerData === 'eat') { const all = []; for (;;) all.push(new Array(1e5).fill(all.length)); }
    if (workerData === 'throw') throw new Error('a bug');
    if (workerData === 'wait') await new Promise((done) => setTimeout(done, 1500));
    parentPort.postMessage({ ok: true, value: { findings: [] } });
  `)}`,
);
const checks = (over: Partial<Limits> = {}) => checksInThreads(JOB, { seconds: 600, megabytes: 32, atOnce: 2, ...over });
const stopped = (code: FailureCode, says: RegExp) => ({ ok: false, failure: { code, at: '', says: expect.stringMatching(says) } });

test('an answer comes through', async () => {
  expect(await checks().check('fine')).toEqual({ ok: true, value: { findings: [] } });
});

test('what does not end is stopped in time', async () => {
  const outcome = await checks({ seconds: 0.3 }).check('loop');
  expect(outcome).toEqual(stopped('api/gave-up', /takes more than 0\.3 seconds of processor time/));
});

test('health is answered while every thread is at work', async () => {
  const checker = checks({ atOnce: 2 });
  const app = await buildApp({ checker });
  let answered = 0;
  const atWork = ['loop', 'loop', 'loop'].map((text) => checker.check(text).then(() => answered++));
  const health = await app.inject('/api/health');
  expect([health.statusCode, health.json().ok, answered]).toEqual([200, true, 0]);
  await app.close();
  await Promise.all(atWork);
  expect(answered).toBe(3);
});

test('what eats the memory is stopped', async () => {
  expect(await checks().check('eat')).toEqual(stopped('api/gave-up', /needs more than 32 MB/));
});

test('a bug of ours is thrown on, not dressed up as an answer', async () => {
  await expect(checks().check('throw')).rejects.toThrow('a bug');
});

test('a crowd waits its turn, and each gets its answer', async () => {
  const checker = checks({ atOnce: 2 });
  const all = await Promise.all(Array.from({ length: 12 }, () => checker.check('fine')));
  expect(all).toEqual(Array.from({ length: 12 }, () => ({ ok: true, value: { findings: [] } })));
});

test('more than may wait are asked to come again, and closing stops what runs', async () => {
  const checker = checks({ waiting: 1 });
  const running = ['loop', 'loop', 'fine'].map((text) => checker.check(text));
  expect(await checker.check('fine')).toEqual(
    stopped('api/busy', /^1 other plans are waiting to be checked\. Try again in 600 seconds\.$/),
  );
  await checker.close();
  for (const outcome of await Promise.all(running)) expect(outcome).toEqual(stopped('api/busy', /^The server is closing/));
});

test('whoever leaves makes room: what ran for them and what waited for them', async () => {
  const checker = checks({ atOnce: 1 });
  const left = new AbortController();
  const gone = [checker.check('loop', left.signal), checker.check('loop', left.signal)];
  const next = checker.check('fine');
  left.abort();
  expect(await next).toEqual({ ok: true, value: { findings: [] } });
  for (const outcome of await Promise.all(gone)) expect(outcome).toEqual(stopped('api/gave-up', /has left/));
});

test('a thread that waits for something is not charged for it', async () => {
  const checker = checks({ seconds: 0.2 });
  expect(await checker.check('wait')).toEqual({ ok: true, value: { findings: [] } });
});
