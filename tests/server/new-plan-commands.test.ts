/** `lampwright plant` and `lampwright tidy` on the command line: what they write, and what they refuse. */
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

test('writes the same circuit with wiring that crosses less, still proven, and no file twice', () => {
  const out = join(folder, 'tidy.plan.json');
  const { code, out: said } = run('tidy', 'greenhouse', '--out', out);
  expect(code).toBe(0);
  const [, before, now] = /Crossings: (\d+) before, (\d+) now;/.exec(said) ?? [];
  expect(Number(now)).toBeLessThan(Number(before) / 2);
  expect(run('prove', out).code).toBe(0);
  expect(run('tidy', 'greenhouse', '--out', out)).toMatchObject({ code: 2, refused: expect.stringContaining('is not overwritten') });
});

test.each([
  ['plant', '--seed', 'x', 'a whole number'],
  ['plant', '--level', 'harder', 'hard'],
  ['tidy', '--seed', '1.5', 'a whole number'],
])('%s refuses %s %s', (command, option, value, says) => {
  expect(run(command, 'greenhouse', option, value)).toMatchObject({ code: 2, refused: expect.stringContaining(says) });
});
