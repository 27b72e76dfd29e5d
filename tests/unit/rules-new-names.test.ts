/** Rules that speak of names the table does not have: which lines would be made of them, and the table with those lines in one act. */
import { describe, expect, test } from 'vitest';
import { blankTable, newNames, PINS_TO_COME, tableOfWanted, withNamesOfRules, withWantedRules } from '../../sim-core/index.ts';

const INPUTS = ['A', 'B'];
const OUTPUTS = ['F'];

describe('names that a table does not have', () => {
  test.for([
    ['F = start and not stop', ['start', 'stop'], []],
    ['F = A and "oil low"', ['oil low'], []],
    ['F = A and start or start', ['start'], []],
    ['run = A', [], ['run']],
    ['run = start\nF = stop', ['start', 'stop'], ['run']],
    ['F = {t1, t0} > 2', ['t1', 't0'], []],
  ] as const)('%s', ([text, inputs, outputs]) => {
    const found = newNames(text, INPUTS, OUTPUTS);
    expect([...(found?.inputs ?? [])].sort()).toEqual([...inputs].sort());
    expect(found?.outputs).toEqual(outputs);
  });

  test.for([
    ['F = A and B'],
    ['F = A and'],
    // with the name the rule could still not be read
    ['F = start and'],
    ['F = nosuch(A)'],
    // a name of one's own that another line uses is no input
    ['ready = A\nF = ready and B'],
  ])('%s has none that could be made', ([text = '']) => {
    expect(newNames(text, INPUTS, OUTPUTS)).toBeUndefined();
  });
});

const made = (inputs: number, outputs: number) => {
  const table = blankTable(inputs, outputs);
  if (!table.ok) throw new Error(table.failure.says);
  return table.value;
};
const names = (lines: readonly { readonly name: string }[]) => lines.map((l) => l.name);

describe('the table with such lines', () => {
  test('of one that was only begun, the lines that no rule speaks of give way', () => {
    const text = 'run = start and not stop and A2';
    const next = withNamesOfRules(made(4, 1), text, { inputs: ['start', 'stop'], outputs: ['run'] }, PINS_TO_COME);
    expect(next.ok && [names(next.value.inputs), names(next.value.outputs)]).toEqual([['A2', 'start', 'stop'], ['run']]);
    // A2 keeps its pin; rows are those of A2 + 2 start + 4 stop
    expect(next.ok && next.value.inputs.map((l) => l.pin)).toEqual(['U1.A2', 'U1.A0', 'U1.A1']);
    expect(next.ok && next.value.rows).toEqual([0, 0, 0, 1, 0, 0, 0, 0]);
    expect(next.ok && next.value.expressions).toEqual([text]);
    expect(next.ok && tableOfWanted(next.value).ok).toBe(true);
  });

  test('of one in which something is asked for, every line stays, and what was asked stays asked', () => {
    const before = withWantedRules(made(2, 2), 'D1 = A0 xor A1');
    expect(before.ok).toBe(true);
    if (!before.ok) return;
    const next = withNamesOfRules(before.value, 'D1 = A0 xor A1\nD0 = start', { inputs: ['start'], outputs: [] }, PINS_TO_COME);
    expect(next.ok && names(next.value.inputs)).toEqual(['A0', 'A1', 'start']);
    expect(next.ok && next.value.rows).toEqual([0, 2, 2, 0, 1, 3, 3, 1]);
  });

  test('without pins left it is refused', () => {
    const pins = { inputs: ['U1.A0', 'U1.A1'], outputs: ['U1.D0'] };
    const full = withWantedRules({ ...made(2, 1) }, 'D0 = A0');
    expect(full.ok && withNamesOfRules(full.value, 'D0 = A0 and start', { inputs: ['start'], outputs: [] }, pins)).toMatchObject({
      ok: false,
      failure: { code: 'table/does-not-fit', says: expect.stringContaining('too few are free for start') },
    });
  });
});
