/** `lampwright record`: what was watched is in the files that it writes. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';
import { readVcd } from '../support/vcd.ts';

const folder = mkdtempSync(join(tmpdir(), 'record-'));
afterAll(() => rmSync(folder, { recursive: true }));
const [vcd, csv] = [join(folder, 'write.vcd'), join(folder, 'write.csv')];
const WORDS = ['PS1=on', 'wait:10ms', 'S3=on', 'S2=10101010', 'press:S4', 'wait:30ms'];

function run(...args: string[]) {
  const out: string[] = [];
  const refused: string[] = [];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}

test('writes a byte by hand and records the write pulse, what goes before it and 20 ms after it', () => {
  const options = [
    '--watch',
    'U1./WE,U1.D,U1',
    '--trigger',
    'U1./WE falls',
    '--before',
    '1us',
    '--after',
    '20ms',
    '--vcd',
    vcd,
    '--csv',
    csv,
  ];
  const { code, out } = run('record', 'greenhouse-blank', ...WORDS, ...options);
  expect(code).toBe(0);
  expect(out).toMatch(/^Recorded from .* trigger at /);
  const dump = readVcd(readFileSync(vcd, 'utf8'));
  const falls = dump.signals.get('U1.WE_n')?.findIndex((c) => c.value === '0') ?? -1;
  expect(dump.signals.get('U1.WE_n')?.[falls]?.tick).toBeCloseTo(1e6, -1);
  expect(dump.signals.get('U1.D')?.some((c) => c.value === '01010101')).toBe(true);
  expect(readFileSync(vcd, 'utf8').trimEnd().split('\n').at(-1)).toMatch(/^#2000\d{7}$/);
  const [head = '', ...lines] = readFileSync(csv, 'utf8').trimEnd().split('\n');
  expect(head).toContain('U1./WE [V]');
  expect(lines.every((l) => l.split(',').length === head.split(',').length)).toBe(true);
});

test('prints the bench as it was at a time: the memory was storing a millisecond after the pulse, and is not any more', () => {
  const at = (time: string) => run('record', 'greenhouse-blank', ...WORDS, '--watch', 'U1./WE', '--show', time, '--json').out;
  const doing = (text: string) => JSON.parse(text).shown.reading.chips.find((c: { part: string }) => c.part === 'U1').doing;
  const pulse = JSON.parse(
    run('record', 'greenhouse-blank', ...WORDS, '--watch', 'U1./WE', '--trigger', 'U1./WE falls', '--json').out,
  ).triggered;
  expect(doing(at(`${pulse + 1e-3}s`))).toBe('storing');
  expect(doing(at('1s'))).not.toBe('storing');
});

test.each([
  [['--watch', 'U9'], 'There is nothing called U9 to record.'],
  [[], 'Name what is recorded'],
  [['--watch', 'U1', '--trigger', 'U1 sings'], 'is nothing that a record waits for'],
  [['--watch', 'U1', '--trigger', 'U1./WE low longer than 1s'], 'has not happened'],
  [['--watch', 'U1', '--after', 'soon'], 'soon'],
])('%j is refused with a sentence', (options, says) => {
  const { code, refused } = run('record', 'greenhouse-blank', 'PS1=on', ...options);
  expect(code).toBe(2);
  expect(refused).toContain(says);
});
