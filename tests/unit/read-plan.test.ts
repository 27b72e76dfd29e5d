/** Reading a plan: what is right comes through unchanged, what is wrong is refused in one sentence that names path, value and cure. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { FailureCode } from '../../shared/failure-codes.ts';
import { findJsonFault } from '../../shared/json-syntax.ts';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { tableOfWanted } from '../../sim-core/document/edits/wanted.ts';
import { proofHolds, signedProof } from '../../sim-core/index.ts';
import { emptyPlan, ledPlan } from '../support/plans.ts';

type Loose = Record<string, unknown>;

/** The refusal of a plan with these entries laid over the empty one. */
function refusal(over: Loose, base: object = emptyPlan) {
  const answer = readPlan(JSON.stringify({ ...base, ...over }));
  if (answer.ok) throw new Error('this plan was expected to be refused');
  return answer.failure;
}

describe('a good plan', () => {
  test.each([emptyPlan, ledPlan(330)])('comes through unchanged', (plan) => {
    expect(readPlan(JSON.stringify(plan))).toEqual({ ok: true, value: plan });
  });
});

describe('a text that is not JSON', () => {
  test('a cut-off file is refused with line and column of its end', () => {
    const text = JSON.stringify(ledPlan(330), null, 2);
    const cut = text.slice(0, text.indexOf('"resistor"') + 5);
    const lines = cut.split('\n');
    const answer = readPlan(cut);
    expect(answer).toEqual({
      ok: false,
      failure: {
        code: 'plan/broken-json',
        at: `line ${lines.length}, column ${lines.at(-1)!.length + 1}`,
        says: `The plan is cut off: it ends at line ${lines.length}, column ${lines.at(-1)!.length + 1} in the middle of something. Copy or save the whole file again.`,
      },
    });
  });

  test('a stray word is named with its place', () => {
    expect(readPlan('{\n  "format": lampwright }')).toEqual({
      ok: false,
      failure: {
        code: 'plan/broken-json',
        at: 'line 2, column 13',
        says: 'The plan cannot be read from line 2, column 13 on: "lampwright }" does not belong there. Fix that place or save the plan again.',
      },
    });
  });

  test('an empty file is called empty', () => {
    expect(readPlan(' \n')).toMatchObject({ ok: false, failure: { says: 'The plan is empty. Choose a file that ends in .plan.json.' } });
  });

  test('wherever JSON.parse refuses a text, a fault is found, and nowhere else', () => {
    const texts = fc
      .json()
      .chain((json) =>
        fc
          .tuple(fc.nat(json.length), fc.nat(3), fc.constantFrom('', ',', '}', ']', '"', '\\', '0', '-', ':', 'tru', '\n', '\u0001'))
          .map(([at, drop, put]) => json.slice(0, at) + put + json.slice(at + drop)),
      );
    fc.assert(
      fc.property(texts, (text) => {
        let good = true;
        try {
          JSON.parse(text);
        } catch {
          good = false;
        }
        expect(findJsonFault(text) === undefined).toBe(good);
      }),
      { numRuns: 3000, seed: 2 },
    );
  });

  test('every proper beginning of a document in braces is called cut off', () => {
    const text = '{"a": [1.5e-3, -2, true, null, "x\\u00e9\\n"], "b": {"c": {}}}';
    for (let n = 1; n < text.length; n++) expect(findJsonFault(text.slice(0, n)), text.slice(0, n)).toMatchObject({ cutOff: true });
  });
});

test('a megabyte of one open string is told in a moment', () => {
  expect(findJsonFault(`["${'ab\\n'.repeat(500_000)}`)).toMatchObject({ cutOff: true });
});

describe('the version', () => {
  test('a newer one is refused with both numbers', () => {
    expect(refusal({ version: 7 })).toEqual({
      code: 'plan/unknown-version',
      at: 'version',
      says: 'The plan is version 7, newer than the version 2 that this Lampwright knows. Open it with a newer Lampwright.',
    });
  });

  test('it is looked at before anything else, since a newer plan may look quite different', () => {
    expect(refusal({ version: 3, parts: 'elsewhere' }).at).toBe('version');
  });

  test.each([0, 1.5, '1', null])('%j is no version', (version) => {
    expect(refusal({ version }).says).toBe(`The plan's version is ${JSON.stringify(version)}; it should be a whole number from 1 to 2.`);
  });

  test.each([[[]], [3], [null], [{ title: 'x' }]])('%j is no plan', (document) => {
    expect(readPlan(JSON.stringify(document))).toMatchObject({ ok: false, failure: { at: 'format' } });
  });
});

describe('a document that does not fit the schema', () => {
  const part = (over: Loose) => ({ parts: [{ id: 'R1', kind: 'resistor', at: 'a1', to: 'a5', ...over }] });
  test.each<[string, Loose, string]>([
    [
      'a number for a tie point',
      part({ at: 5 }),
      'parts/0/at is 5: give a tie point such as a12, +j7, B2:a12, or a terminal such as PS1.+.',
    ],
    [
      'a missing entry',
      { wires: [{ id: 'W1', from: 'a1', to: 'a2' }] },
      'wires/0/colour is missing in W1: add it, a colour in small letters such as red.',
    ],
    ['a missing list', { notes: undefined }, 'notes is missing: add it, a list of at most 100 entries.'],
    [
      'an unknown entry',
      part({ ohms: 330 }),
      'parts/0/ohms is an entry that plans do not have: take it out; known here are id, kind, at, to, rotated, spot, params, label, poleNames, damaged.',
    ],
    ['a part that is rotated or not', part({ rotated: false }), 'parts/0/rotated is false: give true.'],
    ['a figure that is nothing', part({ params: { ohms: null } }), 'parts/0/params/ohms is null: give a number or true or false or text.'],
    [
      'an unknown board',
      { boards: [{ id: 'B1', kind: 'board-7', spot: [0, 0], splitRails: true }] },
      'boards/0/kind is "board-7": give one of "board-63", "board-30".',
    ],
    [
      'a spot far away',
      { boards: [{ id: 'B1', kind: 'board-63', spot: [0, 5000], splitRails: true }] },
      'boards/0/spot/1 is 5000: give a number from -1000 to 1000.',
    ],
    [
      'a meter of an unknown kind',
      { meters: [{ id: 'M1', measures: 'watts' }] },
      'meters/0/measures is "watts": give one of "volts", "amps", "level".',
    ],
    [
      'a meter of a known kind that lacks its point',
      { meters: [{ id: 'M1', measures: 'volts' }] },
      'meters/0/at is missing in M1: add it, a tie point such as a12, +j7, B2:a12, or a terminal such as PS1.+.',
    ],
    ['half a byte', { memories: { U1: { '0A': 'F' } } }, 'memories/U1/0A is "F": give pairs of hexadecimal digits, capitals.'],
    [
      'an address that is none',
      { memories: { U1: { xyz: 'FF' } } },
      'memories/U1/xyz is an entry that plans do not have: names here are of the form [0-9A-F]{1,6}.',
    ],
    ['a switch that stands at 1', { switches: { S1: [true, 1] } }, 'switches/S1/1 is 1: give true or false.'],
    [
      'a switch of a name that means something to the language',
      JSON.parse('{"switches": {"__proto__": [true]}}'),
      'switches/__proto__ is an entry that plans do not have: names here are of the form [A-Za-z][A-Za-z0-9_]{0,15}.',
    ],
    [
      'an id that means something to the language',
      part({ id: 'constructor' }),
      'parts/0/id is "constructor", a word that the program keeps for itself: choose another id.',
    ],
    [
      'a wire of such an id',
      { wires: [{ id: 'constructor', from: 'a1', to: 'a2', colour: 'red' }] },
      'wires/0/id is "constructor", a word that the program keeps for itself: choose another id.',
    ],
    [
      'a board of such an id',
      { boards: [{ id: 'valueOf', kind: 'board-63', spot: [0, 0], splitRails: true }] },
      'boards/0/id is "valueOf", a word that the program keeps for itself: choose another id.',
    ],
    ['a title of nothing', { title: '' }, 'title is "": give text of at least 1 characters of at most 120 characters.'],
  ])('%s', (_, over, says) => {
    expect(refusal(over).says).toBe(says);
  });
});

test.each<[string, Loose, { at: string; says: string }]>([
  [
    'a spot with three places',
    { boards: [{ id: 'B1', kind: 'board-63', spot: [0, 0, 7], splitRails: true }] },
    { at: 'boards/0/spot/2', says: 'boards/0/spot/2 is 7, one entry too many in its list: take it out.' },
  ],
  [
    'cells with three figures',
    { cells: { U1: { writes: { '000': [3, 4, 4] } } } },
    { at: 'cells/U1/writes/000/2', says: 'cells/U1/writes/000/2 is 4, one entry too many in its list: take it out.' },
  ],
])('a list whose places are counted and that is longer: %s', (_, over, says) => {
  expect(refusal(over)).toEqual({ code: 'plan/outside-schema', ...says });
});

describe('names of switch poles', () => {
  const switches = (...names: string[][]) => ({
    ...emptyPlan,
    parts: names.map((poleNames, i) => ({ id: `S${i + 1}`, kind: 'dip-switch', at: `e${10 * i + 1}`, params: { poles: 5 }, poleNames })),
  });
  const says = (document: unknown) => {
    const read = readPlan(JSON.stringify(document));
    return read.ok ? 'read' : `${read.failure.code}: ${read.failure.says}`;
  };

  test('are read, also where some poles have none', () => {
    expect(says(switches(['hot', '', 'damp'], ['', ''], ['/OE', 'grow light']))).toBe('read');
  });

  test('are given once in a plan, whatever their capitals', () => {
    expect(says(switches(['hot', 'damp', 'Hot']))).toBe(
      'plan/name-taken: parts/0/poleNames/2 is "Hot", as pole 1 of S1 is called: give one of the two another name.',
    );
    expect(says(switches(['hot'], ['', 'HOT']))).toBe(
      'plan/name-taken: parts/1/poleNames/1 is "HOT", as pole 1 of S1 is called: give one of the two another name.',
    );
  });

  test('have no quotation marks, no space at their edges, and 40 letters at most', () => {
    for (const name of ['"', 'a"b', ' hot', 'hot ', 'a\nb', 'x'.repeat(41)])
      expect(says(switches([name]))).toMatch(/^plan\/outside-schema: parts\/0\/poleNames\/0 is /);
    expect(says(switches(['x'.repeat(40)]))).toBe('read');
    expect(says(switches([]))).toMatch(/at least 1 entries/);
  });
});

describe('a wanted table that is none', () => {
  const table = {
    inputs: [
      { name: 'hot', pin: 'U1.A0' },
      { name: 'damp', pin: 'U1.A1' },
    ],
    outputs: [{ name: 'vent', pin: 'U1.D0' }],
    rules: [],
    rows: [0, 1, 0, 1],
    dontCare: [0, 0, 1, 0],
  };
  const wanted = (over: Loose) => ({ wanted: { ...table, ...over } });
  const named = (name: string) => wanted({ outputs: [{ name, pin: 'U1.D0' }] });

  test('what fits comes through, and so does a table with nothing in it', () => {
    for (const over of [wanted({}), wanted({ inputs: [], outputs: [], rows: [], dontCare: undefined })])
      expect(readPlan(JSON.stringify({ ...emptyPlan, ...over })).ok).toBe(true);
  });

  test.each<[string, Loose, FailureCode, string, string]>([
    [
      'a row is missing',
      wanted({ rows: [0, 1, 0] }),
      'table/wrong-row-count',
      'wanted/rows',
      'wanted/rows is a list of 3, and 2 inputs make 4 rows: give 4 values, one a row.',
    ],
    [
      'a row is too many',
      wanted({ rows: [0, 1, 0, 1, 1] }),
      'table/wrong-row-count',
      'wanted/rows',
      'wanted/rows is a list of 5, and 2 inputs make 4 rows: give 4 values, one a row.',
    ],
    [
      'the masks stop early',
      wanted({ dontCare: [0] }),
      'table/wrong-row-count',
      'wanted/dontCare',
      'wanted/dontCare is a list of 1, and the table has 4 rows: give 4 masks, one a row, or take the list out.',
    ],
    [
      'an input is gone',
      wanted({ inputs: table.inputs.slice(1) }),
      'table/wrong-row-count',
      'wanted/rows',
      'wanted/rows is a list of 4, and 1 input makes 2 rows: give 2 values, one a row.',
    ],
    [
      'no output',
      wanted({ outputs: [] }),
      'table/no-columns',
      'wanted/outputs',
      'wanted/outputs is a list of 0: name at least one, or take the whole table "wanted" out.',
    ],
    [
      'two columns of one name',
      named('hot'),
      'table/name-taken',
      'wanted/outputs/0/name',
      'wanted/outputs/0/name is "hot", as wanted/inputs/0/name is: give one of the two another name.',
    ],
    [
      'a name with an edge',
      named('vent '),
      'table/bad-name',
      'wanted/outputs/0/name',
      'wanted/outputs/0/name is "vent ": leave out quotation marks, tabs, and spaces at its edges.',
    ],
  ])('%s', (_, over, code, at, says) => {
    expect(refusal(over)).toEqual({ code, at, says });
  });
});

describe('a plan with one list or text a little shorter or longer, or one number another one', () => {
  const whole = demoPlan('greenhouse');
  if (!whole) throw new Error('there is no greenhouse');
  const rich: Plan = {
    ...whole,
    wanted: whole.wanted && { ...whole.wanted, dontCare: whole.wanted.rows.map(() => 0) },
    cells: { U1: { uncertain: { '000': '0F00' }, writes: { '000': [3, 4] } } },
    meters: [
      { id: 'M1', measures: 'volts', at: 'a12', against: 'b3', tag: [1, 2] },
      { id: 'M2', measures: 'amps', leg: 'L0.1' },
    ],
    proof: signedProof(whole, { date: '2026-01-31', by: 'A. Name' }, []),
  };

  test('is refused with a sentence, or its table can be read and its proof be judged', () => {
    let read = 0;
    let refused = 0;
    for (const { at, plan } of littleChanges(rich)) {
      const answer = readPlan(JSON.stringify(plan));
      if (answer.ok) {
        read += 1;
        const { wanted } = answer.value;
        if (wanted && wanted.inputs.length > 0) expect(tableOfWanted(wanted), at).toMatchObject({ ok: true });
        proofHolds(answer.value);
      } else {
        refused += 1;
        expect(answer.failure.says, at).toMatch(/^\S.*[:,;.] .*\.$/);
      }
    }
    expect([read > 100, refused > 100]).toEqual([true, true]);
  });
});

/** One thing changed in each; of entries of one shape in a list only the first is. */
function* littleChanges(whole: Plan): Generator<{ at: string; plan: unknown }> {
  const visit = function* (value: unknown, put: (v: unknown) => unknown, at: string): Generator<{ at: string; plan: unknown }> {
    const give = (...values: readonly unknown[]) => values.map((v) => ({ at: `${at} ${JSON.stringify(v)?.slice(0, 40)}`, plan: put(v) }));
    if (typeof value === 'number') yield* give(-value, value + 1, value + 0.5, 1e9 * value, -1, 0);
    else if (typeof value === 'boolean') yield* give(!value);
    else if (typeof value === 'string') yield* give(value.slice(1), value.slice(0, -1), `${value}${value.at(-1)}`, '');
    else if (Array.isArray(value)) {
      yield* give(value.slice(1), value.slice(0, -1), [...value, value.at(-1)], []);
      const shapes = new Set<string>();
      for (const [i, entry] of value.entries()) {
        const shape = typeof entry === 'object' ? Object.keys(entry).join() : typeof entry;
        if (!shapes.has(shape)) yield* visit(entry, (v) => put(value.with(i, v)), `${at}/${i}`);
        shapes.add(shape);
      }
    } else if (typeof value === 'object' && value !== null)
      for (const [name, entry] of Object.entries(value)) {
        yield* give({ ...value, [name]: undefined });
        yield* visit(entry, (v) => put({ ...value, [name]: v }), `${at}/${name}`);
      }
  };
  yield* visit(whole, (v) => v, '');
}
