/** Which arms of the product each test runs, found out once by running all tests with marks; kept on disk for as long as nothing changes that the test loads. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Arm, armsOf } from './arms.ts';
import { runAll } from './pool.ts';
import type { FileSurvey, Task } from './protocol.ts';
import { closureOf } from './rooms.ts';

const KEPT_IN = 'node_modules/.cache/lampwright-mutate';
/** What decides how a survey is made. */
const SURVEYORS = ['arms', 'marked-run', 'test-run', 'product'].map((name) => `tests/mutate/${name}.ts`);
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
  const keptAs = new Map(tests.map((file) => [file, join(KEPT_IN, `${digestOfAll([...closureOf(file), ...SURVEYORS])}.json`)]));
  mkdirSync(KEPT_IN, { recursive: true });
  const kept = new Set(readdirSync(KEPT_IN).map((f) => join(KEPT_IN, f)));
  const files = new Map<string, FileSurvey>();
  for (const [file, name] of keptAs) if (kept.has(name)) files.set(file, opened(readFileSync(name, 'utf8'), arms));

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
        writeFileSync(keptAs.get(file) as string, closed(ending.survey, arms));
      } else files.set(file, { file, loading: [], fixed: [], loaded: [], tests: [], broken: 'it did not come to an end' });
    },
  );
  return { files: tests.map((file) => files.get(file) as FileSurvey), arms };
}

/** As kept: arms by file and place in the file, so that a change of one file moves no other's numbers. */
function closed(survey: FileSurvey, arms: Survey['arms']): string {
  const byFile = (numbers: readonly number[]) =>
    [...arms].flatMap(([path, { first, arms: own }]) => {
      const here = numbers.filter((n) => n >= first && n < first + own.length).map((n) => n - first);
      return here.length === 0 ? [] : [[path, here] as const];
    });
  return JSON.stringify({
    ...survey,
    loading: byFile(survey.loading),
    fixed: byFile(survey.fixed),
    tests: survey.tests.map((t) => ({ ...t, arms: byFile(t.arms) })),
  });
}

type Kept = Omit<FileSurvey, 'loading' | 'fixed' | 'tests'> & {
  readonly fixed: Kept['loading'];
  readonly loading: ReadonlyArray<readonly [string, readonly number[]]>;
  readonly tests: ReadonlyArray<Omit<FileSurvey['tests'][number], 'arms'> & { readonly arms: Kept['loading'] }>;
};

function opened(text: string, arms: Survey['arms']): FileSurvey {
  const survey = JSON.parse(text) as Kept;
  const numbers = (byFile: Kept['loading']) => byFile.flatMap(([path, own]) => own.map((n) => n + (arms.get(path)?.first ?? 0)));
  return {
    ...survey,
    loading: numbers(survey.loading),
    fixed: numbers(survey.fixed),
    tests: survey.tests.map((t) => ({ ...t, arms: numbers(t.arms) })),
  };
}

function digestOfAll(files: readonly string[]): string {
  const hash = createHash('sha256');
  for (const f of files) {
    const text = readFileSync(f);
    hash.update(`${f} ${text.length}:`).update(text);
  }
  return hash.digest('hex').slice(0, 24);
}
