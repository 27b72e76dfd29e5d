/** Truth tables from rules: textbook notation, groups as numbers, don't-cares, and what is said when a rule cannot be read. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { needlessInputs, symmetricInputs } from '../../sim-core/logic/dependence.ts';
import { overriddenRules } from '../../sim-core/logic/expression/rule-override.ts';
import { NUMBER_TABLES } from '../../sim-core/logic/number-tables.ts';
import { tableOfRules, withRules } from '../../sim-core/logic/rules-table.ts';
import { cellAt, emptyTable, type TruthTable, tableOfWords, withCells, wrongBits } from '../../sim-core/logic/truth-table.ts';

const FOUR = ['A0', 'A1', 'A2', 'A3'];
const table = (outputs: readonly string[], rules: string, inputs: readonly string[] = FOUR): TruthTable => {
  const made = tableOfRules(inputs, outputs, rules);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
};
const says = (rules: string, outputs: readonly string[] = ['F', 'G'], inputs: readonly string[] = FOUR): string => {
  const made = tableOfRules(inputs, outputs, rules);
  return made.ok ? `${[...made.value.values]}` : made.failure.says;
};
const column = (f: (row: number) => number | boolean) => Array.from({ length: 16 }, (_, r) => Number(f(r)));
const bit = (row: number, i: number) => (row >> i) & 1;

describe('a rule', () => {
  test.each([
    ['A0 AND A1', (a: number, b: number) => a & b],
    ['A0 & A1', (a: number, b: number) => a & b],
    ['A0 · A1', (a: number, b: number) => a & b],
    ['A0 * A1', (a: number, b: number) => a & b],
    ['A0 ∧ A1', (a: number, b: number) => a & b],
    ['A0 A1', (a: number, b: number) => a & b],
    ['A0 OR A1', (a: number, b: number) => a | b],
    ['A0 | A1', (a: number, b: number) => a | b],
    ['A0 + A1', (a: number, b: number) => a | b],
    ['A0 ∨ A1', (a: number, b: number) => a | b],
    ['A0 XOR A1', (a: number, b: number) => a ^ b],
    ['A0 ^ A1', (a: number, b: number) => a ^ b],
    ['A0 ⊕ A1', (a: number, b: number) => a ^ b],
    ['A0 NAND A1', (a: number, b: number) => 1 - (a & b)],
    ['A0 NOR A1', (a: number, b: number) => 1 - (a | b)],
    ['A0 XNOR A1', (a: number, b: number) => 1 - (a ^ b)],
    ["A0'", (a: number) => 1 - a],
    ['!A0', (a: number) => 1 - a],
    ['~A0', (a: number) => 1 - a],
    ['¯A0', (a: number) => 1 - a],
    ['¬A0', (a: number) => 1 - a],
    ['/A0', (a: number) => 1 - a],
    ['NOT A0', (a: number) => 1 - a],
    ['A\u03050\u0305', (a: number) => 1 - a],
    ['A0 /A1', (a: number, b: number) => a & (1 - b)],
    ['A0 = A1', (a: number, b: number) => Number(a === b)],
    ['if A0 then A1 else NOT A1', (a: number, b: number) => (a ? b : 1 - b)],
  ])('%s is understood', (rule, f) => {
    expect([...table(['F'], `F = ${rule}`).values]).toEqual(column((r) => f(bit(r, 0), bit(r, 1))));
  });

  test('is bound as textbooks do: NOT, AND, XOR, OR, and + between bits as loosely as OR', () => {
    const f = (r: number) => (bit(r, 0) & bit(r, 1)) | (bit(r, 2) & (1 - bit(r, 3)));
    for (const rule of ["A0 A1 + A2 A3'", 'A0 & A1 + A2 & !A3', 'A0 AND A1 OR A2 AND NOT A3'])
      expect([...table(['F'], `F = ${rule}`).values]).toEqual(column(f));
    expect([...table(['F'], 'F = A0 ⊕ A1 + A2').values]).toEqual(column((r) => (bit(r, 0) ^ bit(r, 1)) | bit(r, 2)));
  });

  test('compares and reckons with groups of inputs', () => {
    expect([...table(['F'], 'T = A3..A0\nF = T > 9').values]).toEqual(column((r) => r > 9));
    expect([...table(['F'], 'F = 3 ≤ A3..A0 AND {A3, A2, A1, A0} < 12').values]).toEqual(column((r) => r >= 3 && r < 12));
    expect([...table(['S0', 'S1'], 'S1..S0 = (A3..A2 + A1..A0) mod 4').values]).toEqual(column((r) => ((r >> 2) + (r & 3)) % 4));
    expect([...table(['S0', 'S1'], 'S1..S0 = (A3..A2 − A1..A0) mod 4').values]).toEqual(column((r) => ((r >> 2) - (r & 3) + 4) % 4));
    expect([...table(['F'], 'F = (A3..A0)[2]').values]).toEqual(column((r) => bit(r, 2)));
  });

  test('may use outputs and named groups in any order of lines', () => {
    expect([...table(['F', 'G'], 'F = NOT G; G = odd AND A1\nodd = parity(N)\nN = A3..A0 # a comment').values]).toEqual(
      column((r) => {
        const g = bit(r, 1) & (bit(r, 0) ^ bit(r, 1) ^ bit(r, 2) ^ bit(r, 3));
        return (1 - g) | (g << 1);
      }),
    );
  });

  test('leaves rows free, and what it does not speak of as it was', () => {
    const digits = table(['a', 'b', 'c', 'd', 'e', 'f', 'g'], 'N = A3..A0\n{g..a} = digit(N)\nfree when N > 9');
    expect([...digits.dontCare]).toEqual(column((r) => (r > 9 ? 127 : 0)));
    expect(cellAt(digits, 12, 3)).toBe('-');
    expect(wrongBits(digits, 12, 0x55)).toBe(0);
    expect(wrongBits(digits, 8, 0x3f)).toBe(0x40);
    const changed = withRules(digits, 'a = A0');
    expect(changed.ok && [...changed.value.values].map((v) => v >> 1)).toEqual([...digits.values].map((v) => v >> 1));
  });

  test('may be a sum of thousands of products, and come with any ends of lines', () => {
    const products = Array.from({ length: 3000 }, (_, i) => (i % 2 ? "A0 A1'" : "A2 A3'"));
    const f = (r: number) => (bit(r, 0) & (1 - bit(r, 1))) | (bit(r, 2) & (1 - bit(r, 3)));
    expect([...table(['F'], `F = ${products.join(' + ')}`).values]).toEqual(column(f));
    for (const end of ['\n', '\r\n', '\r']) expect(says(['F = 1 # always', 'G = 0', ''].join(end))).toBe(`${Array(16).fill(1)}`);
  });

  test('takes names with spaces in quotation marks', () => {
    expect([...table(['grow light'], '"grow light" = dark AND NOT "door open"', ['dark', 'door open']).values]).toEqual([0, 1, 0, 0]);
  });
});

describe('what cannot be read is told with place and cure', () => {
  test.each([
    ['F = A0 AND a1', 'line 1, column 12: nothing is called a1. Write A1; small and capital letters differ.'],
    ['F = A0\nG = (A0 AND A1', 'line 2, column 15: The bracket ( of column 5 is still open, but found the end of the line. Put ")" there.'],
    ['F = A0; G = A0 A1 )', 'line 1, column 19: the rule should end before ")". Put an operator between, or remove it.'],
    ['F = A0 $ A1', 'line 1, column 8: "$" means nothing in a rule. Take it out, or use AND, OR, NOT, XOR, = < > and brackets.'],
    [
      'F = G\nG = H AND A0\nH = NOT F',
      'line 1: this is circular, F needs G needs H needs F. A memory has no past: give one of them by inputs only.',
    ],
    ['F = F', 'line 1: this is circular, F needs F. A memory has no past: give one of them by inputs only.'],
    ['F = A0\nF = A1', 'line 2: F has its value from line 1 already. Keep one of the two.'],
    ['N = A1 and A0', 'line 1: N is no output, and no other line speaks of it. Known names: F, G.'],
    ['A0 = A1', 'line 1: A0 is an input and cannot be given a value. Choose another name.'],
    ['F A0', 'line 1: a rule begins with a name and =, such as "F = A AND NOT B"; this one begins with "F".'],
    [
      'G..F = A3..A0',
      'line 1: G F hold 0 to 3, but in row 4 (A3=0 A2=1 A1=0 A0=0) the rule gives 4. Write ( … ) mod 4, or give it more outputs, or say "dontcare when …".',
    ],
    [
      'F = A0 + A3..A0 > 5',
      'line 1, column 17: beside >, + could be OR or arithmetic. Put brackets round what is compared, or write OR or plus.',
    ],
    ['F = 1 < A3..A0 < 5', 'line 1, column 16: two comparisons in a row. Write for example 3 < T AND T < 9, or add brackets.'],
    [
      'F = A3..A0 > 2 AND A1..A0',
      'line 1, column 16: AND joins one bit with a number. Compare the number, such as T > 0, or write times, plus or brackets.',
    ],
    [
      'F = sin(A0)',
      'line 1, column 5: no function is called sin. There are gray, fromgray, bcd, frombcd, excess3, digit, ones, parity, pick.',
    ],
    [
      'F = A3..A0 div A1..A0 > 1',
      'line 1: in row 0 (A3=0 A2=0 A1=0 A0=0) div of 0, 0 has no answer, because nothing can be divided by 0. Say "dontcare when …" for such rows, or use if … then … else.',
    ],
    ['F = G', 'line 1, column 5: output G has no rule of its own yet, so it cannot be used. Add one.'],
    ['F = "A0', 'line 1, column 5: the quotation mark is not closed. Put another one after the name.'],
  ])('%s', (rules, sentence) => {
    expect(says(rules)).toBe(sentence);
  });

  test('a name of several words, of which one was written without quotation marks', () => {
    const inputs = ['top floor', 'door'];
    expect(says('F = top floor', ['F'], inputs)).toBe(
      'line 1, column 5: nothing is called top. If top floor is meant, write "top floor" in quotation marks.',
    );
    expect(says('F = dor', ['F'], inputs)).toBe('line 1, column 5: nothing is called dor. Did you mean door?');
    expect(says('F = nobody', ['F'], inputs)).toBe('line 1, column 5: nothing is called nobody. Known names: "top floor", door, F.');
  });

  test('names and signs that follow one another without end', () => {
    const names = (count: number) => Array.from({ length: count }, (_, i) => `x${i} = x${i + 1} OR A0`);
    expect(says(`F = x0\n${names(120).join('\n')}\nx120 = A1`)).toMatch(/^line 101: more than 100 names need one another in a row/);
    expect(says(`F = x0\n${names(1000).toReversed().join('\n')}\nx1000 = A1`)).toMatch(/^line \d+.*: more than/);
    expect(says(`F = A0${"'".repeat(20_000)}`)).toMatch(/^line 1, column 5: more than 500 steps follow one another here/);
  });

  test('a division by nothing behind names that double forty times', () => {
    const names = Array.from({ length: 40 }, (_, i) => `x${i + 1} = x${i} plus x${i}`);
    expect(says(`x0 = 1 mod A0\n${names.join('\n')}\nF = x40 > 1`)).toMatch(
      /mod of 1, 0 has no answer, because nothing can be divided by 0/,
    );
  });

  test('a thousand brackets', () => {
    expect(says(`F = ${'('.repeat(1000)}A0`)).toMatch(/^line 1, column \d+: more than 60 brackets are nested/);
  });

  test('any text ends in a table or one sentence with its line', () => {
    const words = fc.constantFrom(
      'A0',
      'A1',
      'F',
      'G',
      'T',
      'AND',
      'OR',
      'NOT',
      '+',
      '*',
      '/',
      "'",
      '(',
      ')',
      '{',
      '}',
      '=',
      '>',
      '..',
      ',',
      '[',
      ']',
      '3',
      'if',
      'then',
      'else',
      '-',
      'when',
      'digit',
      '\n',
      '-',
      'mod',
      'pick',
    );
    fc.assert(
      fc.property(fc.array(words, { maxLength: 30 }), (text) => {
        const made = tableOfRules(FOUR, ['F', 'G'], text.join(' '));
        if (!made.ok) expect(made.failure.says).toMatch(/^line \d+.*\.$/s);
      }),
      { numRuns: 2000 },
    );
  });
});

/** A random rule as text and as a function that works it out independently. */
interface Rule {
  readonly text: string;
  readonly of: (row: number) => number;
}
const bitRule = fc.letrec<{ bit: Rule; number: Rule }>((tie) => {
  const two = (name: 'bit' | 'number', signs: ReadonlyArray<readonly [string, (a: number, b: number) => number]>) =>
    fc
      .tuple(tie(name), fc.constantFrom(...signs), tie(name))
      .map(([a, [sign, f], b]): Rule => ({ text: `(${a.text}) ${sign} (${b.text})`, of: (r) => f(a.of(r), b.of(r)) }));
  return {
    bit: fc.oneof(
      { maxDepth: 5, withCrossShrink: true },
      fc.nat(3).map((i): Rule => ({ text: `A${i}`, of: (r) => bit(r, i) })),
      tie('bit').map((a): Rule => ({ text: `NOT (${a.text})`, of: (r) => 1 - a.of(r) })),
      two('bit', [
        ['AND', (a, b) => a & b],
        ['+', (a, b) => a | b],
        ['⊕', (a, b) => a ^ b],
        ['NAND', (a, b) => 1 - (a & b)],
      ]),
      two('number', [
        ['>', (a, b) => Number(a > b)],
        ['=', (a, b) => Number(a === b)],
        ['≤', (a, b) => Number(a <= b)],
      ]),
    ),
    number: fc.oneof(
      { maxDepth: 4, withCrossShrink: true },
      fc.nat({ max: 15 }).map((n): Rule => ({ text: `${n}`, of: () => n })),
      fc.constant<Rule>({ text: 'A3..A0', of: (r) => r }),
      fc.constant<Rule>({ text: '{A0, A1, A2}', of: (r) => 4 * bit(r, 0) + 2 * bit(r, 1) + bit(r, 2) }),
      two('number', [
        ['plus', (a, b) => a + b],
        ['minus', (a, b) => a - b],
        ['times', (a, b) => a * b],
      ]),
      tie('number').map((a): Rule => ({ text: `(${a.text}) mod 7`, of: (r) => ((a.of(r) % 7) + 7) % 7 })),
    ),
  };
}).bit;

test('two thousand random rules give what they mean in every row', () => {
  fc.assert(
    fc.property(bitRule, (rule) => {
      expect([...table(['F'], `F = ${rule.text}`).values]).toEqual(column(rule.of));
    }),
    { numRuns: 2000 },
  );
});

describe('number tables', () => {
  test.each(NUMBER_TABLES.map((t) => [t.title, t] as const))('%s can be asked for', (_, t) => {
    const outputs = t.outputs(4);
    const made = tableOfRules(FOUR, outputs.toReversed(), t.rule('A3..A0', `{${outputs.join(', ')}}`));
    expect(made.ok || made.failure.says).toBe(true);
  });
});

describe('inputs', () => {
  test('a rule of version 1 that says "free when" is read as "dontcare when"', () => {
    expect(table(['F'], 'F = A0\nfree when A1')).toEqual(table(['F'], 'F = A0\ndontcare when A1'));
  });

  test('that are not needed are told, don’t-cares chosen to that end', () => {
    const t = table(['F', 'G'], 'F = A0 ⊕ A2\nG = A0 + A3\nF dontcare when A1');
    expect(needlessInputs(t)).toEqual([1]);
  });

  test('that may change places are told', () => {
    expect(symmetricInputs(table(['F'], 'F = ones(A3..A0) > 2'))).toEqual([[0, 1, 2, 3]]);
    expect(symmetricInputs(table(['S0', 'S1', 'S2'], 'S2..S0 = A3..A2 + A1..A0'))).toEqual([
      [0, 2],
      [1, 3],
    ]);
  });
});

describe('a table', () => {
  test('is refused when two names are alike, empty or too many', () => {
    const why = (i: readonly string[], o: readonly string[]) => {
      const made = emptyTable(i, o);
      return made.ok ? '' : made.failure.says;
    };
    expect(why(['A', 'B', 'A'], ['F'])).toBe('Two inputs are called A: numbers 1 and 3. Rename one.');
    expect(why(['A'], ['A'])).toBe('An input and an output are both called A. Rename one.');
    expect(why(['A', ''], ['F'])).toBe('Column "input 2" has no name. Give it one, such as A1.');
    expect(
      why(
        Array.from({ length: 17 }, (_, i) => `A${i}`),
        ['F'],
      ),
    ).toBe('There are 17 inputs; a table has 1 to 16 of them. Split it into several tables.');
    expect(tableOfWords(['A'], ['F'], [1]).ok).toBe(false);
  });

  test('changes cell by cell into a new one', () => {
    const made = emptyTable(['A'], ['F', 'G']);
    if (!made.ok) throw new Error(made.failure.says);
    const next = withCells(made.value, [
      { row: 0, output: 1, cell: 1 },
      { row: 1, output: 0, cell: 0 },
    ]);
    expect([cellAt(next, 0, 1), cellAt(next, 0, 0), cellAt(next, 1, 0), cellAt(made.value, 0, 1)]).toEqual([1, '-', 0, '-']);
  });
});

test('rules give way to another one for some outputs, with the names that only they spoke of', () => {
  const lines = ['# a note', 'N = A1..A0', 'M = N plus 1', '{F, G} = M mod 4', 'H = N > 2', 'dontcare when N = 3'];
  expect(overriddenRules(lines, ['F', 'G', 'H'], ['F'])).toEqual(['N = A1..A0', 'H = N > 2']);
  expect(overriddenRules(lines, ['F', 'G', 'H'], ['F', 'H'])).toEqual([]);
  expect(overriddenRules(['F = G', 'G = A0'], ['F', 'G'], ['F'])).toEqual(['G = A0']);
});
