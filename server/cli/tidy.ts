/** `tidy PLAN`: the same circuit with wiring that is easier to follow, written into a file of its own. */
import { done, type Outcome, sayTidied, type TidiedPlan, tidyWiring } from '../../sim-core/index.ts';
import { type Arguments, answer, type ShellCommand } from './command.ts';
import { newPlanFile, outOption, seedOf } from './new-plan.ts';
import { findPlan, writePlan } from './plan-file.ts';

export const TIDY: ShellCommand = {
  name: 'tidy',
  means: 'write the same circuit with wires and resistors in holes where they cross less',
  takes: 'PLAN',
  options: {
    seed: { value: 'N', means: 'another number tries other moves; 1 if not given' },
    out: outOption('tidy'),
  },
  run: (given) => answer(tidyInto(given), ({ file, before, after }) => `${file}: ${sayTidied(before, after)}`),
};

interface TidiedFile extends Pick<TidiedPlan, 'before' | 'after'> {
  readonly file: string;
}

/** Moves that are tried for each wire: a second or two on a bench of a hundred wires. */
const TRIES = 400;

/** Writes the plan; refuses to overwrite a file. */
function tidyInto({ words: [name = ''], values }: Arguments): Outcome<TidiedFile> {
  const seed = seedOf(values.seed);
  if (!seed.ok) return seed;
  const file = newPlanFile(name, 'tidy', values.out);
  if (!file.ok) return file;
  const plan = findPlan(name);
  if (!plan.ok) return plan;
  const tidy = tidyWiring(plan.value, { tries: TRIES, seeds: [seed.value] });
  if (!tidy.ok) return tidy;
  const { before, after } = tidy.value;
  const written = writePlan(file.value, tidy.value.plan);
  return written.ok ? done({ file: file.value, before, after }) : written;
}
