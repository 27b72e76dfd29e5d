/** Which arms of the product each test of one file runs. */
import { relative, resolve } from 'node:path';
import { withMarks } from './arms.ts';
import type { Product } from './product.ts';
import type { FileSurvey, Surveyed, Task } from './protocol.ts';
import { runTests } from './test-run.ts';

/** `begins` hears of each test before it runs. */
export async function markedRun(
  product: Product,
  task: Extract<Task, { do: 'survey' }>,
  begins: (index: number, name: string) => void,
): Promise<FileSurvey> {
  const hits = new Uint8Array(task.count);
  Object.assign(globalThis, { hits });
  product.replace(new Map(task.arms.map(([path, first]) => [resolve(path), (text: string) => withMarks(path, text, first)])));
  const taken = (): number[] => {
    const found = [...hits.keys()].filter((i) => hits[i] === 1);
    hits.fill(0);
    return found;
  };
  const tests: Surveyed[] = [];
  let loading: number[] = [];
  const broken = await runTests(resolve(task.file), (path) => product.loadTests(path), {
    wanted: () => true,
    loaded: () => {
      loading = taken();
    },
    begins,
    ended: (index, name, passed, ms) => {
      tests[index] = { name, passed, ms, arms: taken() };
    },
  });
  for (let i = 0; i < tests.length; i++) tests[i] ??= { name: '', passed: false, ms: 0, arms: [] };
  const ids = product.loaded().filter((id) => /^(sim-core|shared|client|server)\/.*\.ts$/.test(relative(process.cwd(), id)));
  product.forget();
  taken();
  for (const id of ids) await product.loadAlone(id);
  const loaded = ids.map((id) => relative(process.cwd(), id)).filter((p) => p.startsWith('sim-core/') || p.startsWith('shared/'));
  return { file: task.file, loading, fixed: taken(), loaded, tests, ...(broken ? { broken } : {}) };
}
