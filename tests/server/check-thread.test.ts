/** Threads for checks: a time limit that ends what will not end, a memory limit, a crowd limit, and a clean close. The job is a stand-in. */
import { expect, test } from 'vitest';
import { checksInThreads, type Limits } from '../../server/check/check-thread.ts';

/** A job that obeys its text: answer, loop for ever, eat memory, or throw. */
const JOB = new URL(
  `data:text/javascript,${encodeURIComponent(`
    import { parentPort, workerData } from 'node:worker_threads';
    if (workerData === 'loop') for (;;);
    if (workerData === 'eat') { const all = []; for (;;) all.push(new Array(1e5).fill(all.length)); }
    if (workerData === 'throw') throw new Error('a bug');
    parentPort.postMessage({ ok: true, value: { findings: [] } });
  `)}`,
);
const checks = (over: Partial<Limits> = {}) => checksInThreads(JOB, { seconds: 600, megabytes: 32, atOnce: 2, ...over });

test('an answer comes through', async () => {
  expect(await checks().check('fine')).toEqual({ ok: true, value: { findings: [] } });
});

test('what does not end is given up in time', async () => {
  const verdict = await checks({ seconds: 0.3 }).check('loop');
  expect(verdict).toEqual({ ok: 'over', says: expect.stringMatching(/still running after 0\.3 seconds and was given up/) });
});

test('what eats the memory is given up', async () => {
  expect(await checks().check('eat')).toEqual({ ok: 'over', says: expect.stringMatching(/needs more than 32 MB/) });
});

test('a bug of ours is thrown on, not dressed up as an answer', async () => {
  await expect(checks().check('throw')).rejects.toThrow('a bug');
});

test('a crowd is asked to wait, and closing gives up what runs', async () => {
  const checker = checks();
  const running = [checker.check('loop'), checker.check('loop')];
  expect(await checker.check('fine')).toEqual({ ok: 'over', says: '2 other plans are being checked just now. Try again in 600 seconds.' });
  await checker.close();
  for (const verdict of await Promise.all(running))
    expect(verdict).toEqual({ ok: 'over', says: expect.stringMatching(/^The server is closing/) });
});
