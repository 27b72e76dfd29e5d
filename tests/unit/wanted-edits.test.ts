/** Edits of the wanted table: columns added, moved and taken out, cells and rules, and the bytes that follow on a bench. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { merging, sayOtherPins, wantingWhat } from '../../client/panel/table/read-out.ts';
import { takeText } from '../../client/panel/table/take-text.ts';
import type { Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { startTable } from '../../sim-core/build/start-table.ts';
import { apply, invert } from '../../sim-core/document/changes.ts';
import {
  addInput,
  addOutput,
  changeLine,
  moveLine,
  removeLine,
  withWantedCells,
  withWantedRules,
} from '../../sim-core/document/edits/wanted.ts';
import { bytesOfRows, rowsOfBytes } from '../../sim-core/document/memory-rows.ts';
import { storedTable, storeTable, type Unasked, wantedImages } from '../../sim-core/findings/store-table.ts';
import { tablePins } from '../../sim-core/findings/table-pins.ts';
import { wholeImage } from '../../sim-core/logic/memory-image.ts';
import { addressOf, rowOf } from '../../sim-core/logic/pin-map.ts';
import { buildCircuit } from '../../sim-core/run/circuit/circuit.ts';

const value = <T>(o: Outcome<T>): T => {
  if (!o.ok) throw new Error(o.failure.says);
  return o.value;
};
const says = (o: Outcome<unknown>): string => (o.ok ? 'done' : o.failure.says);

const line = (letter: string, count: number, pin: string) =>
  Array.from({ length: count }, (_, i) => ({ name: `${letter}${i}`, pin: `U1.${pin}${i}` }));
const anyTable = fc
  .record({ inputs: fc.integer({ min: 1, max: 5 }), outputs: fc.integer({ min: 1, max: 8 }) })
  .chain(({ inputs, outputs }) => {
    const words = fc.array(fc.integer({ min: 0, max: 2 ** outputs - 1 }), { minLength: 2 ** inputs, maxLength: 2 ** inputs });
    return fc.record({ rows: words, free: words }).map(
      ({ rows, free }): PlanWanted => ({
        inputs: line('i', inputs, 'A'),
        outputs: line('o', outputs, 'D'),
        rules: [],
        rows: rows.map((w, r) => w & ~(free[r] ?? 0)),
        dontCare: free,
      }),
    );
  });

/** What an output is for named inputs: 0, 1 or x. */
function cell(w: PlanWanted, at: Readonly<Record<string, number>>, output: string): string {
  const row = w.inputs.reduce((r, { name }, i) => r | ((at[name] ?? 0) << i), 0);
  const bit = w.outputs.findIndex((o) => o.name === output);
  if (((w.dontCare?.[row] ?? 0) >> bit) & 1) return 'x';
  return String((w.rows[row]! >> bit) & 1);
}
const settings = (w: PlanWanted) =>
  w.rows.map((_, row) => Object.fromEntries(w.inputs.map(({ name }, i) => [name, (row >> i) & 1])) as Record<string, number>);

describe('whatever is done to the columns', () => {
  test('a column that is moved means what it meant', () => {
    fc.assert(
      fc.property(anyTable, fc.nat(), fc.nat(), fc.boolean(), (w, a, b, isInput) => {
        const side = isInput ? 'inputs' : 'outputs';
        const [from, to] = [a % w[side].length, b % w[side].length];
        const next = value(moveLine(w, side, from, to));
        for (const at of settings(w)) for (const { name } of w.outputs) expect(cell(next, at, name)).toBe(cell(w, at, name));
        expect(value(moveLine(next, side, to, from)).rows).toEqual(w.rows);
      }),
      { numRuns: 200 },
    );
  });

  test('a column that is added and taken out again leaves the table as it was', () => {
    fc.assert(
      fc.property(anyTable, (w) => {
        const withIn = value(addInput(w, { name: 'new', pin: 'U1.A9' }));
        for (const at of settings(withIn)) for (const { name } of w.outputs) expect(cell(withIn, at, name)).toBe(cell(w, at, name));
        expect(value(removeLine(withIn, 'inputs', w.inputs.length)).rows).toEqual(w.rows);
        if (w.outputs.length === 16) return;
        const withOut = value(addOutput(w, { name: 'new', pin: 'U1.D9' }));
        for (const at of settings(w)) expect(cell(withOut, at, 'new')).toBe('x');
        expect(value(removeLine(withOut, 'outputs', w.outputs.length)).rows).toEqual(w.rows);
      }),
      { numRuns: 200 },
    );
  });
});

const two: PlanWanted = { inputs: line('A', 2, 'A'), outputs: line('F', 1, 'D'), rules: [], rows: [0, 0, 0, 0] };

test('names alike, the last column and a circle are refused in a sentence', () => {
  expect(says(changeLine(two, 'inputs', 1, { name: 'A0', pin: 'U1.A1' }))).toBe('Two inputs are called A0: numbers 1 and 2. Rename one.');
  expect(says(removeLine(two, 'outputs', 0))).toBe('A table has at least one output. Rename this one, or remove the whole table.');
  expect(says(withWantedRules(two, 'F0 = not F0'))).toMatch(/is circular/);
});

test('a pin that another column has is exchanged for its own, so that no two share one', () => {
  const next = value(changeLine(two, 'inputs', 0, { name: 'A0', pin: 'U1.A1' }));
  expect(next.inputs.map((i) => i.pin)).toEqual(['U1.A1', 'U1.A0']);
});

test('rules speak of a renamed column by its new name, quoted where it needs to be', () => {
  const ruled = value(withWantedRules(two, "F0 = A0 & A1'\n# A0 stays in a comment"));
  const renamed = value(changeLine(ruled, 'inputs', 0, { name: 'too hot', pin: 'U1.A0' }));
  expect(renamed.expressions?.[0]).toBe('F0 = "too hot" & A1\'');
  expect(value(withWantedRules(renamed, renamed.expressions?.join('\n') ?? '')).rows).toEqual(ruled.rows);
});

describe('bytes taken as wanted', () => {
  const chip = (memory: string, output: number) => ({
    memory,
    address: [0, 1, 'low' as const],
    data: [output, ...Array.from({ length: 7 }, () => 'unused' as const)],
  });
  const both = value(addOutput(two, { name: 'F1', pin: 'U2.D0' }));
  const plan = { memories: { U2: { '000': '0000000000000000' } } } as unknown as Plan;
  const file = { bytes: Uint8Array.of(1, 0, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff), given: Uint8Array.of(255, 255, 0, 0, 0, 0, 0, 0) };
  test('leave free what the file does not give, and what other memories are asked for as it is', () => {
    const asked = value(
      withWantedCells(
        both,
        [0, 1, 2].map((row) => ({ row, output: 1, cell: 1 as const })),
      ),
    );
    expect(wantingWhat(asked, plan, [chip('U1', 0), chip('U2', 1)], 'U1', file)).toMatchObject({
      rows: [3, 2, 2, 0],
      dontCare: [0, 0, 1, 3],
    });
  });
});

describe('text from a spreadsheet', () => {
  const pins = { inputs: line('', 4, 'A').map((l) => l.pin), outputs: line('', 4, 'D').map((l) => l.pin) };
  const at = { row: 1, output: 0 };
  test('as a block goes where the cursor is, and is refused where it does not fit', () => {
    expect(value(takeText(two, '1\nX\n', at, pins))).toMatchObject({ rows: [0, 1, 0, 0], dontCare: [0, 0, 1, 0] });
    expect(says(takeText(two, '1\t0', at, pins))).toMatch(/^The block is 2 cells wide, and from here 1 fit\./);
    expect(says(takeText(two, '1\n1\n1\n1', at, pins))).toMatch(/^The block has 4 rows, and from row 1 on there are 3\./);
  });
  test('keeps each cell in its place: an empty one is free, and so is an empty line of one column', () => {
    const wide = value(takeText(two, 'B,A,,G,F\n0,0,,1,1\n0,1,,1,1\n1,0,,1,1\n1,1,,1,1\n', at, pins));
    const from = { row: 0, output: 1 };
    expect(value(takeText(wide, '0\t\r\n\t0\r\n"1"\tX\r\n', from, pins))).toMatchObject({ rows: [0, 0, 2, 3], dontCare: [1, 2, 1, 0] });
    expect(value(takeText(wide, '0\n\n0\n\n', from, pins))).toMatchObject({ rows: [1, 1, 1, 3], dontCare: [0, 2, 0, 0] });
    expect(value(takeText(wide, 'TRUE;FALSE\n\n–;0', from, pins))).toMatchObject({
      rows: [2, 0, 3, 3],
      dontCare: [0, 2, 0, 0],
    });
  });
  test('under other names makes another table on the pins that there are', () => {
    const next = value(takeText(two, 'B,A,,S\n0,0,,0\n0,1,,1\n1,0,,1\n1,1,,0\n', at, pins));
    expect(next.inputs).toEqual([
      { name: 'A', pin: 'U1.A0' },
      { name: 'B', pin: 'U1.A1' },
    ]);
    expect(next).toMatchObject({ outputs: [{ name: 'S', pin: 'U1.D0' }], rows: [0, 1, 1, 0] });
    expect(says(takeText(two, 'A1,A0,,G\n0,0,,1\n', at, pins))).toMatch(/the table has no column G/);
    expect(says(takeText(two, 'A1,,F0\n0,,1\n', at, pins))).toMatch(/the column of input A0 is missing/);
  });
  test('makes another table also where one of its names is in this one, and says what is wrong with that', () => {
    expect(value(takeText(two, 'A0,B,,F0\n0,0,,1\n', at, pins)).inputs).toMatchObject([{ name: 'B' }, { name: 'A0' }]);
    expect(says(takeText(two, `${'I,'.repeat(17)},F0\n${'X,'.repeat(17)},1`, at, pins))).toMatch(/^There are 17 inputs/);
    expect(says(takeText(two, 'B,B,,F0\n0,0,,1\n', at, pins))).toMatch(/^Two inputs are called B/);
  });
});

describe('on the greenhouse bench', () => {
  const plan = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;
  const pins = (p: Plan) => tablePins(value(buildCircuit(p, 'typical')));
  test('a table begins with the five switches and the eight LEDs', () => {
    const { wanted: _, ...bare } = plan;
    const begun = value(startTable(bare));
    expect(begun.inputs.map((i) => i.pin)).toEqual(plan.wanted!.inputs.map((i) => i.pin));
    expect(begun.outputs.map((o) => [o.name, o.pin])).toEqual(plan.wanted!.outputs.map((o) => [o.name, o.pin]));
    expect(readPlan(JSON.stringify({ ...plan, wanted: begun })).ok).toBe(true);
  });
  test.each([
    ['braille-tutor', 6, 'a buffer'],
    ['wind-vane', 8, 'a buffer'],
  ])('a table of %s begins with its %i LEDs behind %s', (id, count) => {
    const { wanted, ...bare } = JSON.parse(readFileSync(`shared/demos/${id}.plan.json`, 'utf8')) as Plan;
    const begun = value(startTable(bare));
    expect(begun.outputs.map((o) => o.name)).toEqual(wanted!.outputs.map((o) => o.name));
    expect(begun.outputs.filter((o) => o.led)).toHaveLength(count);
  });
  test('an LED behind a register is no data pin’s: it shows what was stored', () => {
    const registers = plan.parts.map((p) => (p.id === 'U2' ? { ...p, kind: 'octal-register', params: {} } : p));
    const { wanted: _, ...bare } = plan;
    expect(value(startTable({ ...bare, parts: registers })).outputs.every((o) => o.led === undefined)).toBe(true);
  });

  test('a table that begins with LEDs called like an input, or with a quotation mark, can be read again', () => {
    const labels: Record<string, string> = { LED1: 'A0', LED2: 'the "fan"', LED3: ' edge ', LED4: 'D7' };
    const { wanted: _, ...bare } = plan;
    const parts = bare.parts.map((p) => (labels[p.id] ? { ...p, label: labels[p.id] } : p));
    const begun = value(startTable({ ...bare, parts }));
    expect(begun.outputs.slice(0, 4).map((o) => o.name)).toEqual(['D0', 'D1', 'edge', 'D7']);
    expect(readPlan(JSON.stringify({ ...plan, wanted: begun }))).toMatchObject({ ok: true });
  });

  test('any table is stored in one act, with outputs of either sense, and reads back as wanted', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 255 }), { minLength: 32, maxLength: 32 }),
        fc.integer({ min: 0, max: 255 }),
        (rows, low) => {
          const outputs = plan.wanted!.outputs.map((o, i) => ((low >> i) & 1 ? { ...o, activeLow: true as const } : o));
          const asked: Plan = { ...plan, wanted: { ...plan.wanted!, outputs, rows } };
          const change = value(storeTable(asked, pins(asked)));
          const stored = apply(asked, change);
          expect([...storedTable(stored.wanted!, stored.memories, pins(stored))!.values]).toEqual(rows);
          expect(bytesOfRows(stored.memories.U1, 2048)[13]).toBe(rows[13]! ^ low);
          expect(apply(stored, invert(change))).toEqual(asked);
        },
      ),
      { numRuns: 20 },
    );
  });

  test('a row finds its address and an address its row', () => {
    const [u1] = pins(plan);
    for (let row = 0; row < 32; row++) expect(rowOf(u1!, addressOf(u1!, row))).toBe(row);
    expect(rowOf(u1!, 1024)).toBeUndefined();
  });
});

describe('bytes for a memory of which two address pins carry the table, one is tied low and one high', () => {
  const pins = {
    memory: 'U1',
    address: [0, 'low', 1, 'high'],
    data: [0, 'unused', 'unused', 'unused', 'unused', 'unused', 'unused', 'unused'],
  } as const;
  const or: PlanWanted = { ...two, rows: [0, 1, 1, 1] };
  const image = (unasked: Unasked) => value(wantedImages(or, [pins], unasked))[0]!;
  const u1 = { id: 'U1', address: ['A0', 'A1', 'A2', 'A3'], data: ['D0', 'D1', 'D2', 'D3', 'D4', 'D5', 'D6', 'D7'] };
  test.each([
    ['left out', 'FE FF', 4],
    ['FF', 'FE FF', 16],
    ['00', '00 00', 16],
    ['the table again', 'FE FE', 8],
  ] as const)('%s elsewhere', (unasked, atTableAndBeside, given) => {
    const { bytes, given: g } = image(unasked);
    expect([bytes[8], bytes[10]].map((b) => b!.toString(16).toUpperCase().padStart(2, '0')).join(' ')).toBe(atTableAndBeside);
    expect(g.filter((b) => b !== 0).length).toBe(given);
    for (const [row, at] of [0, 1, 4, 5].entries()) expect(bytes[8 + at]! & 1).toBe(or.rows[row]);
  });
  test('the pins that carry nothing are named', () => {
    expect(sayOtherPins(u1, pins)).toBe('A1 is tied low. A3 is tied high. D1 to D7 carry no output.');
  });
  test('merging names both bytes and how many more there are, and either may count', () => {
    const plan = { memories: { U1: { '000': '1122' } } } as unknown as Plan;
    const bytes = new Uint8Array(16).fill(0xff);
    bytes.set([0x33, 0x44, 0x55]);
    const file = { image: { bytes, given: bytes.map((b) => (b === 0xff ? 0 : 0xff)) }, remarks: [] };
    expect(says(merging(plan, u1, file, 'neither'))).toBe(
      'At 0x00 U1 holds 11 and the file gives 33, and they differ at one more address. Say which of the two to keep.',
    );
    const merged = (counts: 'memory' | 'file') => [
      ...bytesOfRows(apply({ ...plan, parts: [], wires: [] } as unknown as Plan, value(merging(plan, u1, file, counts))).memories.U1, 3),
    ];
    expect(merged('memory')).toEqual([0x11, 0x22, 0x55]);
    expect(merged('file')).toEqual([0x33, 0x44, 0x55]);
    expect(
      says(
        merging(
          plan,
          u1,
          { image: wholeImage(Uint8Array.from({ length: 16 }, (_, i) => (i < 2 ? 0x11 * (i + 1) : 0))), remarks: [] },
          'neither',
        ),
      ),
    ).toBe('done');
  });
});

test('bytes are written down in rows and come back, whatever they are', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 64, maxLength: 64 }), (bytes) => {
      expect(bytesOfRows(rowsOfBytes(bytes), 64)).toEqual(bytes);
    }),
  );
  // what a plan keeps past the last address stays, and a row that it named stays named
  expect(rowsOfBytes(new Uint8Array(32).fill(0xff), { '010': '00'.repeat(20) })).toEqual({ '010': 'FF'.repeat(16), '020': '00'.repeat(4) });
});
