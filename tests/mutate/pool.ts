/** Child processes that take tasks one after the other; one that exceeds its time is ended and another takes its place. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Answer, Task } from './protocol.ts';

const START = "import { runnerImport } from 'vite'; await runnerImport('./tests/mutate/child.ts');";
/** Of /proc, in a second. */
const TICKS = 100;
/** A child is replaced after so many tasks: what the loaded modules leave behind adds up. */
const TASKS_OF_A_CHILD = 200;

export type Ending = Extract<Answer, { is: 'surveyed' | 'tried' }> | { readonly is: 'late'; readonly file: string; readonly name: string };

class Child {
  readonly #process: ChildProcess;
  readonly ready: Promise<void>;
  tasks = 0;

  constructor() {
    this.#process = spawn(process.execPath, ['--input-type=module', '-e', START], { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
    this.ready = new Promise((resolve, reject) => {
      this.#process.once('message', () => resolve());
      this.#process.once('exit', (code) => reject(new Error(`A child process ended with ${code} before it was ready.`)));
    });
  }

  /** `patience` says how long [ms] the process may work on a test, or on loading its file */
  run(task: Task, patience: (file: string, index: number | undefined) => number): Promise<Ending> {
    this.tasks++;
    return new Promise((resolve) => {
      let timer: NodeJS.Timeout | undefined;
      let last: { file: string; name: string } = { file: '', name: 'loading' };
      const end = (e: Ending) => {
        clearTimeout(timer);
        this.#process.off('message', heard);
        this.#process.off('exit', gone);
        resolve(e);
      };
      const gone = () => end({ is: 'late', ...last });
      const heard = (a: Answer) => {
        if (a.is === 'ready') return;
        if (a.is !== 'begins') return end(a);
        clearTimeout(timer);
        last = { file: a.file, name: a.name };
        const most = patience(a.file, a.index);
        const began = this.cpu();
        // a busy machine is no fault of the mutant: what counts is what the process itself has worked
        const look = () => {
          const left = most - (this.cpu() - began);
          if (left <= 0) this.stop();
          else timer = setTimeout(look, left);
        };
        timer = setTimeout(look, most);
      };
      this.#process.on('message', heard);
      this.#process.on('exit', gone);
      this.#process.send(task);
    });
  }

  /** time that the process has worked [ms]; where the system does not tell, the time of day */
  private cpu(): number {
    try {
      const fields = readFileSync(`/proc/${this.#process.pid}/stat`, 'utf8')
        .replace(/^.*\) /, '')
        .split(' ');
      return (Number(fields[11]) + Number(fields[12])) * (1000 / TICKS);
    } catch {
      return performance.now();
    }
  }

  send(task: Task): void {
    this.#process.send(task);
  }

  get alive(): boolean {
    return this.#process.exitCode === null && this.#process.signalCode === null;
  }

  stop(): void {
    this.#process.kill('SIGKILL');
  }
}

/** Gives each of `workers` processes one task after the other until `next` has none; each hears `first` when it starts. */
export async function runAll<T>(
  workers: number,
  next: () => { readonly task: Task; readonly of: T; patience(file: string, index: number | undefined): number } | undefined,
  ended: (of: T, ending: Ending, seconds: number) => void,
  first?: Extract<Task, { do: 'plant' }>,
): Promise<void> {
  const work = async () => {
    let child: Child | undefined;
    for (let job = next(); job; job = next()) {
      if (!child?.alive || child.tasks >= TASKS_OF_A_CHILD) {
        child?.stop();
        child = new Child();
        await child.ready;
        if (first) child.send(first);
      }
      const began = performance.now();
      const ending = await child.run(job.task, job.patience);
      ended(job.of, ending, (performance.now() - began) / 1000);
    }
    child?.stop();
  };
  await Promise.all(Array.from({ length: workers }, work));
}
