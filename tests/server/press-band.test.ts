/** The word `band:` of `press`: a reading, typical and least to most, in a sentence, as data, and refused. */
import { expect, test } from 'vitest';
import { runCommand } from '../../server/cli/run.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { readingBand, siFormat } from '../../sim-core/index.ts';

function run(...args: string[]) {
  const [out, refused]: [string[], string[]] = [[], []];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}
const on = { ...demoPlan('greenhouse')!, switches: { ...demoPlan('greenhouse')!.switches, PS1: [true] } };
const found = readingBand(on, 'LED8');
if (!found.ok) throw new Error(found.failure.says);
const band = found.value;

test('in a sentence, of the bench as the words before have left it', () => {
  const figures = [band.typical, band.least, band.most].map((v) => siFormat(v, 'A'));
  expect(run('press', 'greenhouse', 'PS1=on', 'band:LED8')).toEqual({
    code: 0,
    refused: '',
    out: `PS1=on\nband:LED8\nLED8: ${figures[0]} typical, ${figures[1]} to ${figures[2]} over specimens. Outputs go from guaranteed to typical: no data sheet says how strong the strongest is.`,
  });
  expect(run('press', 'greenhouse', 'band:PS1').out).toBe('band:PS1\nPS1: 0 A: no tolerance of a part moves it.');
});

test('as data', () => {
  expect(JSON.parse(run('press', 'greenhouse', 'PS1=on', 'band:LED8', '--json').out)[1]).toEqual({
    step: 'band:LED8',
    band: { of: 'LED8', ...band },
  });
});

test('what cannot be read is refused with its word', () => {
  expect(run('press', 'greenhouse', 'band:LED99')).toMatchObject({
    code: 2,
    refused:
      'Word 1, "band:LED99": There is nothing called LED99 to read. Name a meter, an LED, a supply, a pin such as U1.9 or a hole such as a12.',
  });
});
