/** The text form of a plan: nothing is lost on the way there and back, and a line that cannot be read is named with what stands there and the cure. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import schema from '../../shared/plan.schema.json' with { type: 'json' };
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { isBenchText, PARTS, readBenchText, scanBenchText, writeBenchText } from '../../sim-core/index.ts';
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
              fc.constantFrom('', ' ', '"', '#', '\n', '0', 'a', ' with ', '@', 'note ', '4k7', '\\', ', '),
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
          expect(first.failure.says).toMatch(/^Line \d+: .+[.?]$/s);
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
      { id: 'S1', kind: 'dip-switch', at: 'e3', params: { poles: 3 }, poleNames: ['hot', '', 'at night'] },
      { id: 'R1', kind: 'resistor', at: 'a30', to: 'B2:b3', params: { ohms: 4700 }, label: 'the "vent"' },
      { id: 'LED1', kind: 'led', at: 'f33', to: 'e33', params: { colour: 'red' }, damaged: { by: 'current', measured: 0.28, limit: 0.03 } },
      { id: 'X1', kind: 'wire', at: 'to', params: {} },
    ],
    wires: [{ id: 'W1', from: 'PS1.+', to: '+j1', colour: 'red' }],
    memories: { U1: { '000': 'FF00C3', '7C0': 'AA'.repeat(40) } },
    wanted: {
      inputs: [{ name: 'hot', pin: 'U1.A0' }],
      outputs: [{ name: 'grow light', pin: 'U1.D0', activeLow: true, led: 'LED1' }],
      rules: ['light when cold'],
      expressions: ['grow light = not hot'],
      rows: [1, 0],
    },
    meters: [
      { id: 'M1', measures: 'volts', at: 'a12', against: 'b3' },
      { id: 'M2', measures: 'amps', leg: 'LED1.1', label: 'through the LED', tag: [2, -3.5] },
      { id: 'M3', measures: 'level', at: 'a12' },
    ],
    notes: ['Switch off first.', ' two\nlines # and no comment'],
    switches: { PS1: [true], S1: [true, false, true] },
  };

  test('says first what a thing is, then its id, its value and where it is', () => {
    expect(writeBenchText(document)).toBe(`lampwright-text 2
title One of each

board-63 B1 at @0,0 split rails
board-30 B2 at @26,-22.4

bench-supply PS1 5 at @0,-10 with amps 500m
eeprom-2kx8 U1 at d40 rotated
dip-switch S1 at e3 with poles 3 named hot "" "at night"
resistor R1 4k7 from a30 to B2:b3 called "the \\"vent\\""
led LED1 red from f33 to e33 damaged by current 280m over 30m
"wire" X1 at "to" with nothing

wire W1 red from PS1.+ to +j1

memory U1 000 FF00C3
memory U1 7C0 ${'AA'.repeat(32)},
memory U1 7E0 ${'AA'.repeat(8)}

switch PS1 set 1
switch S1 set 101

meter M1 volts at a12 against b3
meter M2 amps through LED1.1 called "through the LED" tag @2,-3.5
meter M3 level at a12

wanted input hot at U1.A0
wanted output "grow light" at U1.D0 active-low on LED1
wanted rule light when cold
wanted expression grow light = not hot
wanted rows 0: 01 00

note Switch off first.
note " two\\nlines # and no comment"
`);
    expect(readBenchText(writeBenchText(document))).toStrictEqual({ ok: true, value: document });
  });

  test('changes by one line where the plan changes by one thing', () => {
    const [resistor] = document.parts.filter((p) => p.id === 'R1');
    const changed = { ...document, parts: document.parts.map((p) => (p === resistor ? { ...p, params: { ohms: 1_500_000 } } : p)) };
    const before = writeBenchText(document).split('\n');
    const after = writeBenchText(changed).split('\n');
    expect(after.filter((l) => !before.includes(l))).toEqual([expect.stringContaining('resistor R1 1M5 from')]);
    expect(after).toHaveLength(before.length);
  });

  test.each([
    ['in one piece', { '000': 'A5'.repeat(100) }],
    ['of the greatest length', { '000': 'A5'.repeat(1024), '400': '5A'.repeat(1024) }],
    ['in full lines that follow each other', { '000': 'A5'.repeat(32), '020': '5A'.repeat(32), '40': '00' }],
    ['in shorter ones', { '000': 'A5'.repeat(16), '010': '5A'.repeat(16), '20': '00' }],
    ['past the last address that can be written', { FFFFE0: 'A5'.repeat(64) }],
  ])('contents %s come back in the same pieces', (_, image) => {
    const cells = {
      uncertain: image,
      charge: { '3': '0123456789ABCDEF'.repeat(8), '7': 'F'.repeat(64) },
      writes: { '0': [12, 4] as [number, number] },
    };
    const held: Plan = { ...document, memories: { U1: image, U2: {} }, cells: { U2: {}, U3: { writes: {} }, U1: cells } };
    const back = readBenchText(writeBenchText(held));
    expect(back).toStrictEqual({ ok: true, value: held });
    expect(JSON.stringify(back.ok && back.value.cells)).toBe(JSON.stringify(held.cells));
  });

  test('a line of contents goes on in the next only after a comma, and only at its address', () => {
    const of = (...lines: string[]) => plan(['board-63 B1', 'eeprom-2kx8 U1 at d10', ...lines].join('\n')).memories.U1;
    expect(of('memory U1 00a ff00,', 'memory U1 00c 5a', 'memory U1 00d a5')).toEqual({ '00A': 'FF005A', '00D': 'A5' });
    expect(of('memory U1 0 FF, 1 00,', 'memory U1 3 5A')).toEqual({ '0': 'FF', '1': '00', '3': '5A' });
  });
});

describe('what is read', () => {
  test('boards without a place stand below each other, a wire without a colour is green, a bench without a title has one', () => {
    expect(plan('board-63 B1\nboard-30 B2 split rails\nwire W1 from a1 to b2')).toMatchObject({
      title: 'A bench',
      boards: [{ spot: [0, 0] }, { spot: [0, 21], splitRails: true }],
      wires: [{ colour: 'green' }],
    });
  });

  test('lines may end as on any machine, and what follows # is for people', () => {
    expect(plan('title Watch # mine\r\nboard-63 B1 # here\r\n# nothing\r\nresistor R1 from a1 to a5 called "a # b"')).toMatchObject({
      title: 'Watch',
      parts: [{ label: 'a # b' }],
    });
  });

  test('a value stands alone or under its name, a part at one hole or from one, words in any order', () => {
    const of = (line: string) => plan(`board-63 B1\n${line}`).parts[0];
    expect(of('resistor R1 4k7 from a1 to a5 called pull-up')).toEqual(of('resistor R1 called "pull-up" to a5 with ohms 4700 at a1'));
    expect(of('dip-switch S1 at e3 named hot "at night" with poles 2')).toMatchObject({
      poleNames: ['hot', 'at night'],
      params: { poles: 2 },
    });
    expect(of('octal-buffer U1 HCT at e3')?.params).toEqual({ family: 'HCT' });
    expect(of('seven-segment-driver-latch U1 "4000" at e3')?.params).toEqual({ family: '4000' });
  });

  test('a file is told from the plan as JSON by its name or its first word', () => {
    expect([
      isBenchText('x.plan.txt', ''),
      isBenchText('x', ' bench-text 1'),
      isBenchText('x', 'lampwright-text 2'),
      isBenchText('x.plan.json', '{}'),
    ]).toEqual([true, true, true, false]);
  });
});

describe('a line that cannot be read', () => {
  test.each(PARTS.map((k) => k.id))('with %s is told an example of its own kind, which can be read', (kind) => {
    const refusal = readBenchText(`board-63 B1\n${kind} zz9 at at`);
    const example = /write for example: (.*)\.$/.exec(refusal.ok ? '' : refusal.failure.says)?.[1] ?? '';
    expect(example.split(' ')[0]).toBe(kind);
    expect(readBenchText(`board-63 B1\n${example}`, check)).toMatchObject({ ok: true, value: { parts: [{ kind }] } });
  });

  test('hides no row that it would have brought: the next line of rows is not called wrong as well', () => {
    const { problems } = scanBenchText('wanted input A at U1.A0\nwanted rows 0: 00 zz 01\nwanted rows 3: 01 01');
    expect(problems.map((p) => p.line)).toEqual([2]);
  });

  const RESISTOR = 'resistor R1 4k7 from a30 to -a25';
  test.each([
    ['resistor 1R from a1 to a2', 'text/bad-id', 'Line 2: "1R" is not an id: write a letter first, then letters, digits or _, 16 at most'],
    ['resistor', 'text/bad-id', 'Line 2: Resistor has no id: write a letter first'],
    [
      'R1 resistor a1 a2',
      'text/unknown-line',
      `Line 2: No line begins with "R1". Write what it is, then its id, as in ${RESISTOR}; a text of the earlier notation begins with bench-text 1.`,
    ],
    ['part R1 at a1', 'text/unknown-line', 'Line 2: No line begins with "part".'],
    ['board B2', 'text/unknown-line', 'Line 2: No line begins with "board". Did you mean board-63 or board-30?'],
    ['resistor R1 damaged by heat 1 over 2 pins', 'text/bad-value', 'does not say what damaged the part'],
    ['wier W1 from a1 to a2', 'text/unknown-line', 'Line 2: No line begins with "wier". Did you mean wire?'],
    ['resister R1', 'text/unknown-line', 'Line 2: No line begins with "resister". Did you mean resistor?'],
    ['wanted imput hot at U1.A0', 'text/unknown-line', 'Line 2: No line begins with "wanted imput". Did you mean wanted input?'],
    [
      'lampwright-text two',
      'text/unknown-version',
      'Line 2: "two" is not a version of the text notation. Write lampwright-text 2; a text of version 1 begins with bench-text 1.',
    ],
    [
      'lampwright-text 3',
      'text/unknown-version',
      'Line 2: The text is version 3, newer than the version 2 that this Lampwright knows. Open it with a newer Lampwright.',
    ],
    ['title', 'text/missing-word', 'Line 2: The line is not complete; write for example: title Greenhouse guard.'],
    ['title a\ntitle b', 'text/given-twice', 'Line 3: Title is in line 2 already. Remove one of the two lines.'],
    [
      'note "a" b',
      'text/bad-quotes',
      'Line 2: "b" comes after the closing quote. Put all of the text inside the quotes, or leave them out.',
    ],
    [
      'board-63 B2 left',
      'text/unexpected-word',
      'Line 2: "left" does not belong there; write for example: board-63 B1 at @0,21 split rails.',
    ],
    [
      'board-63 B2 at @3',
      'text/bad-value',
      'Line 2: "@3" is not a spot of the bench, in pitches to the right and down such as @26,-22.4; write for example',
    ],
    [
      'resistor R1 from a1 to a5 b5',
      'text/unexpected-word',
      `Line 2: "b5" does not belong there; write for example: resistor R1 330 from a30 to a34.`,
    ],
    ['resistor R1 from a1 at a5', 'text/given-twice', 'Line 2: R1 is both at a5 and from a1. Remove one of the two.'],
    [
      'push-button SB1 4k7 at a1',
      'text/unexpected-word',
      'Line 2: "4k7" does not belong there: a push-button has no value that says what it is. Take it out.',
    ],
    [
      'dip-switch S1 5 at e3',
      'text/unexpected-word',
      'Line 2: "5" does not belong there: a dip-switch has no value that says what it is. Write: with poles 5.',
    ],
    ['resistor R1 from a1 to a5 with ohms', 'text/missing-word', 'Line 2: There is nothing after "ohms"; write for example'],
    ['resistor R1 from a1 to', 'text/missing-word', 'Line 2: There is nothing after "to"; write for example'],
    ['resistor R1 from a1 to a5 with ohms 1, ohms 2', 'text/given-twice', 'Line 2: "ohms" is there twice; write for example'],
    ['resistor R1 1 from a1 to a5 with ohms 2', 'text/given-twice', 'Line 2: R1 has two values for ohms. Remove one of the two.'],
    ['resistor R1 from a1 from a5', 'text/given-twice', 'Line 2: "from" is there twice; write for example'],
    ['resistor R1 with ohms 1 tolerance 2', 'text/unexpected-word', 'Line 2: "tolerance" does not belong there; write for example'],
    [
      'resistor R1 called "vent',
      'text/bad-quotes',
      'Line 2: The quotes before vent are not closed. Put " at the end of that text, or remove the one before it.',
    ],
    [
      'resistor R1 called "a"b',
      'text/bad-quotes',
      'Line 2: "a" runs into b. Put a space between them, or remove a quotation mark that is too many.',
    ],
    [
      'resistor R1 called "\\x"',
      'text/bad-quotes',
      'Line 2: "\\x" has a \\ that means nothing here. Write \\\\ for the character itself, \\" for quotes, \\n for a new line.',
    ],
    [
      'resistor R1 damaged by heat 1 over 2',
      'text/bad-value',
      'Line 2: "by heat 1 over 2" does not say what damaged the part: by current, reverse, power, supply, voltage, output, package, input, measured over limit, such as damaged by current 280m over 30m; write for example',
    ],
    ['wire W1 from a1', 'text/missing-word', 'Line 2: "to" is missing; write for example: wire W1 red from a3 to b17.'],
    [
      'wire W1 Red from a1 to b2',
      'text/bad-value',
      'Line 2: "Red" is not a colour of three to ten small letters such as red; write for example: wire W1 red from a3 to b17.',
    ],
    ['wire W1 from a1 to b2 now', 'text/unexpected-word', 'Line 2: "now" does not belong there; write for example: wire W1'],
    ['memory U1', 'text/missing-word', 'Line 2: The line is not complete; write for example: memory U1 000 FF00C3.'],
    [
      'memory U1 0 F',
      'text/bad-value',
      'Line 2: "F" is not contents, 2 hexadecimal figures a cell; write for example: memory U1 000 FF00C3.',
    ],
    ['memory U1 x FF', 'text/bad-value', 'Line 2: "x" is not a hexadecimal address; write for example: memory U1'],
    ['memory U1 0 FF\nmemory U1 0 EE', 'text/given-twice', 'Line 3: Address 0 is there twice. Remove one of the two.'],
    ['cells U1 worn', 'text/unexpected-word', 'Line 2: "worn" does not belong there; write for example: cells U1 uncertain 000 0F'],
    [
      'cells U1 writes 0 3',
      'text/bad-value',
      'Line 2: "3" is not how often and how many cells were written, such as 12x4; write for example',
    ],
    [
      'switch S1 set up',
      'text/bad-value',
      'Line 2: "up" is not how a switch is set, one 0 or 1 a pole; write for example: switch S1 set 10110.',
    ],
    ['switch S1 set 1\nswitch S1 set 0', 'text/given-twice', 'Line 3: Switch S1 is in line 2 already. Remove one of the two lines.'],
    ['meter M1', 'text/missing-word', 'Line 2: Meter M1 needs a place: at a12.'],
    ['meter M1 amps', 'text/missing-word', 'Line 2: Meter M1 needs a leg: through LED3.1.'],
    ['meter M1 amps at a12', 'text/unexpected-word', 'Line 2: "a12" does not belong there: meter M1 measures amps.'],
    ['meter M1 amps through a12', 'text/bad-value', 'Line 2: "a12" is not a leg such as LED3.1; write for example: meter M1 volts'],
    ['meter M1 level at a12 against b3', 'text/unexpected-word', 'Line 2: "b3" does not belong there: meter M1 measures level.'],
    ['wanted LED', 'text/unknown-line', 'Line 2: No line begins with "wanted LED". Write what it is'],
    ['wanted input hot', 'text/missing-word', 'Line 2: "at" is missing; write for example: wanted input hot at U1.A0.'],
    ['wanted input hot at pin3', 'text/bad-value', 'Line 2: "pin3" is not a pin by its name, such as U1.A0; write for example'],
    [
      'wanted output grow light at U1.D0',
      'text/unexpected-word',
      'Line 2: "light" does not belong there; write for example: wanted output "grow light" at',
    ],
    [
      'wanted rows 00 G1',
      'text/bad-value',
      'Line 2: "G1" is not a row: write the outputs as a hexadecimal number from 0 to FFFF, such as 8C.',
    ],
    ['wanted rows 1: 00', 'text/wrong-row', 'Line 2: Row 1 is announced where row 0 comes. Write the rows in order, and none twice.'],
    [
      'resistor R1 from a1 to a5 called "a label that is much longer than a label may be"',
      'plan/outside-schema',
      'Line 2: parts/0/label is "a label that is much longer than a l…": give text of at most 40 characters.',
    ],
  ])('%s', (line, code, says) => {
    const read = readBenchText(`board-63 B1\n${line}`, check);
    expect(read.ok ? 'was read' : read.failure.says).toContain(says);
    expect(read.ok ? '' : read.failure.code).toBe(code);
    expect(read.ok ? '' : read.failure.says).toMatch(/[.?]$/);
    expect(read.ok ? '' : read.failure.at).toMatch(/^line [23]$/);
  });

  test('all such lines are named, and the others are read all the same', () => {
    const {
      problems,
      plan: rest,
      lineOf,
    } = scanBenchText('board-63 B1\nR1\nresistor R2 from a1 to a5\nresistor R3 ? ?\nresistor R4 from b1 to b5');
    expect(problems.map((p) => p.line)).toEqual([2, 4]);
    expect(rest.parts.map((p) => p.id)).toEqual(['R2', 'R4']);
    expect([lineOf('parts/1/params/ohms'), lineOf('boards/0'), lineOf('wires/7')]).toEqual([5, 1, undefined]);
  });
});
