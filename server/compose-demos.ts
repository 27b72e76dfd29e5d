/** `npm run demos`: composes every demonstration and writes it as a plan into shared/demos of the folder that it is run in. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { printPlan } from '../shared/print-plan.ts';
import { composeAll } from '../sim-core/index.ts';

for (const [id, plan] of Object.entries(composeAll())) {
  const file = join('shared', 'demos', `${id}.plan.json`);
  writeFileSync(join(process.cwd(), file), printPlan(plan));
  console.log(`wrote ${file}`);
}
