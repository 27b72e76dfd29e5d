/** Shows each mutant to the tests that reach it. */
import { armAround } from './arms.ts';
import { testsFor } from './choice.ts';
import type { Mutant, Verdict } from './mutant.ts';
import { type Ending, runAll } from './pool.ts';
import type { Failure, Task } from './protocol.ts';
import type { Survey } from './survey.ts';

/** A test with a mutant may take this many times what it took without, and this long [ms] besides, of the process's own work. */
const SLOWER = 5;
const BESIDES = 4_000;
/** The loading of a test file and of all that it imports may take so long [ms]. */
const LOADING = 40_000;

export async function tryAll(
  mutants: readonly Mutant[],
  survey: Survey,
  { workers, budget }: { readonly workers: number; readonly budget: number },
  seen: (v: Verdict, done: number) => void,
): Promise<void> {
  let done = 0;
  const tell = (v: Verdict) => seen(v, ++done);
  const plain = new Map(survey.files.map((f) => [f.file, f.tests.map((t) => t.ms)]));
  const patience = (file: string, index: number | undefined) =>
    index === undefined ? LOADING : (plain.get(file)?.[index] ?? 0) * SLOWER + BESIDES;
  const runsOnLoad = loadRunner(survey);
  const ids = new Map(mutants.map((m, id) => [m, id]));
  // those for which all must be loaded come after the others, which share what is loaded
  const waiting = [...mutants.filter((m) => !runsOnLoad(m)), ...mutants.filter(runsOnLoad)];
  const unsound: Failure[] = [];
  const killers = new Map<string, Map<string, number>>();
  await runAll<{ mutant: Mutant; leftOut: number }>(
    workers,
    () => {
      for (let mutant = waiting.shift(); mutant; mutant = waiting.shift()) {
        const { choices, leftOut } = testsFor(mutant, without(survey, unsound), budget * 1000, killers.get(mutant.path));
        const task: Task = { do: 'trial', id: ids.get(mutant) ?? -1, load: runsOnLoad(mutant), choices };
        if (choices.length > 0) return { task, of: { mutant, leftOut }, patience };
        tell({ mutant, fate: 'not covered', tests: 0, leftOut, seconds: 0 });
      }
      return undefined;
    },
    ({ mutant, leftOut }, ending, seconds) => {
      if (ending.is === 'tried' && ending.by && !ending.sound) {
        unsound.push(ending.by);
        waiting.unshift(mutant);
        console.log(`Left out, since it fails without the tests before it: ${ending.by.file}: ${ending.by.name}`);
        return;
      }
      if (ending.is === 'tried' && ending.by) {
        const own = killers.get(mutant.path) ?? new Map<string, number>();
        const key = `${ending.by.file} ${ending.by.index}`;
        killers.set(mutant.path, own.set(key, (own.get(key) ?? 0) + 1));
      }
      tell({ mutant, leftOut, seconds, ...fateOf(ending) });
    },
    { do: 'plant', planted: mutants.map((mutant, id) => ({ mutant, id })) },
  );
}

/** Whether a mutant's place runs when the product is loaded, so that a switch thrown later comes too late. */
function loadRunner(survey: Survey): (m: Mutant) => boolean {
  const fixed = new Set(survey.files.flatMap((f) => f.fixed));
  return (m) => {
    const own = survey.arms.get(m.path);
    const arm = own && armAround(own.arms, m);
    return own === undefined || arm === undefined || fixed.has(own.first + arm);
  };
}

/** A test that needs others before it counts as one that does not pass; if it was the file as a whole, all of the file's. */
function without(survey: Survey, unsound: readonly Failure[]): Survey {
  if (unsound.length === 0) return survey;
  const files = survey.files.map((f) => {
    const here = unsound.filter((u) => u.file === f.file);
    if (here.length === 0) return f;
    const all = here.some((u) => u.index === undefined);
    return { ...f, tests: f.tests.map((t, i) => (all || here.some((u) => u.index === i) ? { ...t, passed: false } : t)) };
  });
  return { ...survey, files };
}

function fateOf(ending: Ending): Pick<Verdict, 'fate' | 'by' | 'tests'> {
  if (ending.is === 'late') return { fate: 'timed out', by: `${ending.file}: ${ending.name}`, tests: 0 };
  if (ending.is === 'surveyed') throw new Error('A trial was answered by a survey.');
  const { by, tests } = ending;
  return by ? { fate: 'killed', by: `${by.file}: ${by.name}`, tests } : { fate: 'survived', tests };
}
