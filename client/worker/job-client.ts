/** The page's side of long work: one job at a time in a worker of its own, with progress, ended when it is not wanted any more. */
import { failed, type Outcome } from '../../sim-core/index.ts';
import { type Clock, systemClock } from './clock.ts';
import type { Job, JobResult, JobWorker } from './jobs.ts';
import { startJobWorker } from './start-worker.ts';

/** undefined: it was ended before it came to a result */
type Answer<J extends Job> = Outcome<JobResult[J['job']]> | undefined;

/** How often it is looked whether a job has told anything [ms]. */
const LOOK = 1000;
/** So many looks without any, a minute, are too many: our choice; a job that tells no progress takes seconds. Looks are counted, not time: a page that slept has not waited. */
const SILENT_LOOKS = 60;

export class JobClient {
  /** undefined: none has been begun yet, or the last one was ended */
  private worker: JobWorker | undefined;
  /** ends the job that is under way; undefined: none is */
  private ended: (() => void) | undefined;

  /** progress: called with 0 to 1 while it goes on */
  constructor(
    private readonly progress: (part: number) => void = () => {},
    private readonly start: () => JobWorker = startJobWorker,
    private readonly clock: Clock = systemClock,
  ) {}

  /** Ends what is under way and begins this. */
  begin<J extends Job>(job: J): Promise<Answer<J>> {
    this.end();
    const worker = this.worker ?? this.start();
    this.worker = worker;
    return new Promise((resolve) => {
      const settle = (answer: Answer<J>) => {
        this.ended = undefined;
        worker.onmessage = null;
        callOff();
        resolve(answer);
      };
      /** There is no other way to stop a worker that is at work, and one that has failed answers nothing any more. */
      const endWith = (answer: Answer<J>) => {
        worker.terminate();
        this.worker = undefined;
        settle(answer);
      };
      this.ended = () => endWith(undefined);
      let silent = 0;
      const look = () => {
        silent += 1;
        if (silent < SILENT_LOOKS) callOff = this.clock.after(LOOK, look);
        else
          endWith(
            failed(
              'page/job-silent',
              job.job,
              'The computation gave no answer for a minute and was ended. Your bench is as it was: try again, or make the table or the bench smaller first.',
            ),
          );
      };
      let callOff = this.clock.after(LOOK, look);
      worker.onerror = () =>
        endWith(
          failed(
            'page/job-error',
            job.job,
            'The computation failed with an error. Your bench is as it was: try again, or change the bench first.',
          ),
        );
      worker.onmessage = (e) => {
        silent = 0;
        if ('part' in e.data) this.progress(e.data.part);
        else settle(e.data.result as Outcome<JobResult[J['job']]>);
      };
      worker.postMessage(job);
    });
  }

  /** Ends what is under way, if anything is. */
  end(): void {
    this.ended?.();
  }

  get busy(): boolean {
    return this.ended !== undefined;
  }

  /** Lets the worker go, for a page that is left. */
  close(): void {
    this.end();
    this.worker?.terminate();
    this.worker = undefined;
  }
}
