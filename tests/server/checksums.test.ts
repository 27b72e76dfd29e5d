/** `checksums`: what each memory of a plan holds, and a read-out, summed as a programmer shows it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { checksumsOf } from '../../sim-core/index.ts';
import { ledPlan } from '../support/plans.ts';

const folder = mkdtempSync(join(tmpdir(), 'lampwright-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}
function run(...args: string[]) {
  const [out, refused]: [string[], string[]] = [[], []];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}

describe('checksums', () => {
  test('of what the memory holds, and of a read-out of "123456789": 29B1 and CBF43926', () => {
    const { code, out } = run('checksums', 'greenhouse', '--read-out', file('digits.bin', '123456789'));
    expect(code).toBe(0);
    expect(out).toMatch(
      /^ +bytes +sum +CRC-16 +CRC-32\nU1 +2048 +[0-9A-F]{4} +[0-9A-F]{4} +[0-9A-F]{8}\n.*digits\.bin +9 +01DD +29B1 +CBF43926$/,
    );
  });

  test('as data: the same figures as those of the bytes themselves', () => {
    const { out } = run('checksums', 'greenhouse', '--json');
    const bytes = new Uint8Array(2048).fill(0xff);
    for (const [at, row] of Object.entries(demoPlan('greenhouse')!.memories.U1!))
      for (const [i, byte] of (row.match(/../g) ?? []).entries()) bytes[Number.parseInt(at, 16) + i] = Number.parseInt(byte, 16);
    expect(JSON.parse(out)).toEqual([{ of: 'U1', bytes: 2048, ...checksumsOf(bytes) }]);
  });

  test('an erased memory of 2K: the sum of 2 048 times FF, cut to 16 bits, is F800', () => {
    expect(JSON.parse(run('checksums', 'greenhouse-blank', '--json').out)).toMatchObject([{ of: 'U1', sum: 'F800' }]);
  });

  test('a bench without a memory, a text of records and a file that is not there', () => {
    expect(run('checksums', file('led.plan.json', JSON.stringify(ledPlan(330)))).out).toBe('There is no memory on this bench.');
    for (const text of [':00000001FF\n', 'S9030000FC\n']) {
      const refused = run('checksums', 'greenhouse', '--read-out', file('records.bin', text));
      expect(refused.code).toBe(2);
      expect(refused.refused).toMatch(/records\.bin is a text of records, Intel HEX or S-record\. Save the read-out as a binary file\.$/);
    }
    expect(run('checksums', 'greenhouse', '--read-out', 'nowhere.bin')).toMatchObject({
      code: 2,
      refused: 'There is no file nowhere.bin.',
    });
  });
});
