/** The published JSON Schema is the one that the program reads plans with. Write it anew with `npx vitest run --project unit plan-schema -u`. */
import { expect, test } from 'vitest';
import { Plan } from '../../shared/plan.ts';

test('shared/plan.schema.json is what shared/plan.ts says', async () => {
  const published = { $schema: 'http://json-schema.org/draft-07/schema#', ...Plan };
  await expect(`${JSON.stringify(published, null, 2)}\n`).toMatchFileSnapshot('../../shared/plan.schema.json');
});
