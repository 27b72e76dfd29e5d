/** `prove --keep`: a bench whose every row is right is kept in its file as it is meant; one with a wrong row is not, nor is a demonstration. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lampwright-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function keep(file: string) {
  const said: string[] = [];
  const code = runCommand(['prove', file, '--keep'], { out: (t) => said.push(t), refuse: (t) => said.push(t) });
  return { code, said: said.join('\n') };
}
function written(plan: Plan | undefined): string {
  const path = join(folder, 'bench.plan.json');
  writeFileSync(path, JSON.stringify(plan));
  return path;
}

test('a bench whose every row is right is kept as meant', () => {
  const plan = demoPlan('greenhouse');
  const path = written(plan);
  expect(keep(path)).toMatchObject({ code: 0, said: expect.stringMatching(/\nKept as meant, in the file\.$/) });
  expect(JSON.parse(readFileSync(path, 'utf8')).meant.wires).toEqual(plan?.wires);
});
test('one with a wrong row, and a demonstration, are left as they are', () => {
  const path = written(demoPlan('greenhouse-dark-heater'));
  expect(keep(path).code).toBe(1);
  expect(JSON.parse(readFileSync(path, 'utf8')).meant).toBeUndefined();
  expect(keep('greenhouse')).toMatchObject({ code: 2, said: expect.stringContaining('kept as meant') });
});
