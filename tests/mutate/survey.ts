/** Which arms of the product each test runs, found out once by running all tests with marks; kept on disk for as long as nothing changes. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Arm, armsOf } from './arms.ts';
import { runAll } from './pool.ts';
import type { FileSurvey, Task } from './protocol.ts';

const KEPT_IN = 'node_modules/.cache/lampwright-mutate';
/** A test of a survey may take so long [ms]; the slowest takes 40 s on a busy machine. */
const PATIENCE = 300_000;

export interface Survey {
  readonly files: readonly FileSurvey[];
  /** by path: the number of the file's first arm, and its arms */
  readonly arms: ReadonlyMap<string, { readonly first: number; readonly arms: readonly Arm[] }>;
}

export async function surveyOf(tests: readonly string[], product: readonly string[], workers: number): Promise<Survey> {
  let count = 0;
  const arms = new Map(
    product.map((path) => {
      const found = { first: count, arms: armsOf(path, readFileSync(path, 'utf8')) };
      count += found.arms.length;
      return [path, found] as const;
    }),
  );
  const state = stateOf(product);
  const keptAs = new Map(tests.map((file) => [file, join(KEPT_IN, `${digest(state, file, readFileSync(file, 'utf8'))}.json`)]));
  mkdirSync(KEPT_IN, { recursive: true });
  const kept = new Set(readdirSync(KEPT_IN).map((f) => join(KEPT_IN, f)));
  const files = new Map<string, FileSurvey>();
  for (const [file, name] of keptAs) if (kept.has(name)) files.set(file, JSON.parse(readFileSync(name, 'utf8')) as FileSurvey);

  const waiting = tests.filter((file) => !files.has(file));
  if (waiting.length > 0) console.log(`Looking which code each of ${waiting.length} test files runs …`);
  const marked = [...arms].map(([path, { first }]) => [path, first] as const);
  await runAll<string>(
    workers,
    () => {
      const file = waiting.pop();
      const task: Task = { do: 'survey', file: file ?? '', arms: marked, count };
      return file === undefined ? undefined : { task, of: file, patience: () => PATIENCE };
    },
    (file, ending) => {
      if (ending.is === 'surveyed') {
        files.set(file, ending.survey);
        writeFileSync(keptAs.get(file) as string, JSON.stringify(ending.survey));
      } else files.set(file, { file, loading: [], loaded: [], tests: [], broken: 'it did not come to an end' });
    },
  );
  return { files: tests.map((file) => files.get(file) as FileSurvey), arms };
}

/** One name for all that tests load, the test files themselves left out. */
function stateOf(product: readonly string[]): string {
  const texts = ['sim-core', 'shared', 'client', 'tests/support', 'tests/mutate'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((f) => /\.(ts|json)$/.test(f))
      .sort()
      .flatMap((f) => [f, readFileSync(join(folder, f), 'utf8')]),
  );
  return digest(...product, ...texts);
}

function digest(...texts: readonly string[]): string {
  const hash = createHash('sha256');
  for (const t of texts) hash.update(`${t.length}:`).update(t);
  return hash.digest('hex').slice(0, 24);
}
