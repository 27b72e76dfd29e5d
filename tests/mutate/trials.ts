/** Shows each mutant to the tests that reach it. */
import { testsFor } from './choice.ts';
import type { Mutant, Verdict } from './mutant.ts';
import { type Ending, runAll } from './pool.ts';
import type { Task } from './protocol.ts';
import type { Survey } from './survey.ts';

/** A test with a mutant may take this many times what it took without, and this long [ms] besides: the machine may be busy. */
const SLOWER = 10;
const BESIDES = 10_000;

export async function tryAll(
  mutants: readonly Mutant[],
  survey: Survey,
  { workers, budget }: { readonly workers: number; readonly budget: number },
  seen: (v: Verdict, done: number) => void,
): Promise<Verdict[]> {
  const verdicts: Verdict[] = [];
  const tell = (v: Verdict) => {
    verdicts.push(v);
    seen(v, verdicts.length);
  };
  const plain = new Map(survey.files.map((f) => [f.file, f.tests.map((t) => t.ms)]));
  const patience = (file: string, index: number | undefined) =>
    (index === undefined ? 0 : (plain.get(file)?.[index] ?? 0)) * SLOWER + BESIDES;
  const waiting = [...mutants];
  await runAll<{ mutant: Mutant; leftOut: number }>(
    workers,
    () => {
      for (let mutant = waiting.shift(); mutant; mutant = waiting.shift()) {
        const { choices, leftOut } = testsFor(mutant, survey, budget * 1000);
        const task: Task = { do: 'trial', mutant, choices };
        if (choices.length > 0) return { task, of: { mutant, leftOut }, patience };
        tell({ mutant, fate: 'not covered', tests: 0, leftOut, seconds: 0 });
      }
      return undefined;
    },
    ({ mutant, leftOut }, ending, seconds) => tell({ mutant, leftOut, seconds, ...fateOf(ending) }),
  );
  return verdicts;
}

function fateOf(ending: Ending): Pick<Verdict, 'fate' | 'by' | 'tests'> {
  if (ending.is === 'late') return { fate: 'timed out', by: `${ending.file}: ${ending.name}`, tests: 0 };
  if (ending.is === 'surveyed') throw new Error('A trial was answered by a survey.');
  return ending.by === undefined ? { fate: 'survived', tests: ending.tests } : { fate: 'killed', by: ending.by, tests: ending.tests };
}
