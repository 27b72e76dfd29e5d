/** `plant PLAN`: the bench with one hidden mistake, written into a file that does not give it away. */
import { DIFFICULTIES, type Difficulty, done, type Outcome, plantFault } from '../../sim-core/index.ts';
import { type Arguments, answer, type ShellCommand } from './command.ts';
import { newPlanFile, outOption, seedOf } from './new-plan.ts';
import { findPlan, writePlan } from './plan-file.ts';

export const PLANT: ShellCommand = {
  name: 'plant',
  means: 'write the bench with one hidden mistake that an LED shows in some row, for whoever wants to learn to find it',
  takes: 'PLAN',
  options: {
    seed: { value: 'N', means: 'which one; the same number hides the same mistake; 1 if not given' },
    level: {
      value: 'HOW',
      choices: DIFFICULTIES,
      means: 'easy: seen by looking; medium: by a close look; hard: by measuring; easy if not given',
    },
    out: outOption('planted'),
  },
  run: (given) => answer(plantInto(given), ({ file, level }) => `${file}: one ${level} mistake is hidden on this bench.`),
};

interface PlantedFile {
  readonly file: string;
  readonly seed: number;
  readonly level: Difficulty;
}

/** Writes the plan; refuses to overwrite a file. */
function plantInto({ words: [name = ''], values }: Arguments): Outcome<PlantedFile> {
  const seed = seedOf(values.seed);
  if (!seed.ok) return seed;
  const level = DIFFICULTIES.find((l) => l === values.level) ?? 'easy';
  const file = newPlanFile(name, 'planted', values.out);
  if (!file.ok) return file;
  const plan = findPlan(name);
  if (!plan.ok) return plan;
  const planted = plantFault(plan.value, seed.value, level);
  if (!planted.ok) return planted;
  const written = writePlan(file.value, planted.value.plan);
  return written.ok ? done({ file: file.value, seed: seed.value, level }) : written;
}
