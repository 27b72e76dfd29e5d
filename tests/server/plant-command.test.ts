/** `lampwright plant` on the command line: what it writes, and what it refuses. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lampwright-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function run(...args: string[]) {
  const out: string[] = [];
  const refused: string[] = [];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}

test('writes a bench with a mistake that its proof shows, and no file twice', () => {
  const out = join(folder, 'riddle.plan.json');
  const said = run('plant', 'greenhouse', '--seed', '3', '--level', 'medium', '--out', out);
  expect(said).toEqual({ code: 0, out: `${out}: one medium mistake is hidden on this bench.`, refused: '' });
  expect(run('prove', out).code).toBe(1);
  expect(run('plant', 'greenhouse', '--out', out)).toMatchObject({ code: 2, refused: expect.stringContaining('is not overwritten') });
});

test.each([
  ['--seed', 'x', 'a whole number'],
  ['--level', 'harder', 'hard'],
])('refuses %s %s', (option, value, says) => {
  expect(run('plant', 'greenhouse', option, value)).toMatchObject({ code: 2, refused: expect.stringContaining(says) });
});
