/** The mutation runner's own parts: what it plants, what it leaves alone, the seeded choice, and the marks that tell which code has run. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { armAround, armsOf, withMarks } from '../mutate/arms.ts';
import { mutantsOf, shuffled } from '../mutate/candidates.ts';
import { testsFor } from '../mutate/choice.ts';
import { EQUIVALENTS, equivalentOf } from '../mutate/equivalents.ts';
import { mutated } from '../mutate/mutant.ts';
import { readOptions } from '../mutate/options.ts';
import type { FileSurvey } from '../mutate/protocol.ts';
import { withSwitches } from '../mutate/switches.ts';

const planted = (text: string): string[] => mutantsOf('a.ts', 'room', text).map((m) => mutated(text, m));

describe('what is planted', () => {
  test.each<[string, string[]]>([
    ['x = a < b;', [';', 'x = a <= b;', 'x = a >= b;']],
    ['const x = a && b;', ['const x = a || b;']],
    ['const x = 3;', ['const x = 4;', 'const x = 2;']],
    ['const x = 1e-8;', ['const x = 1.25e-8;', 'const x = 8e-9;']],
    ['const x = Math.min(a, b);', ['const x = Math.max(a, b);']],
    ['const x = a[i];', ['const x = a[(i) + 1];']],
    ['const x = !a;', ['const x = a;']],
    ['const x = a.filter(f).map(g);', ['const x = a.map(g);']],
    ["const x = 'low';", ["const x = '';"]],
    ['const x = a ?? b;', ['const x = (b);']],
    ['const f = (): void => { g(); };', ['const f = (): void => { return; g(); };', 'const f = (): void => { ; };']],
  ])('%s', (text, expected) => {
    expect(planted(text)).toEqual(expected);
  });

  test.each(["import { a } from './a.ts';", "type A = 'low' | 3;", "throw new Error('never' + 1);", "const x = { 'a-b': y };"])(
    'nothing in %s',
    (text) => {
      expect(planted(text)).toEqual([]);
    },
  );
});

describe('the sample', () => {
  const room = (name: string, n: number) => [name, mutantsOf('a.ts', name, 'x(1, 2, 3, 4, 5, 6, 7, 8, 9);').slice(0, n)] as const;
  const rooms = new Map([room('small', 4), room('large', 12)]);

  test('takes each room by its share, and all of it is the sample', () => {
    const parts = [...shuffled(rooms, 7, 8).values()];
    expect(parts.map((p) => p.wanted)).toEqual([2, 6]);
    expect(parts.map((p) => p.order.length)).toEqual([4, 12]);
  });

  test('is the same for the same seed, and another for another', () => {
    const order = (seed: number) => JSON.stringify([...shuffled(rooms, seed, 8)]);
    expect(order(7)).toBe(order(7));
    expect(order(7)).not.toBe(order(8));
  });
});

describe('marks', () => {
  const text = 'const f = (a: number): number => (a > 1 ? g(a) : 2);\nfunction g(b: number) { if (b > 5) { return 7; } return b; }\n';
  const arms = armsOf('a.ts', text);
  const armOf = (piece: string) => armAround(arms, { path: 'a.ts', start: text.indexOf(piece), end: text.indexOf(piece) + piece.length });

  test('each arm has one, and what it does is as before', () => {
    const js = withMarks('a.ts', text, 10).replace(/: number/g, '');
    const run = (call: string): [unknown, number[]] => {
      const hits = new Uint8Array(20);
      const value: unknown = new Function('globalThis', `${js}; return ${call};`)({ hits });
      return [value, [...hits.keys()].filter((i) => hits[i] === 1)];
    };
    expect(arms).toHaveLength(5);
    expect(run('f(1)')).toEqual([2, [10, 12]]);
    expect(run('f(3)')).toEqual([3, [10, 11, 13]]);
    expect(run('f(6)')).toEqual([7, [10, 11, 13, 14]]);
  });

  test('a place belongs to the innermost arm around it', () => {
    expect([armOf('a > 1'), armOf('g(a)'), armOf('b > 5'), armOf('return 7'), armOf('const f')]).toEqual([0, 1, 3, 4, undefined]);
  });

  test('a mutant is shown to the tests that run its arm, the quick ones first, and the slowest is left out when time is short', () => {
    const [mutant] = mutantsOf('a.ts', 'room', text).filter((m) => m.before === '7');
    const tests = [
      { name: 'slow', passed: true, ms: 900, arms: [3, 4] },
      { name: 'elsewhere', passed: true, ms: 1, arms: [3] },
      { name: 'quick', passed: true, ms: 20, arms: [4] },
      { name: 'fails anyway', passed: false, ms: 20, arms: [4] },
    ];
    const file: FileSurvey = { file: 'a.test.ts', loading: [], fixed: [], loaded: ['a.ts'], tests };
    const survey = { files: [file], arms: new Map([['a.ts', { first: 0, arms }]]) };
    expect(testsFor(mutant!, survey, 5000)).toEqual({
      choices: [
        { file: 'a.test.ts', tests: [2] },
        { file: 'a.test.ts', tests: [0] },
      ],
      tests: 2,
      leftOut: 0,
    });
    expect(testsFor(mutant!, survey, 700)).toMatchObject({ choices: [{ file: 'a.test.ts', tests: [2] }], leftOut: 1 });
    const noticed = new Map([['a.test.ts 0', 3]]);
    expect(testsFor(mutant!, survey, 5000, noticed).choices.map((c) => c.tests)).toEqual([[0], [2]]);
  });
});

describe('all mutants at once behind switches', () => {
  const text = `// what f is for
function f(a, b) {
  const list = [a, 7];
  let sum = 0;
  for (const x of list.slice(0)) {
    if (!x) continue;
    sum += x > 2 && b?.some((y) => y.z[0] > 5) ? x * 2 : 1;
  }
  [list[0], list[1]] = [list[1], list[0]];
  list[1] = sum;
  list[0]++;
  f.calls.at[0]('call');
  const { [\`k\${a}\`]: named = 3, 2: other = 'none' } = { k1: b?.at(0)?.z.at(-1) };
  return JSON.stringify([list, named, other, Math.max(a, sum)]);
}`;
  const mutants = mutantsOf('a.ts', 'room', text);
  const results = (js: string, globals: object): string[] =>
    [
      [0, undefined],
      [1, [{ z: [6, 8] }]],
      [3, [{ z: [5] }]],
    ].map((values) => {
      const said: string[] = [];
      const calls = {
        at: [
          function (this: unknown, x: unknown) {
            said.push(`${this === calls.at} ${String(x)}`);
          },
        ],
      };
      try {
        const f = new Function('globalThis', `${js}; return f;`)(globals);
        f.calls = calls;
        return `${f(...values)} ${said}`;
      } catch (e) {
        return `${e instanceof Error && e.constructor.name}`;
      }
    });
  const all = withSwitches(
    'a.ts',
    text,
    mutants.map((mutant, id) => ({ mutant, id })),
  );

  test('with none in force the text does what it did', () => {
    expect(withSwitches('a.ts', text, [])).toBe(text);
    expect(results(all, {})).toEqual(results(text, {}));
  });

  test('one that puts back what was there does nothing, in force or not', () => {
    const same = withSwitches(
      'a.ts',
      text,
      mutants.map((m, id) => ({ mutant: { ...m, after: m.before }, id })),
    );
    for (const id of mutants.keys()) expect(results(same, { mutant: id })).toEqual(results(text, {}));
  });

  test('each in force does what it does planted alone', () => {
    expect(mutants.length).toBeGreaterThan(50);
    for (const [id, m] of mutants.entries())
      expect(results(all, { mutant: id }), `${m.line}: ${m.mutator} ${m.before}`).toEqual(results(mutated(text, m), {}));
  });
});

test('each mutant that is listed as equivalent can still be planted, in one place', () => {
  const planted = (path: string) => {
    const text = readFileSync(path, 'utf8');
    return mutantsOf(path, '', text).map((m) => equivalentOf(m, text));
  };
  const found = [...new Set(EQUIVALENTS.map((e) => e.path))].flatMap(planted).filter((e) => e !== undefined);
  for (const e of EQUIVALENTS)
    expect(
      found.filter((f) => f === e),
      e.line,
    ).toHaveLength(1);
});

test('an option that makes no sense is refused', () => {
  expect(readOptions(['--seed', '7', '--room', 'run'], ['run'])).toMatchObject({ seed: 7, sample: 600, rooms: ['run'], least: 85 });
  expect(() => readOptions(['--sample', 'many'], [])).toThrow('--sample is many: a whole number from 1 is expected.');
  expect(() => readOptions(['--room', 'cellar'], ['run'])).toThrow('There is no room "cellar": the rooms are run.');
  expect(() => readOptions(['--sed', '7'], [])).toThrow();
});
