/** `lampwright check` on benches with a truth table: what it prints of the rows, and its exit code. */
import { expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';

function run(...args: string[]) {
  const out: string[] = [];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => out.push(t) });
  return { code, out: out.join('\n') };
}

test('every row right is said, and is exit code 0', () => {
  expect(run('check', 'ferry-ramp')).toEqual({
    code: 0,
    out: 'PS1 is off. All of this was tried with it on.\nNo problems found.\nAll 128 rows of the table are right.',
  });
});

test('a memory that a button is to write is no fault', () => {
  expect(run('check', 'greenhouse-blank').code).toBe(0);
});

test('an LED that does not show its rows is a fault', () => {
  const { code, out } = run('check', 'greenhouse-dark-mister');
  expect(code).toBe(1);
  expect(out).toMatch(
    /^Fault: \d+ of 32 rows of the table are wrong: .*LED3 \(mister\) should be lit and is dark.*\[table\/rows-wrong\]$/m,
  );
});
