/** A child process that runs tests: of one file to see what they reach, or chosen ones on a mutant. */
import { resolve } from 'node:path';
import { markedRun } from './marked-run.ts';
import { openProduct } from './product.ts';
import type { Answer, Failure, Task, TestChoice } from './protocol.ts';
import { type Switched, withSwitches } from './switches.ts';
import { runTests } from './test-run.ts';

const product = await openProduct();
const answer = (a: Answer): void => void process.send?.(a);

/** Puts one planted mutant in force; undefined: none. */
const inForce = (mutant: number | undefined): void => void Object.assign(globalThis, { mutant });

function plant(planted: readonly Switched[]): void {
  inForce(undefined);
  const paths = [...new Set(planted.map((s) => s.mutant.path))];
  const switches = (path: string) => {
    const own = planted.filter((s) => s.mutant.path === path);
    return (text: string) => withSwitches(path, text, own);
  };
  product.replace(new Map(paths.map((path) => [resolve(path), switches(path)])));
}

/** Whether the modules that are loaded may hold what a mutant left in them. */
let stale = false;

async function tryOut({ id, load, choices }: Extract<Task, { do: 'trial' }>, afresh = load): Promise<void> {
  let count = 0;
  inForce(id);
  if (afresh || stale) product.forget();
  stale = afresh;
  for (const choice of choices) {
    const { failed, tests } = await firstFailure(choice);
    count += tests;
    if (!failed) continue;
    // it says something only if the same test passes without the mutant
    inForce(undefined);
    const alone = failed.index === undefined ? choice : { file: choice.file, tests: [failed.index] };
    if (afresh) product.forget();
    const { failed: anyway } = await firstFailure(alone);
    // what this mutant or an earlier one has left in the modules may be what failed
    if (anyway && !afresh) return tryOut({ do: 'trial', id, load, choices }, true);
    return answer({ is: 'tried', tests: count, by: failed, sound: anyway === undefined });
  }
  answer({ is: 'tried', tests: count });
}

/** Runs chosen tests of a file until one fails. */
async function firstFailure({ file, tests }: TestChoice): Promise<{ failed?: Failure; tests: number }> {
  answer({ is: 'begins', file, name: 'loading' });
  const chosen = tests && new Set(tests);
  let failed: Failure | undefined;
  let count = 0;
  const wrong = await runTests(resolve(file), (path) => product.loadTests(path), {
    wanted: (index) => failed === undefined && (chosen?.has(index) ?? true),
    begins: (index, name) => answer({ is: 'begins', file, index, name }),
    ended: (index, name, passed) => {
      count++;
      if (!passed) failed ??= { file, index, name };
    },
  });
  if (wrong) failed ??= { file, name: wrong.split('\n')[0] ?? '' };
  return { tests: count, ...(failed ? { failed } : {}) };
}

async function take(task: Task): Promise<void> {
  if (task.do === 'plant') plant(task.planted);
  else if (task.do === 'trial') await tryOut(task);
  else {
    const begins = (index: number, name: string) => answer({ is: 'begins', file: task.file, index, name });
    answer({ is: 'surveyed', survey: await markedRun(product, task, begins) });
  }
}

// what a mutant leaves behind in timers and promises is not this process's end
process.on('unhandledRejection', () => {});
process.on('uncaughtException', () => {});
process.on('disconnect', () => process.exit(0));
process.on('message', (task: Task) => void take(task));
answer({ is: 'ready' });
