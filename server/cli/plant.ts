/** `plant PLAN`: the bench with one hidden mistake, written into a file that does not give it away. */
import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import { DIFFICULTIES, type Difficulty, done, failed, type Outcome, plantFault } from '../../sim-core/index.ts';
import { type Arguments, answer, type ShellCommand } from './command.ts';
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
    out: {
      value: 'FILE',
      means: 'where the plan goes: .plan.json, or .plan.txt for the text notation; PLAN.planted.plan.json if not given',
    },
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
  const seed = Number(values.seed ?? 1);
  if (!Number.isInteger(seed) || seed < 0 || seed > 2 ** 32 - 1)
    return failed('cli/bad-value', '--seed', `--seed cannot be "${values.seed}". It takes a whole number from 0 to 4294967295.`);
  const level = DIFFICULTIES.find((l) => l === values.level) ?? 'easy';
  const file = values.out ?? `${basename(name).replace(/\.plan\.(json|txt)$/, '')}.planted.plan.json`;
  if (existsSync(file)) return failed('file/exists', file, `${file} exists and is not overwritten. Give another name with --out.`);
  const plan = findPlan(name);
  if (!plan.ok) return plan;
  const planted = plantFault(plan.value, seed, level);
  if (!planted.ok) return planted;
  const written = writePlan(file, planted.value.plan);
  return written.ok ? done({ file, seed, level }) : written;
}
