/** Checks in a thread of their own, so that one hard plan can neither hold up the others nor run for ever. */
import { Worker } from 'node:worker_threads';
import type { Outcome } from '../../sim-core/index.ts';
import type { Checked } from './check-plan.ts';

/** 'over': the check was given up, for the reason said. */
export type Verdict = Outcome<Checked> | { readonly ok: 'over'; readonly says: string };

export interface Checker {
  check(text: string): Promise<Verdict>;
  /** gives up what is still running */
  close(): Promise<void>;
}

export interface Limits {
  readonly seconds: number;
  readonly megabytes: number;
  /** checks that may run at the same time */
  readonly atOnce: number;
}

const LIMITS: Limits = { seconds: 5, megabytes: 256, atOnce: 4 };

/** `job`: the built script that takes a plan's text as its data and posts the outcome. */
export function checksInThreads(job: URL, { seconds, megabytes, atOnce }: Limits = LIMITS): Checker {
  const running = new Set<Worker>();
  return {
    check(text) {
      if (running.size >= atOnce)
        return Promise.resolve({ ok: 'over', says: `${atOnce} other plans are being checked just now. Try again in ${seconds} seconds.` });
      const worker = new Worker(job, { workerData: text, resourceLimits: { maxOldGenerationSizeMb: megabytes } });
      running.add(worker);
      return new Promise<Verdict>((resolve, reject) => {
        const clock = setTimeout(
          () =>
            resolve({
              ok: 'over',
              says: `The check was still running after ${seconds} seconds and was given up. Check a smaller plan, or check this one with the command line.`,
            }),
          seconds * 1000,
        );
        worker.once('message', resolve);
        worker.once('error', (e: NodeJS.ErrnoException) =>
          e.code === 'ERR_WORKER_OUT_OF_MEMORY'
            ? resolve({
                ok: 'over',
                says: `The check needs more than ${megabytes} MB of memory and was given up. Check a smaller plan, or check this one with the command line.`,
              })
            : reject(e),
        );
        worker.once('exit', () => {
          clearTimeout(clock);
          resolve({ ok: 'over', says: 'The server is closing and gave up the check. Try again in a moment.' });
        });
      }).finally(() => {
        void worker.terminate().finally(() => running.delete(worker));
      });
    },
    async close() {
      await Promise.all([...running].map((w) => w.terminate()));
    },
  };
}
