/** Checks in threads of their own, so that one hard plan can neither hold up the others nor run without end; what finds no free thread waits in a queue. */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import PQueue from 'p-queue';
import { failed, type Outcome } from '../../sim-core/index.ts';
import type { Checked } from './check-plan.ts';
import { ProcessorTime } from './processor-time.ts';

export interface Checker {
  /**
   * text: a plan as JSON. left: whoever asked no longer waits, so the check ends and makes room.
   * A failure with a code api/… says nothing about the plan: the check was not finished.
   */
  check(text: string, left?: AbortSignal): Promise<Outcome<Checked>>;
  /** stops what is still running */
  close(): Promise<void>;
}

export interface Limits {
  /** of processor time, however long the check waited for it */
  readonly seconds: number;
  readonly megabytes: number;
  /** checks that may run at the same time */
  readonly atOnce: number;
  /** checks that may wait for a thread */
  readonly waiting: number;
}

const LIMITS = { megabytes: 256, atOnce: Math.max(2, availableParallelism()), waiting: 64 };

const SMALLER = 'Check a smaller plan, or check this one on the command line.';
const stopped = (why: string) => failed('api/gave-up', '', `The check was stopped: ${why}. ${SMALLER}`);
const closing = () => failed('api/busy', '', 'The server is closing and stopped the check. Try again in a moment.');

/** `job`: the built script that takes a plan's text as its data and posts the outcome. */
export function checksInThreads(job: URL, limits: Pick<Limits, 'seconds'> & Partial<Limits>): Checker {
  const { seconds, megabytes, atOnce, waiting }: Limits = { ...LIMITS, ...limits };
  const queue = new PQueue({ concurrency: atOnce });
  const running = new Set<Worker>();
  const time = new ProcessorTime<Worker>();
  let open = true;

  const outcomeOf = (worker: Worker, left?: AbortSignal) =>
    new Promise<Outcome<Checked>>((resolve, reject) => {
      time.count(worker, seconds, () => resolve(stopped(`it takes more than ${seconds} seconds of processor time`)));
      left?.addEventListener('abort', () => resolve(stopped('whoever asked for it has left')), { once: true });
      worker.once('message', resolve);
      worker.once('error', (e: NodeJS.ErrnoException) =>
        e.code === 'ERR_WORKER_OUT_OF_MEMORY' ? resolve(stopped(`it needs more than ${megabytes} MB of memory`)) : reject(e),
      );
      worker.once('exit', () => resolve(closing()));
    });

  async function run(text: string, left?: AbortSignal): Promise<Outcome<Checked>> {
    if (!open) return closing();
    if (left?.aborted) return stopped('whoever asked for it has left');
    const worker = new Worker(job, { workerData: text, resourceLimits: { maxOldGenerationSizeMb: megabytes } });
    running.add(worker);
    try {
      return await outcomeOf(worker, left);
    } finally {
      time.end(worker);
      await worker.terminate();
      running.delete(worker);
    }
  }

  return {
    async check(text, left) {
      if (queue.size >= waiting)
        return failed('api/busy', '', `${waiting} other plans are waiting to be checked. Try again in ${seconds} seconds.`);
      return queue.add(() => run(text, left));
    },
    async close() {
      open = false;
      await Promise.all([...running].map((w) => w.terminate()));
    },
  };
}
