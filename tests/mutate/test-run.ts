/** Runs one test file in this process, chosen tests only, and tells what each test did. */
import { startTests } from '@vitest/runner';

type Runner = Parameters<typeof startTests>[1];
type Test = Parameters<NonNullable<Runner['onBeforeRunTask']>>[0];

export interface Watcher {
  /** whether the test with this place among the file's tests is to run */
  wanted(index: number): boolean;
  loaded?(): void;
  begins?(index: number, name: string): void;
  ended?(index: number, name: string, passed: boolean, ms: number): void;
}

const CONFIG: Runner['config'] = {
  root: process.cwd(),
  name: 'unit',
  setupFiles: [],
  passWithNoTests: true,
  testNamePattern: undefined,
  allowOnly: false,
  sequence: { seed: 1, hooks: 'stack', setupFiles: 'list' },
  chaiConfig: undefined,
  maxConcurrency: 1,
  testTimeout: 600_000,
  hookTimeout: 600_000,
  retry: 0,
  includeTaskLocation: false,
  tags: [],
  tagsFilter: undefined,
  strictTags: false,
};

/** Resolves to what went wrong outside the tests themselves: loading the file, or in a hook. */
export async function runTests(file: string, load: (path: string) => Promise<unknown>, watcher: Watcher): Promise<string | undefined> {
  const order = new Map<string, number>();
  const runner: Runner = {
    config: CONFIG,
    importFile: (path) => load(path),
    onCollected: (files) => {
      const number = (tasks: (typeof files)[number]['tasks']): void => {
        for (const t of tasks) {
          if (t.type === 'suite') number(t.tasks);
          else {
            order.set(t.id, order.size);
            if (!watcher.wanted(order.size - 1)) t.mode = 'skip';
          }
        }
      };
      for (const f of files) number(f.tasks);
      watcher.loaded?.();
    },
    onBeforeRunTask: (test: Test) => {
      const index = order.get(test.id) ?? -1;
      if (!watcher.wanted(index)) test.mode = 'skip';
      else if (test.mode === 'run') watcher.begins?.(index, nameOf(test));
    },
    onAfterRunTask: (test: Test) => {
      if (test.mode !== 'run' && test.mode !== 'queued') return;
      watcher.ended?.(order.get(test.id) ?? -1, nameOf(test), test.result?.state === 'pass', test.result?.duration ?? 0);
    },
  };
  const files = await startTests([file], runner);
  for (const f of files) {
    const wrong = failureOf(f);
    if (wrong) return wrong;
  }
  return undefined;
}

type FileTask = Awaited<ReturnType<typeof startTests>>[number];

/** Of a file or of a group in it: the hooks' and the loading's errors, not those of its tests. */
function failureOf(suite: FileTask | FileTask['tasks'][number]): string | undefined {
  if (suite.type !== 'suite') return undefined;
  const own = suite.result?.errors?.[0]?.message;
  if (own) return own;
  for (const t of suite.tasks) {
    const inner = failureOf(t);
    if (inner) return inner;
  }
  return undefined;
}

function nameOf(test: Test): string {
  const names: string[] = [test.name];
  for (let s = test.suite; s; s = s.suite) names.unshift(s.name);
  return names.join(' > ');
}
