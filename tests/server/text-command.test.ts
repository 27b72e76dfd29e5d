/** `lampwright text` and `plan`: a plan in the text notation and back. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';
import { demoPlan } from '../../shared/demo-plans.ts';

const folder = mkdtempSync(join(tmpdir(), 'text-'));
afterAll(() => rmSync(folder, { recursive: true }));
const file = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

function run(...args: string[]) {
  const out: string[] = [];
  const refused: string[] = [];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}

describe('text and plan', () => {
  test('there and back without loss, and any command takes the text', () => {
    const text = run('text', 'greenhouse-blank');
    expect(text.code).toBe(0);
    expect(text.out).toMatch(/^resistor R9 270 from B2:b3 to B2:\+a3 called "pull-up"$/m);
    const path = file('watch.plan.txt', text.out);
    expect(JSON.parse(run('plan', path).out)).toEqual(demoPlan('greenhouse-blank'));
    expect(run('check', path)).toEqual(run('check', 'greenhouse-blank'));
  });

  test('a text that cannot be read is refused with its line', () => {
    const { code, refused } = run('check', file('bad.plan.txt', 'board-63 B1\nresistor R1 from a1 to a5 4k7\n'));
    expect(code).toBe(2);
    expect(refused).toContain('bad.plan.txt: Line 2: "4k7" does not belong there');
  });
});
