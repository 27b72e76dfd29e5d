/** A child process that runs tests: it loads the product through its own Vite server, with marks or with a mutant in it; no file is changed. */
import { readFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import { createServer, createServerModuleRunner, type Plugin, type RunnableDevEnvironment } from 'vite';
import { withMarks } from './arms.ts';
import { mutated } from './mutant.ts';
import type { Answer, Failure, Surveyed, Task, TestChoice } from './protocol.ts';
import { runTests } from './test-run.ts';

/** What stands for the text of a file of the product, by the file's full name. */
let replaced: ReadonlyMap<string, (text: string) => string> = new Map();

const replacing: Plugin = {
  name: 'replaced-text',
  enforce: 'pre',
  load(id) {
    const change = replaced.get(id);
    return change?.(readFileSync(id, 'utf8'));
  },
};

const vite = await createServer({
  configFile: false,
  logLevel: 'error',
  appType: 'custom',
  plugins: [replacing],
  server: { middlewareMode: true, watch: null, ws: false, hmr: false },
});
const environment = vite.environments.ssr as RunnableDevEnvironment;
const modules = createServerModuleRunner(environment, { hmr: false, sourcemapInterceptor: false });
const answer = (a: Answer): void => void process.send?.(a);

/** From now on these files have other texts; all modules are loaded afresh. */
function replace(changes: ReadonlyMap<string, (text: string) => string>): void {
  for (const id of new Set([...replaced.keys(), ...changes.keys()]))
    for (const node of environment.moduleGraph.getModulesByFile(id) ?? []) environment.moduleGraph.invalidateModule(node);
  replaced = changes;
  modules.clearCache();
}

/** The test file itself is loaded at each call, since its tests register themselves; what it imports is loaded once. */
async function load(path: string): Promise<unknown> {
  const before = modules.evaluatedModules.getModulesByFile(path);
  for (const node of [...(before ?? [])]) modules.evaluatedModules.invalidateModule(node);
  return modules.import(path);
}

async function survey(task: Extract<Task, { do: 'survey' }>): Promise<void> {
  const hits = new Uint8Array(task.count);
  Object.assign(globalThis, { hits });
  replace(new Map(task.arms.map(([path, first]) => [resolve(path), (text: string) => withMarks(path, text, first)])));
  const taken = (): number[] => {
    const found = [...hits.keys()].filter((i) => hits[i] === 1);
    hits.fill(0);
    return found;
  };
  const tests: Surveyed[] = [];
  let loading: number[] = [];
  const broken = await runTests(resolve(task.file), load, {
    wanted: () => true,
    loaded: () => {
      loading = taken();
    },
    begins: (index, name) => answer({ is: 'begins', file: task.file, index, name }),
    ended: (index, name, passed, ms) => {
      tests[index] = { name, passed, ms, arms: taken() };
    },
  });
  const ids = [...modules.evaluatedModules.fileToModulesMap.keys()];
  const loaded = ids.map((id) => relative(process.cwd(), id)).filter((p) => p.startsWith('sim-core/') || p.startsWith('shared/'));
  for (let i = 0; i < tests.length; i++) tests[i] ??= { name: '', passed: false, ms: 0, arms: [] };
  answer({ is: 'surveyed', survey: { file: task.file, loading, loaded, tests, ...(broken ? { broken } : {}) } });
}

async function tryOut({ mutant, choices }: Extract<Task, { do: 'trial' }>): Promise<void> {
  replace(new Map([[resolve(mutant.path), (text: string) => mutated(text, mutant)]]));
  let count = 0;
  for (const choice of choices) {
    answer({ is: 'begins', file: choice.file, name: 'loading' });
    const { failed, tests } = await firstFailure(choice);
    count += tests;
    if (!failed) continue;
    const sound = await passesByItself(choice, failed);
    return answer({ is: 'tried', tests: count, by: failed, sound });
  }
  answer({ is: 'tried', tests: count });
}

/** Runs chosen tests of a file until one fails. */
async function firstFailure({ file, tests }: TestChoice): Promise<{ failed?: Failure; tests: number }> {
  const chosen = tests && new Set(tests);
  let failed: Failure | undefined;
  let count = 0;
  const wrong = await runTests(resolve(file), load, {
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

const sound = new Map<string, boolean>();

/** Some tests need others of their file before them, or all of them: without a mutant such a one fails here too, and its failure says nothing. */
async function passesByItself(choice: TestChoice, { file, index }: Failure): Promise<boolean> {
  const key = `${file} ${index ?? choice.tests?.join()}`;
  const known = sound.get(key);
  if (known !== undefined) return known;
  replace(new Map());
  const { failed } = await firstFailure(index === undefined ? choice : { file, tests: [index] });
  sound.set(key, failed === undefined);
  return failed === undefined;
}

// what a mutant leaves behind in timers and promises is not this process's end
process.on('unhandledRejection', () => {});
process.on('uncaughtException', () => {});
process.on('disconnect', () => process.exit(0));
process.on('message', (task: Task) => {
  void (task.do === 'survey' ? survey(task) : tryOut(task));
});
answer({ is: 'ready' });
