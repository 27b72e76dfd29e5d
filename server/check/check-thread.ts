/** Checks in a thread of their own, so that one hard plan can neither hold up the others nor run without end. */
import { Worker } from 'node:worker_threads';
import { failed, type Outcome } from '../../sim-core/index.ts';
import type { Checked } from './check-plan.ts';

export interface Checker {
  /** text: a plan as JSON. A failure with a code api/… says nothing about the plan: the check was not finished. */
  check(text: string): Promise<Outcome<Checked>>;
  /** stops what is still running */
  close(): Promise<void>;
}

export interface Limits {
  readonly seconds: number;
  readonly megabytes: number;
  /** checks that may run at the same time */
  readonly atOnce: number;
}

const LIMITS = { megabytes: 256, atOnce: 4 };

/** `job`: the built script that takes a plan's text as its data and posts the outcome. */
export function checksInThreads(job: URL, limits: Pick<Limits, 'seconds'> & Partial<Limits>): Checker {
  const { seconds, megabytes, atOnce }: Limits = { ...LIMITS, ...limits };
  const running = new Set<Worker>();
  const smaller = 'Check a smaller plan, or check this one on the command line.';
  const stopped = (why: string) => failed('api/gave-up', '', `The check was stopped: ${why}. ${smaller}`);

  const outcomeOf = (worker: Worker) =>
    new Promise<Outcome<Checked>>((resolve, reject) => {
      const clock = setTimeout(() => resolve(stopped(`it takes more than ${seconds} seconds`)), seconds * 1000);
      worker.once('message', resolve);
      worker.once('error', (e: NodeJS.ErrnoException) =>
        e.code === 'ERR_WORKER_OUT_OF_MEMORY' ? resolve(stopped(`it needs more than ${megabytes} MB of memory`)) : reject(e),
      );
      worker.once('exit', () => {
        clearTimeout(clock);
        resolve(failed('api/busy', '', 'The server is closing and stopped the check. Try again in a moment.'));
      });
    });

  return {
    async check(text) {
      if (running.size >= atOnce)
        return failed('api/busy', '', `${atOnce} other plans are being checked now. Try again in ${seconds} seconds.`);
      const worker = new Worker(job, { workerData: text, resourceLimits: { maxOldGenerationSizeMb: megabytes } });
      running.add(worker);
      try {
        return await outcomeOf(worker);
      } finally {
        void worker.terminate().finally(() => running.delete(worker));
      }
    },
    async close() {
      await Promise.all([...running].map((w) => w.terminate()));
    },
  };
}
