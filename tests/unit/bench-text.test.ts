/** The text form of a plan: nothing is lost on the way there and back, and a line that cannot be read is named with what stands there and the cure. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import schema from '../../shared/plan.schema.json' with { type: 'json' };
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { isBenchText, readBenchText, scanBenchText, writeBenchText } from '../../sim-core/index.ts';
import { fromSchema, type Schema } from '../support/from-schema.ts';

const check = (plan: Plan) => readPlan(JSON.stringify(plan));

function plan(text: string): Plan {
  const read = readBenchText(text, check);
  if (!read.ok) throw new Error(read.failure.says);
  return read.value;
}

describe('there and back', () => {
  test('any document that the schema allows comes back the same to the last bit', () => {
    fc.assert(
      fc.property(fromSchema(schema as unknown as Schema) as fc.Arbitrary<Plan>, (document) => {
        const back = readBenchText(writeBenchText(document));
        expect(back).toStrictEqual({ ok: true, value: document });
        expect(JSON.stringify(back.ok && back.value)).toBe(JSON.stringify(document));
      }),
      { numRuns: 100 },
    );
  });

  test.each(DEMO_PLANS.map((d) => [d.id, d.plan] as const))('%s, whose text is the same when it is written again', (_, document) => {
    const text = writeBenchText(document);
    expect(plan(text)).toStrictEqual(document);
    expect(writeBenchText(plan(text))).toBe(text);
  });

  test('whatever a typed text means, its plan means the same when it is written', () => {
    const texts = DEMO_PLANS.slice(0, 2).map((d) => writeBenchText(d.plan));
    const typed = fc
      .constantFrom(...texts)
      .chain((text) =>
        fc
          .array(
            fc.tuple(
              fc.nat(text.length),
              fc.nat(4),
              fc.constantFrom('', ' ', '"', '#', '\n', '0', 'a', '=', '@', 'note ', '4k7', '\\', ','),
            ),
            { maxLength: 3 },
          )
          .map((cuts) => cuts.reduce((t, [at, drop, put]) => t.slice(0, at) + put + t.slice(at + drop), text)),
      );
    let read = 0;
    fc.assert(
      fc.property(typed, (text) => {
        const first = readBenchText(text);
        if (!first.ok) {
          expect(first.failure.says).toMatch(/^Line \d+: .+\.$/s);
          return;
        }
        read++;
        expect(readBenchText(writeBenchText(first.value))).toStrictEqual(first);
      }),
      { numRuns: 100 },
    );
    expect(read).toBeGreaterThan(10);
  });
});

describe('what is written', () => {
  const document: Plan = {
    format: 'lampwright-plan',
    version: 2,
    title: 'One of each',
    boards: [
      { id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: true },
      { id: 'B2', kind: 'board-30', spot: [26, -22.4], splitRails: false },
    ],
    parts: [
      { id: 'PS1', kind: 'bench-supply', spot: [0, -10], params: { volts: 5, amps: 0.5 } },
      { id: 'U1', kind: 'eeprom-2kx8', at: 'd40', rotated: true },
      { id: 'R1', kind: 'resistor', at: 'a30', to: 'B2:b3', params: { ohms: 4700 }, label: 'the "vent"' },
      { id: 'D1', kind: 'led', at: 'f33', to: 'e33', params: { colour: 'red' }, damaged: { by: 'current', measured: 0.28, limit: 0.03 } },
    ],
    wires: [{ id: 'W1', from: 'PS1.+', to: '+j1', colour: 'red' }],
    memories: { U1: { '000': 'FF00C3', '7F0': 'AA'.repeat(40) } },
    wanted: {
      inputs: [{ name: 'hot', pin: 'U1.A0' }],
      outputs: [{ name: 'grow light', pin: 'U1.D0', activeLow: true, led: 'D1' }],
      rules: ['light when cold'],
      expressions: ['grow light = not hot'],
      rows: [1, 0],
    },
    meters: [
      { id: 'M1', measures: 'volts', at: 'a12', against: 'b3' },
      { id: 'M2', measures: 'amps', leg: 'D1.1', label: 'through the LED', tag: [2, -3.5] },
      { id: 'M3', measures: 'level', at: 'a12' },
    ],
    notes: ['Switch off first.', ' two\nlines # and no comment'],
    switches: { PS1: [true], S1: [true, false, true] },
  };

  test('is laid out for the eye', () => {
    expect(writeBenchText(document)).toBe(`bench-text 1
title One of each

B1    board-63      @0,0    split
B2    board-30      @26,-22.4

PS1   bench-supply  @0,-10 volts=5 amps=500m
U1    eeprom-2kx8   d40     turned
R1    resistor      a30     B2:b3   ohms=4k7 "the \\"vent\\""
D1    led           f33     e33     colour=red damaged:current:280m/30m

W1    wire  PS1.+   +j1     red

U1    memory 000=FF00C3
U1    memory 7F0=${'AA'.repeat(32)}
U1    memory    +${'AA'.repeat(8)}

PS1   hands         1
S1    hands         101

M1    meter a12     against b3
M2    meter through D1.1 @2,-3.5 "through the LED"
M3    meter level a12

wanted input  hot           U1.A0
wanted output "grow light"  U1.D0   active-low led=D1
wanted rule   light when cold
wanted logic  grow light = not hot
wanted rows   0: 01 00

note Switch off first.
note " two\\nlines # and no comment"
`);
  });

  test('changes by one line where the plan changes by one thing', () => {
    const [resistor] = document.parts.filter((p) => p.id === 'R1');
    const changed = { ...document, parts: document.parts.map((p) => (p === resistor ? { ...p, params: { ohms: 1_500_000 } } : p)) };
    const before = writeBenchText(document).split('\n');
    const after = writeBenchText(changed).split('\n');
    expect(after.filter((l) => !before.includes(l))).toEqual([expect.stringContaining('ohms=1M5')]);
    expect(after).toHaveLength(before.length);
  });
});

describe('what is read', () => {
  test('boards without a place stand below each other, a wire without a colour is green, a bench without a title has one', () => {
    expect(plan('B1 board-63\nB2 board-30 split\nW1 wire a1 b2')).toMatchObject({
      title: 'A bench',
      boards: [{ spot: [0, 0] }, { spot: [0, 21], splitRails: true }],
      wires: [{ colour: 'green' }],
    });
  });

  test('lines may end as on any machine, and what follows # is for people', () => {
    expect(plan('title Watch # mine\r\nB1 board-63 # here\r\n# nothing\r\nR1 resistor a1 a5 "a # b"')).toMatchObject({
      title: 'Watch',
      parts: [{ label: 'a # b' }],
    });
  });

  test('a file is told from the plan as JSON by its name or its first word', () => {
    expect([isBenchText('x.bench.txt', ''), isBenchText('x', ' bench-text 1'), isBenchText('x.plan.json', '{}')]).toEqual([
      true,
      true,
      false,
    ]);
  });
});

describe('a line that cannot be read', () => {
  test.each([
    ['1R resistor a1 a2', 'Line 2: 1R cannot be an id: write a letter first, then letters, digits or _, 16 at most, such as R1.'],
    ['R1', 'Line 2: There is only "R1". Write an id, then what it is: R1 resistor a3 a7 ohms=330.'],
    ['bench-text two', 'Line 2: "two" is no version of the text form. Write bench-text 1.'],
    [
      'bench-text 2',
      'Line 2: The text is version 2, newer than the version 1 that this Lampwright knows. Open it with a newer Lampwright.',
    ],
    ['title', 'Line 2: There is nothing after "title". Write the text behind it, or take the line out.'],
    ['title a\ntitle b', 'Line 3: The title is written in line 2 already. Take one of the two lines out.'],
    ['note "a" b', 'Line 2: B stands after the quotes. Put all of the text into them, or leave them out.'],
    [
      'B2 board-63 left',
      'Line 2: "left" says nothing of a board. Write where it stands, such as @0,21, and "split" if its rails are cut in the middle.',
    ],
    ['B2 board-63 @3', 'Line 2: "@3" is no place: write pitches to the right and down, with a comma and no space, such as @26,-22.4.'],
    ['R1 resistor a1 a5 b5', 'Line 2: "b5" is a third place for R1, which stands at a1 and a5. Take one of them out.'],
    ['R1 resistor a1 a5 4k7', 'Line 2: "4k7" is neither a tie point such as a12, nor a figure such as ohms=330, nor a place'],
    ['R1 resistor a1 a5 ohms=', 'Line 2: There is nothing after ohms=. Write a value, such as ohms=4k7.'],
    ['R1 resistor a1 a5 ohms=1 ohms=2', 'Line 2: Ohms of R1 is given twice. Take one of the two out.'],
    ['R1 resistor a1 a5 "vent', 'Line 2: The quotes before vent are not closed. Put " at the end of that text.'],
    ['R1 resistor a1 a5 "a"b', 'Line 2: "a" runs into "b". Put a space after the quotes.'],
    [
      'R1 resistor a1 a5 "\\x"',
      'Line 2: "\\x" has a \\ that means nothing here. Write \\\\ for the sign itself, \\" for quotes, \\n for a new line.',
    ],
    [
      'R1 resistor a1 a5 damaged:heat:1/2',
      'Line 2: "damaged:heat:1/2" does not say what killed the part: write current, reverse, power, supply, voltage, output, package, input, then measured',
    ],
    ['W1 wire a1', 'Line 2: Wire W1 needs two ends; write for example: W1 wire a3 b17 green.'],
    ['W1 wire a1 b2 Red', 'Line 2: "Red" is no colour: use three to ten small letters such as red; write for example'],
    ['W1 wire a1 b2 red now', 'Line 2: "now" is too much for wire W1; write for example'],
    ['U1 memory', 'Line 2: There are no contents of U1. Write an address and bytes such as 00A=FF00, or "erased".'],
    [
      'U1 memory 0=F',
      'Line 2: "0=F" is not contents of U1: write a hexadecimal address and bytes of two figures each such as 00A=FF00, or +FF00 to go on.',
    ],
    ['U1 memory +FF', 'Line 2: "+FF" goes on where nothing has begun. Write an address first, such as 00A=FF.'],
    ['U1 memory 0=FF 0=EE', 'Line 2: Address 0 of U1 is given twice. Take one of the two out.'],
    ['U1 cells worn', 'Line 2: "worn" is not told of cells: write uncertain, charge, writes, or nothing.'],
    [
      'U1 cells writes 0=3',
      'Line 2: "0=3" does not say how often cells of U1 were written: write the first address, how often, and how many cells, such as 00A=12x4.',
    ],
    ['S1 hands up', 'Line 2: "up" does not say how S1 stands: write one 0 or 1 a pole, such as 10110.'],
    ['S1 hands 1\nS1 hands 0', 'Line 3: Where S1 stands is written in line 2 already. Take one of the two lines out.'],
    [
      'M1 meter',
      'Line 2: Meter M1 needs a place; write M1 meter a12, M1 meter a12 against b3, M1 meter level a12, or M1 meter through D3.1.',
    ],
    ['M1 meter through a12', 'Line 2: "a12" is no leg to clip round; write M1 meter a12'],
    ['M1 meter a12 "to" of:"x"', 'Line 2: "of:"x"" is not clear after meter M1; write'],
    ['M1 meter a12 against b3 c4', 'Line 2: "c4" is too much for meter M1; write'],
    [
      'wanted LED',
      'Line 2: "LED" cannot be wanted: write wanted input, wanted output, wanted rule, wanted logic, wanted rows, wanted free, or wanted nothing.',
    ],
    ['wanted input hot', 'Line 2: The wanted input needs a name and a pin; write for example: wanted input hot U1.A0.'],
    [
      'wanted input hot pin3',
      'Line 2: "pin3" is no pin by its name; write for example: wanted input hot U1.A0, and put a name of several words in quotes.',
    ],
    [
      'wanted output grow U1.D0 light',
      'Line 2: "light" is too much; write for example: wanted output vent U1.D0, and after it "active-low", or the LED that shows it, such as LED=D3.',
    ],
    ['wanted rows 00 G1', 'Line 2: "G1" is no row: write the outputs as a hexadecimal number from 0 to FFFF, such as 8C.'],
    ['wanted rows 1: 00', 'Line 2: Row 1 is announced where row 0 comes. Write the rows in order, and none twice.'],
    [
      'R1 resistor a1 a5 "a label that is much longer than a label may be"',
      'Line 2: parts/0/label is "a label that is much longer than a l…": give text of at most 40 characters.',
    ],
  ])('%s', (line, says) => {
    const read = readBenchText(`B1 board-63\n${line}`, check);
    expect(read.ok ? 'was read' : read.failure.says).toContain(says);
    expect(read.ok ? '' : read.failure.at).toMatch(/^line [23]$/);
  });

  test('all such lines are named, and the others are read all the same', () => {
    const { problems, plan: rest, lineOf } = scanBenchText('B1 board-63\nR1\nR2 resistor a1 a5\nR3 resistor ?\nR4 resistor b1 b5');
    expect(problems.map((p) => p.line)).toEqual([2, 4]);
    expect(rest.parts.map((p) => p.id)).toEqual(['R2', 'R4']);
    expect([lineOf('parts/1/params/ohms'), lineOf('boards/0'), lineOf('wires/7')]).toEqual([5, 1, undefined]);
  });
});
