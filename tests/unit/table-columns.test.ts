/** The three columns of the truth table: wanted, stored and shown beside each other, the next difference, the switches of a row, and the page's first sentence. */
import { describe, expect, test } from 'vitest';
import { columnsOf, isAnyOff, nextDifference, offShown, rowNow, settingsFor, tally } from '../../client/panel/table/columns.ts';
import { dependenceSays } from '../../client/panel/table/dependence-says.ts';
import { withNumberTable } from '../../client/panel/table/number-rule.ts';
import { freeName, freePin, linesFor, pinChoice } from '../../client/panel/table/pins.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import type { Shown } from '../../client/worker/jobs.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { beginProof, NUMBER_TABLES, tableOfWanted, tablePins } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { emptyPlan } from '../support/plans.ts';

const plan = demoPlan('greenhouse')!;
const wanted = plan.wanted!;
const sim = start(plan);
const pins = tablePins(sim.circuit);
const begun = beginProof(plan, {});
if (!begun.ok) throw new Error(begun.failure.says);
while (!begun.value.go(256));
const shown: Shown = { inputs: begun.value.proof.inputs, value: begun.value.shown, unknown: begun.value.unknown };
const rows = wanted.rows.length;
const on = [{ ...sim.readings().supplies[0]!, on: true }];
const off = [{ ...on[0]!, on: false }];
const columns = columnsOf(plan, plan.memories, pins, shown)!;
/** shown otherwise in one bit of a row */
const wrongIn = (row: number): Shown => ({ ...shown, value: shown.value.map((v, i) => (i === row ? v ^ 1 : v)) });

describe('columns', () => {
  test('of a good bench have every row stored and shown as wanted', () => {
    expect([columns.storedRight, columns.shownRight, isAnyOff(columns)]).toEqual([rows, rows, false]);
    expect(nextDifference(columns, 0)).toBeUndefined();
    expect(tally(columns, on)).toBe(`All ${rows} rows are stored and shown as wanted.`);
  });

  test('find the next row that is shown otherwise, round the end', () => {
    const one = columnsOf(plan, plan.memories, pins, wrongIn(5))!;
    expect([one.shownRight, isAnyOff(one)]).toEqual([rows - 1, true]);
    expect([nextDifference(one, 0), nextDifference(one, 5), nextDifference(one, 9)]).toEqual([5, 5, 5]);
    expect(offShown(one.wanted, one.shown!, 5)).toBe(1);
    expect(offShown(one.wanted, one.shown!, 6)).toBe(0);
  });

  test('count what is undefined as not shown', () => {
    const unknown = shown.unknown.map((v, i) => (i === 3 ? 1 : v));
    expect(columnsOf(plan, plan.memories, pins, { ...shown, unknown })!.shownRight).toBe(rows - 1);
  });

  test('without bytes have rows that are not stored as wanted, without a memory none are stored at all', () => {
    const blank = columnsOf(plan, {}, [...pins], shown)!;
    expect(blank.storedRight).toBeLessThan(rows);
    const none = columnsOf(plan, {}, [], undefined)!;
    expect([none.stored, none.shown]).toEqual([undefined, undefined]);
    expect(tally(none, on)).toContain('no memory');
    expect(columnsOf(emptyPlan, {}, [], undefined)).toBeUndefined();
  });

  test('of another size than what was swept are not compared with it', () => {
    const less: Shown = { ...shown, value: shown.value.slice(1), unknown: shown.unknown.slice(1) };
    expect(columnsOf(plan, plan.memories, pins, less)!.shown).toBeUndefined();
  });
});

describe('the first sentence', () => {
  test('says what is stored and shown, and for which setting of the supplies', () => {
    expect(tally(columns, off)).toContain('with the supply on');
    expect(tally(columns, [...off, ...on])).toContain('with all supplies on');
    expect(tally(columnsOf(plan, plan.memories, pins, undefined)!, on)).toBe(`All ${rows} rows are stored as wanted.`);
    expect(tally(columnsOf(plan, plan.memories, pins, wrongIn(5))!, on)).toContain(`${rows - 1} are shown as wanted`);
    const nothing = { ...columns, storedRight: 0, shownRight: 0 };
    expect(tally(nothing, off)).toMatch(/^None of the .* nor shown as wanted with the supply on\.$/);
    expect(tally({ ...columns, shownRight: 1 }, on)).toContain('one is shown as wanted');
    expect(tally({ ...columns, shownRight: 0 }, on)).toContain('none is shown as wanted');
  });

  test('of a table that asks for nothing says so', () => {
    const all = 2 ** wanted.outputs.length - 1;
    const open = columnsOf({ ...plan, wanted: { ...wanted, dontCare: wanted.rows.map(() => all) } }, plan.memories, [], undefined)!;
    expect(tally(open, on)).toMatch(/^\d+ rows, none wanted/);
  });
});

describe('a row', () => {
  test('is set by its switches and read back at the input pins, every row of them', () => {
    const bench = start(plan, { bounce: false });
    bench.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
    for (const row of [0, 1, 6, rows - 1]) {
      for (const setting of settingsFor(shown, row)) bench.act({ do: 'set', ...setting });
      bench.wait(0.01);
      expect(rowNow(makeBenchModel(bench.plan()), bench.readings())).toBe(row);
    }
    bench.act({ do: 'set', part: 'PS1', pole: 0, closed: false });
    bench.wait(1);
    expect(rowNow(makeBenchModel(bench.plan()), bench.readings())).toBeUndefined();
  });
});

describe('pins for columns', () => {
  const choice = pinChoice(makeBenchModel(plan));
  test('are the address and data pins of the bench’s memories; without one, of those that it may get', () => {
    expect(choice.inputs[0]).toMatch(/\.A0$/);
    expect(choice.outputs.length % 8).toBe(0);
    expect(pinChoice(makeBenchModel(emptyPlan))).toMatchObject({
      inputs: expect.arrayContaining(['U1.A0']),
      outputs: expect.arrayContaining(['U2.D7']),
    });
  });

  test('that are free are named by their pin, or else by a name that nothing is called yet', () => {
    const pin = freePin('inputs', wanted, choice)!;
    expect(wanted.inputs.some((l) => l.pin === pin)).toBe(false);
    expect(freeName('inputs', wanted, pin)).toBe(pin.split('.')[1]);
    const taken = {
      inputs: [
        { name: 'A7', pin: 'U1.A0' },
        { name: 'in0', pin: 'U1.A1' },
      ],
      outputs: [],
    };
    expect(freeName('inputs', taken, 'U1.A7')).toBe('in1');
  });

  test('stay with a column that keeps its name, and are dealt to the others until there are no more', () => {
    const names = { inputs: [wanted.inputs[1]!.name, 'new'], outputs: [wanted.outputs[0]!.name] };
    const lines = linesFor(names, wanted, choice)!;
    expect(lines.inputs[0]).toEqual(wanted.inputs[1]);
    expect(lines.inputs[1]!.pin).not.toBe(wanted.inputs[1]!.pin);
    expect(linesFor({ inputs: Array.from({ length: 40 }, (_, i) => `i${i}`), outputs: [] }, wanted, choice)).toBeUndefined();
  });
});

describe('a number table', () => {
  test('fills the table with its numbers, and gets the outputs that it needs', () => {
    const choice = pinChoice(makeBenchModel(plan));
    const inputs = wanted.inputs.slice(0, 4);
    const small = {
      ...wanted,
      inputs,
      outputs: wanted.outputs.slice(0, 1),
      rows: Array.from({ length: 16 }, () => 0),
      dontCare: [],
      expressions: [],
    };
    for (const table of NUMBER_TABLES) {
      const made = withNumberTable({ ...small, dontCare: small.rows.map(() => 1) }, table, choice);
      if (!made.ok) {
        expect(made.failure.says).toContain('outputs');
        continue;
      }
      expect(made.value.outputs.length).toBeGreaterThanOrEqual(table.outputs(4).length);
      expect(made.value.rows).toHaveLength(16);
    }
    const none = withNumberTable(small, NUMBER_TABLES.find((t) => t.outputs(4).length > 1)!, { inputs: [], outputs: [] });
    expect(none.ok ? '' : none.failure.says).toContain('outputs');
  });
});

test('inputs that no output needs, and those that may change places, are said', () => {
  const tableOf = (values: readonly number[]) => {
    const made = tableOfWanted({
      rules: [],
      inputs: ['a', 'b', 'c'].map((name, i) => ({ name, pin: `U1.A${i}` })),
      outputs: [{ name: 'y', pin: 'U1.D0' }],
      rows: [...values],
    });
    if (!made.ok) throw new Error(made.failure.says);
    return made.value;
  };
  // y = a and b, whatever c is
  const said = dependenceSays(tableOf([0, 0, 0, 1, 0, 0, 0, 1])).join(' ');
  expect(said).toMatch(/depends on c\b/);
  expect(said).toMatch(/a and b are interchangeable/);
  // y = a, or b and not c
  expect(dependenceSays(tableOf([0, 1, 1, 1, 0, 1, 0, 1]))).toEqual([]);
});
