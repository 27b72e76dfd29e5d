/** A child process that runs tests: it loads the product through its own Vite server, with marks or with a mutant in it; no file is changed. */
import { readFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import { createServer, createServerModuleRunner, type Plugin, type RunnableDevEnvironment } from 'vite';
import { withMarks } from './arms.ts';
import { type Mutant, mutated } from './mutant.ts';
import type { Answer, Surveyed, Task } from './protocol.ts';
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

async function tryOut({ mutant, choices }: { mutant: Mutant; choices: Extract<Task, { do: 'trial' }>['choices'] }): Promise<void> {
  replace(new Map([[resolve(mutant.path), (text: string) => mutated(text, mutant)]]));
  let by: string | undefined;
  let count = 0;
  for (const { file, tests } of choices) {
    const chosen = tests && new Set(tests);
    answer({ is: 'begins', file, name: 'loading' });
    const wrong = await runTests(resolve(file), load, {
      wanted: (index) => by === undefined && (chosen?.has(index) ?? true),
      begins: (index, name) => answer({ is: 'begins', file, index, name }),
      ended: (_, name, passed) => {
        count++;
        if (!passed) by ??= `${file}: ${name}`;
      },
    });
    if (wrong) by ??= `${file}: ${wrong.split('\n')[0]}`;
    if (by) break;
  }
  answer({ is: 'tried', tests: count, ...(by ? { by } : {}) });
}

// what a mutant leaves behind in timers and promises is not this process's end
process.on('unhandledRejection', () => {});
process.on('uncaughtException', () => {});
process.on('disconnect', () => process.exit(0));
process.on('message', (task: Task) => {
  void (task.do === 'survey' ? survey(task) : tryOut(task));
});
answer({ is: 'ready' });
