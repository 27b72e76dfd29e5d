/** The page's side of the workshop: one job at a time in a worker of its own, with progress, and ended when somebody thinks better of it. */
import type { Outcome } from '../core.ts';
import type { WorkshopJob, WorkshopResult, WorkshopTell } from '../worker/workshop-jobs.ts';

export interface Working<T> {
  /** undefined: it was stopped */
  readonly result: Promise<Outcome<T> | undefined>;
  stop(): void;
}

export function work<J extends WorkshopJob>(
  job: J,
  progress: (seen: number, of: number) => void = () => {},
): Working<WorkshopResult[J['job']]> {
  const worker = new Worker(new URL('../worker/workshop.ts', import.meta.url), { type: 'module', name: 'workshop' });
  let stop = () => {};
  const result = new Promise<Outcome<WorkshopResult[J['job']]> | undefined>((answer, fail) => {
    stop = () => {
      worker.terminate();
      answer(undefined);
    };
    worker.addEventListener('message', (e: MessageEvent<WorkshopTell>) => {
      if ('seen' in e.data) progress(e.data.seen, e.data.of);
      else {
        worker.terminate();
        answer(e.data.result as Outcome<WorkshopResult[J['job']]>);
      }
    });
    worker.addEventListener('error', (e) => {
      worker.terminate();
      fail(new Error(e.message));
    });
    worker.postMessage(job);
  });
  return { result, stop: () => stop() };
}
