/** A plan made from another and written into a file of its own: how that file is called, and the seed that it is made with. */
import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import { done, failed, type Outcome } from '../../sim-core/index.ts';

/** What such a command's options say of its file, and of its seed. made: 'planted' gives PLAN.planted.plan.json. */
export const outOption = (made: string) => ({
  value: 'FILE',
  means: `where the plan goes: .plan.json, or .plan.txt for the text notation; PLAN.${made}.plan.json if not given`,
});

/** out: as it was asked for. Fails with `file/exists`: nothing is overwritten. */
export function newPlanFile(name: string, made: string, out: string | undefined): Outcome<string> {
  const file = out ?? `${basename(name).replace(/\.plan\.(json|txt)$/, '')}.${made}.plan.json`;
  return existsSync(file)
    ? failed('file/exists', file, `${file} exists and is not overwritten. Give another name with --out.`)
    : done(file);
}

/** 1 if none is given. Fails with `cli/bad-value`. */
export function seedOf(given: string | undefined): Outcome<number> {
  const seed = Number(given ?? 1);
  return Number.isInteger(seed) && seed >= 0 && seed < 2 ** 32
    ? done(seed)
    : failed('cli/bad-value', '--seed', `--seed cannot be "${given}". It takes a whole number from 0 to 4294967295.`);
}
