/** The command line, called by its main function: what it prints, what it refuses, and the exit code that a shell sees. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SHELL_COMMANDS } from '../../server/cli/commands.ts';
import { runCommand } from '../../server/cli/run.ts';
import { NOTATION } from '../../server/cli/script.ts';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { readBenchText } from '../../sim-core/index.ts';
import { MEMORY } from '../support/bench.ts';
import { ledPlan } from '../support/plans.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lampwright-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const planFile = (plan: Plan) => file(`${plan.title.replaceAll(' ', '-')}-${JSON.stringify(plan).length}.plan.json`, JSON.stringify(plan));

function run(...args: string[]) {
  const out: string[] = [];
  const refused: string[] = [];
  const code = runCommand(args, { out: (t) => out.push(t), refuse: (t) => refused.push(t) });
  return { code, out: out.join('\n'), refused: refused.join('\n') };
}

describe('help', () => {
  test.each([[[]], [['help']], [['--help']]])('%j', (args) => {
    const { code, out } = run(...args);
    expect(code).toBe(0);
    for (const word of [...SHELL_COMMANDS.map((c) => `${c.name} ${c.takes}`), '--json', ...DEMO_PLANS.map((d) => d.id)])
      expect(out).toContain(word);
  });

  test.each(SHELL_COMMANDS.map((c) => [c.name, c] as const))('of %s: its options, asked for in either way', (name, { options }) => {
    const { code, out } = run('help', name);
    expect(code).toBe(0);
    for (const option of [...Object.keys(options), 'json', 'help']) expect(out).toContain(`  --${option}`);
    expect(run(name, 'greenhouse', '--help')).toEqual(run('help', name));
  });

  test('of press: every word', () => {
    for (const [word] of NOTATION) expect(run('help', 'press').out).toContain(word);
  });

  test('--version', () => {
    expect(run('--version')).toMatchObject({ code: 0, out: expect.stringMatching(/^\d+\.\d+\.\d+$/) });
  });
});

describe('check', () => {
  test('a good bench: exit code 0', () => {
    expect(run('check', planFile(ledPlan(330))).code).toBe(0);
  });

  test('an LED that gets far too much: exit code 1 and a sentence with figure, limit and cure', () => {
    const { code, out } = run('check', planFile(ledPlan(10)));
    expect(code).toBe(1);
    expect(out).toMatch(/^Damage risk: .*LED1.* mA.*30 mA.*\[led\/over-current\]$/m);
  });

  test('as data', () => {
    const { out } = run('check', planFile(ledPlan(10)), '--json');
    expect(JSON.parse(out).findings).toContainEqual(
      expect.objectContaining({ code: 'led/over-current', severity: 'damage-risk', says: expect.stringContaining('LED1') }),
    );
  });
});

describe('margins', () => {
  test('an LED at a supply: both ends of its current with figure, limit and what matters most; exit code 0', () => {
    const { code, out } = run('margins', planFile(ledPlan(330)));
    expect(code).toBe(0);
    expect(out).toMatch(
      /^holds: LED1: current [\d.]+ mA in the worst case \(limit: looks lit from 1 mA; nominal: [\d.]+ mA\)\. The largest contribution is .*: \d+ %\.$/m,
    );
    expect(out).toMatch(/^holds: LED1: current [\d.]+ mA in the worst case \(limit: at most 30 mA;/m);
  });

  test('an LED that is only just within its limit as drawn: exit code 1, and what fails stands first', () => {
    const { code, out } = run('margins', planFile(ledPlan(110)), '--method', 'worst');
    expect(code).toBe(1);
    expect(out).toMatch(/^fails: LED1: current 34.8 mA in the worst case/);
  });

  test('by chance, the same for the same seed', () => {
    const random = (seed: string) => run('margins', planFile(ledPlan(330)), '--method', 'random', '--seed', seed);
    expect(random('7').out).toBe(random('7').out);
    expect(random('7').out).not.toBe(random('8').out);
    expect(random('7').out).toContain('59 benches drawn at random from seed 7');
  });

  test('as data', () => {
    const { out } = run('margins', planFile(ledPlan(330)), '--json', '--method', 'rss');
    expect(JSON.parse(out)).toMatchObject({ method: 'rss', margins: [{ what: 'led-lit', holds: true }, { what: 'led-current' }] });
  });

  test.each([
    [['--method', 'best'], '--method cannot be "best". It takes worst, rss, random.'],
    [['--method', 'randm'], '--method cannot be "randm". Did you mean random?'],
    [['--method'], '--method needs a value: --method worst|rss|random.'],
    [['--method', 'random', '--seed', 'x'], 'whole number'],
    [['--seed', '3'], '--seed means nothing without --method random'],
    [['--seed', '3', '--method', 'rss'], '--seed means nothing without --method random'],
    [['twice'], 'margins takes one PLAN and options. "twice" is too much.'],
    [['--slow'], '--slow is not an option of margins. It takes --method, --seed, --json, --help.'],
    [['--method', 'rss', '--method', 'worst'], '--method is given twice. Leave one out.'],
    [['--json=yes'], '--json takes no value. Leave "yes" out.'],
    [['-s', '3'], '-s is not an option of margins.'],
  ])('%j is refused with exit code 2', (words, says) => {
    const { code, refused } = run('margins', planFile(ledPlan(330)), ...words);
    expect(code).toBe(2);
    expect(refused).toContain(says);
  });
});

describe('sweep', () => {
  const watch = demoPlan('greenhouse')!;
  const { inputs, rows } = watch.wanted!;

  test('goes through every setting: address, byte and LEDs are what the plan wants', () => {
    const { code, out } = run('sweep', 'greenhouse', '--json');
    const swept = JSON.parse(out);
    expect(code).toBe(0);
    expect(swept.rows).toHaveLength(2 ** inputs.length);
    for (const [i, row] of swept.rows.entries()) {
      expect(row.row).toBe(i);
      expect(Number.parseInt(row.memories[0].byte, 16)).toBe(rows[i]);
      const lit = row.leds.map((l: { brightness: string }) => l.brightness === 'lit');
      expect(lit, `row ${i}`).toEqual(Array.from({ length: 8 }, (_, bit) => ((rows[i]! >> bit) & 1) === 1));
    }
  });

  test('in words: a line that says which switch is which, a head, a line a setting', () => {
    const lines = run('sweep', 'greenhouse').out.split('\n');
    expect(lines).toHaveLength(2 + 2 ** inputs.length);
    expect(lines[0]).toContain('hot is S1.1, on U1.A0');
    expect(lines[1]).toMatch(/^hot +damp +dark +windy +raining +address +byte +vent /);
    expect(lines[2 + 5]).toMatch(/^1 +0 +1 +0 +0 +005 +[0-9A-F]{2} +lit \d\.\d+ mA +dark /);
  });

  test('a bench without such switches is refused', () => {
    const { code, refused } = run('sweep', planFile(ledPlan(330)));
    expect([code, refused]).toEqual([2, expect.stringMatching(/^No switch of this bench sets an input of a memory/)]);
  });
});

describe('press', () => {
  const led = (out: string) => JSON.parse(out).at(-1).reading.leds[0];

  test('a supply that is switched on lights the LED, and off darkens it', () => {
    const plan = planFile(ledPlan(330, false));
    expect(led(run('press', plan, 'read', '--json').out)).toMatchObject({ led: 'LED1', brightness: 'dark' });
    expect(led(run('press', plan, 'PS1=on', 'read', '--json').out)).toMatchObject({ led: 'LED1', brightness: 'lit' });
    expect(led(run('press', plan, 'PS1=on', 'PS1=off', '--json').out)).toMatchObject({ led: 'LED1', brightness: 'dark' });
  });

  test('a pole of a switch is set by its name as by its number', () => {
    const set = (word: string) => run('press', 'greenhouse', 'PS1=on', word, 'read', '--json').out;
    const without = (out: string, word: string) => out.replaceAll(`"${word}"`, '""');
    expect(without(set('S1.windy=on'), 'S1.windy=on')).toBe(without(set('S1.4=on'), 'S1.4=on'));
    expect(run('press', 'greenhouse', 'S1.widny=on').refused).toBe(
      'Word 1, "S1.widny=on": S1 has no pole called widny. Did you mean windy?',
    );
    expect(run('press', 'greenhouse', 'S1.cold=on').refused).toBe(
      'Word 1, "S1.cold=on": S1 has no pole called cold. It has hot, damp, dark, windy and raining.',
    );
    expect(run('press', planFile(ledPlan(330)), 'PS1.hot=on').refused).toBe(
      'Word 1, "PS1.hot=on": PS1 has no pole called hot. Give its number.',
    );
  });

  test('in words', () => {
    const { code, out } = run('press', planFile(ledPlan(330, false)), 'PS1=on', 'wait:2ms', 'read');
    expect(code).toBe(0);
    expect(out).toMatch(/^PS1=on\nwait:2ms\nread\nafter .*s\nLED1 .*lit .*mA/);
  });

  test('a wire moved to an empty row darkens the LED', () => {
    expect(led(run('press', planFile(ledPlan(330)), 'move:W2.from=c20', '--json').out)).toMatchObject({ brightness: 'dark' });
  });

  test('why an LED is dark', () => {
    const { code, out } = run('press', planFile(ledPlan(330, false)), 'why:LED1');
    expect(code).toBe(0);
    expect(out).toMatch(/^why:LED1\n.*LED1.*dark/);
  });

  test('a false belief about an LED is corrected', () => {
    expect(run('press', planFile(ledPlan(330)), 'why:LED1=dark').out).toMatch(/^why:LED1=dark\nIt is not dark\. .*LED1.* is lit/);
  });

  test('the findings of the moment', () => {
    const { out } = run('press', planFile(ledPlan(10)), 'findings', '--json');
    expect(JSON.parse(out)[0].findings.map((f: { code: string }) => f.code)).toContain('led/over-current');
  });

  describe('a window held under light', () => {
    const window = `${MEMORY.replace('eeprom-2kx8', 'uv-eprom-2kx8')}
      wire LA from a18 to -a17
      wire LB from a19 to -a18
      wire LO from i16 to -j20
      wire LV from i15 to +j20
      memory U1 000 00`;
    const plan = readBenchText(window);
    if (!plan.ok) throw new Error(plan.failure.says);
    const byteAfter = (...words: string[]) =>
      JSON.parse(run('press', planFile(plan.value), ...words, 'read', '--json').out).at(-1).reading.chips[0].data;

    test('erases after the time of its sheet under an eraser, and half as long under twice the light', () => {
      expect(byteAfter()).toBe('00');
      expect(byteAfter('light:U1=125s')).toBe('00');
      expect(byteAfter('light:U1=1250s')).toBe('FF');
      expect(byteAfter('light:U1=625s@24mW/cm²')).toBe('FF');
      expect(byteAfter('light:U1=62@24m')).toBe('00');
    });
    test('keeps what it holds under a label', () => {
      expect(byteAfter('light:U1=1250s,covered')).toBe('00');
    });
    test.each<[string, RegExp]>([
      ['light:PS1=10s', /^Word 1, "light:PS1=10s": PS1 has no window for light\./],
      ['light:U1=2V', /^Word 1, "light:U1=2V": 2V is in V, but s is asked for here\.$/],
      ['light:U1=-2s', /Light needs a time and a strength of 0 or more/],
    ])('%s is refused', (word, says) => {
      expect(run('press', planFile(plan.value), word).refused).toMatch(says);
    });
  });

  test.each<[string, RegExp]>([
    ['jump:SB1', /^Word 1, "jump:SB1" is not a word of press\. Write one of PS1=on, /],
    ['relase:SB1', /^Word 1, "relase:SB1" is not a word of press\. Did you mean release:\?$/],
    ['let-go:SB1', /^Word 1, "let-go:SB1" is not a word of press\. Write one of /],
    ['wait:2 V', /^Word 1, "wait:2 V": 2 V is in V, but s is asked for here\.$/],
    ['wait:-1s', /^Word 1, "wait:-1s": wait from 0 to 3600 s\.$/],
    ['PS1.0=on', /^Word 1, "PS1\.0=on": poles are counted from 1\.$/],
    ['S9=on', /^Word 1, "S9=on": S9 has no switch 1 that a hand could move on this bench\.$/],
    ['move:W9.to=a1', /^Word 1, "move:W9\.to=a1": There is no wire W9 on this bench; it has W1, W2\.$/],
    ['move:W1.to=a99', /^Word 1, "move:W1\.to=a99": .*a99 is off the board/],
    ['why:D9', /^Word 1, "why:D9": .*D9.*\.$/],
  ])('%s is refused with its place', (word, says) => {
    const { code, refused, out } = run('press', planFile(ledPlan(330)), word);
    expect(code).toBe(2);
    expect(refused).toMatch(says);
    expect(out).toBe('');
  });
});

describe('build and prove', () => {
  const table = () => file('xor.csv', 'a,b,,either,both\n0,0,,0,0\n0,1,,1,0\n1,0,,1,0\n1,1,,0,1\n');
  const build = (out: string, ...words: string[]) => run('build', table(), '--memory', 'eeprom-2kx8', '--out', join(folder, out), ...words);

  test('a table becomes a plan file, whose rows are all right; a second time it is not overwritten', () => {
    const { code, out } = build('xor.plan.json', '--title', 'Either or both');
    expect(code).toBe(0);
    expect(out).toMatch(/xor\.plan\.json: \d+ parts, \d+ wires\. Every row of its table is proven on the simulated bench\./);
    const path = join(folder, 'xor.plan.json');
    expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ title: 'Either or both', memories: { U1: { '000': '00020201' } } });
    expect(run('prove', path)).toMatchObject({
      code: 0,
      out: '4 of 4 rows are right: 100 %.\nPS1 is off. All of this was tried with it on.',
    });
    expect(build('xor.plan.json')).toMatchObject({ code: 2, refused: expect.stringContaining('is not overwritten') });
  });

  test.each(['json', 'text'])('a proof is signed in the file, a plan as %s, holds until something is changed, and says so then', (form) => {
    build(`${form}.plan.json`);
    const json = join(folder, `${form}.plan.json`);
    const path = form === 'json' ? json : join(folder, `${form}.plan.txt`);
    if (form === 'text') writeFileSync(path, run('text', json).out);
    expect(run('prove', path, '--sign', 'A. Tester')).toMatchObject({
      code: 0,
      out: expect.stringMatching(
        /^4 of 4 rows are right: 100 %\.\nPS1 is off\. All of this was tried with it on\.\nSigned by A\. Tester on \d{4}-\d\d-\d\d, in the file\.$/,
      ),
    });
    expect(run('prove', path).out).toBe('4 of 4 rows are right: 100 %.\nPS1 is off. All of this was tried with it on.');
    const plan = JSON.parse(run('plan', path).out);
    expect(plan.proof).toMatchObject({ by: 'A. Tester', rows: 4 });
    const changed = file('changed.plan.json', JSON.stringify({ ...plan, memories: { U1: { '000': '00030201' } } }));
    expect(run('prove', changed).out).toMatch(
      /The signed proof of .* is older than the last change, or than this version\. Sign it again\.$/,
    );
    expect(run('prove', changed, '--sign', 'B').code).toBe(1);
    expect(JSON.parse(readFileSync(changed, 'utf8')).proof.by).toBe('A. Tester');
  });

  test('a byte that is wrong is told by its row and its LED; exit code 1', () => {
    build('wrong.plan.json');
    const path = join(folder, 'wrong.plan.json');
    const plan = JSON.parse(readFileSync(path, 'utf8'));
    writeFileSync(path, JSON.stringify({ ...plan, memories: { U1: { '000': '00030201' } } }));
    const { code, out } = run('prove', path);
    expect(code).toBe(1);
    expect(out).toBe(
      '3 of 4 rows are right: 75 %.\nPS1 is off. All of this was tried with it on.\nrow 1 (b): both should be dark and is lit',
    );
  });

  test.each<[string[], RegExp]>([
    [['build'], /^build needs a table: a file, or one of .*ferry-ramp/],
    [['build', 'nowhere.csv', '--memory', 'eeprom-2kx8'], /^There is no file nowhere\.csv, and no table of that name/],
    [['build', 'ferry-ramp'], /^build needs a memory: --memory and one of eeprom-2kx8, /],
    [['build', 'ferry-ramp', '--memory', 'moon'], /^--memory cannot be "moon"\. It takes eeprom-2kx8, /],
    [
      ['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--show', 'neon'],
      /^--show cannot be "neon"\. It takes leds, 7-segment, bar-graph, loads\.$/,
    ],
    [['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--arrange', 'heap'], /^--arrange cannot be "heap"\. It takes row, cell, ring\.$/],
    [['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--arrange', 'cell'], /^A cell has 6 LEDs, and the table has 8 outputs\./],
    [['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--current', '5 V'], /^--current: 5 V is in V/],
    [['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--active-low', 'moon'], /^--active-low names moon, which is not an output/],
    [['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--by-hand', '--no-buffer'], /Add a buffer\.$/],
    [['build', 'ferry-ramp', '--memory'], /^--memory needs a value: --memory eeprom-2kx8\|/],
    [['build', 'ferry-ramp', '--memory', '--by-hand'], /^--memory needs a value: /],
    [
      ['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--activelow', 'G'],
      /^--activelow is not an option of build\. Did you mean --active-low\?$/,
    ],
    [
      ['build', 'ferry-ramp', '--memory', 'eeprom-2kx8', '--show', 'loads', '--arrange', 'ring'],
      /^--arrange is for single LEDs, not for --show loads/,
    ],
    [['build', 'ferry-rmp', '--memory', 'eeprom-2kx8'], /no table of that name\. Did you mean ferry-ramp\?$/],
    [
      ['prove', 'ferry-ramp', '--sign', 'A'],
      /is a demonstration, not a file that can be signed\. Save it first: lampwright plan ferry-ramp > /,
    ],
    [['prove', 'ferry-ramp', '--sign'], /^--sign needs a value: --sign NAME\.$/],
    [['prove', 'ferry-ramp', '--sign', 'x'.repeat(61)], /^The name has 61 letters, and 60 fit\. Shorten it\.$/],
    [['build', 'ferry-ramp', 'twice'], /"twice" is too much\.$/],
  ])('%j is refused with exit code 2', (args, says) => {
    const { code, refused } = run(...args);
    expect([code, refused]).toEqual([2, expect.stringMatching(says)]);
  });

  test('a plan without a table cannot be proven', () => {
    expect(run('prove', planFile(ledPlan(330)))).toMatchObject({ code: 2, refused: expect.stringContaining('no truth table') });
  });
});

describe('refusals', () => {
  test.each<[string[], RegExp]>([
    [
      ['dance', 'x'],
      /^dance is not a command\. There are check, sweep, margins, press, record, prove, repair, build, sheet, plant, tidy, checksums, text, plan, help\.$/,
    ],
    [['chek', 'x'], /^chek is not a command\. Did you mean check\?$/],
    [['help', 'pres'], /^pres is not a command\. Did you mean press\?$/],
    [['constructor', 'x'], /^constructor is not a command\./],
    [['check'], /^check needs a plan: a file, or one of .*\.$/],
    [
      ['check', 'nowhere.plan.json'],
      /^There is no file nowhere\.plan\.json, and no demonstration of that name\. The demonstrations are .*\.$/,
    ],
    [['check', tmpdir()], /cannot be read: /],
    [['check', DEMO_PLANS[0]?.id ?? '', 'more'], /^check takes one PLAN and options\. "more" is too much\.$/],
    [['check', DEMO_PLANS[0]?.id ?? '', '--loud'], /^--loud is not an option of check\. It takes --json, --help\.$/],
  ])('%j', (args, says) => {
    const { code, refused } = run(...args);
    expect([code, refused]).toEqual([2, expect.stringMatching(says)]);
  });

  test('a cut-off file, with its name and the place', () => {
    const path = file('cut.plan.json', JSON.stringify(ledPlan(330)).slice(0, 200));
    const { code, refused } = run('check', path);
    expect(code).toBe(2);
    expect(refused).toBe(
      `${path}: The plan is cut off: it ends at line 1, column 201 in the middle of something. Copy or save the whole file again.`,
    );
  });

  test('as data, on the same stream as answers', () => {
    const { code, out } = run('check', 'nowhere', '--json');
    expect(code).toBe(2);
    expect(JSON.parse(out)).toEqual({ code: 'file/not-found', at: 'nowhere', says: expect.stringContaining('There is no file nowhere') });
  });
});
