/** The launcher as a shell runs it: it builds the tool by itself, passes arguments and exit codes on, and is a file that can be run. */
import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { bin } from '../../package.json' with { type: 'json' };
import { ROOT } from '../support/sources.ts';

const launcher = join(ROOT, bin.lampwright);
const run = (...args: string[]) => spawnSync(launcher, args, { encoding: 'utf8', env: { ...process.env, NODE_ENV: 'production' } });

test('is a file that can be run', () => {
  expect(statSync(launcher).mode & 0o111).toBe(0o111);
});

test('prints, refuses and leaves with the exit code of the command', () => {
  const good = run('plan', 'greenhouse');
  expect([good.status, good.stderr]).toEqual([0, '']);
  expect(JSON.parse(good.stdout)).toMatchObject({ format: 'lampwright-plan' });
  expect(run('build', 'ferry-ramp', '--activelow', 'G')).toMatchObject({
    status: 2,
    stdout: '',
    stderr: '--activelow is not an option of build. Did you mean --active-low?\n',
  });
}, 120_000);
