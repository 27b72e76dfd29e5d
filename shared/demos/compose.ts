/** `npm run demos`: writes every demonstration as a document into shared/demos of the repository that it is run in. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { composeAll } from './documents.ts';
import { printPlan } from './print-plan.ts';

for (const [id, plan] of Object.entries(composeAll())) {
  const file = join('shared', 'demos', `${id}.plan.json`);
  writeFileSync(join(process.cwd(), file), printPlan(plan));
  console.log(`wrote ${file}`);
}
