/** Every demonstration by its id, which is its file's name without `.plan.json`. */
import type { Plan } from '../../shared/plan.ts';
import { composeBroken } from './broken.ts';
import { BUILT, composeBuilt } from './built.ts';
import { composeGreenhouse } from './greenhouse.ts';
import { composeGreenhouseBlank } from './greenhouse-blank.ts';
import { MISTAKES } from './mistakes.ts';

/** Every demonstration plan by its id, composed from its sections or built from its table. */
export const composeAll = (): Readonly<Record<string, Plan>> => ({
  greenhouse: composeGreenhouse(),
  'greenhouse-blank': composeGreenhouseBlank(),
  ...Object.fromEntries(BUILT.map((b) => [b.table.id, composeBuilt(b)])),
  ...Object.fromEntries(MISTAKES.map((m) => [m.plan, composeBroken(m)])),
});
