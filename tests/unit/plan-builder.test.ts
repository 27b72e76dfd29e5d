/** From a table to a bench that works: built, written by a hand as a person would, gone through row by row, and judged. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { limitsOf } from '../../sim-core/build/current-limits.ts';
import {
  type BuildRequest,
  buildPlan,
  draftPlan,
  dryRun,
  handOver,
  marginsOf,
  moves,
  plain,
  programmingCard,
  proveTable,
  sayFinding,
} from '../../sim-core/index.ts';
import { bad, built, running, writeByHand } from '../support/any-build.ts';
import { wideBuild, wideWord } from '../support/wide-build.ts';

/** One input, seven outputs, written by hand. */
const ONE = {
  title: 'One or the other',
  inputs: ['either'],
  outputs: [...'abcdefg'].map((name) => ({ name })),
  rows: [0x06, 0x3f],
  memory: 'eeprom-2kx8',
  byHand: true,
  amps: 4e-3,
} satisfies Partial<BuildRequest>;

describe('the plan builder', () => {
  test('makes a plan that opens also where its inputs take more than one switch', () => {
    const inputs = Array.from({ length: 13 }, (_, i) => `in ${i}`);
    const rows = Array.from({ length: 2 ** 13 }, (_, r) => r & 1);
    const plan = built({
      title: 'Long',
      inputs,
      outputs: [{ name: 'odd' }],
      rows,
      memory: 'eeprom-8kx8',
      byHand: false,
      show: 'leds',
      buffered: true,
      amps: 4e-3,
    });
    const read = readPlan(JSON.stringify(plan));
    expect(read.ok ? 'opens' : read.failure.says).toBe('opens');
  });

  test('goes to sixteen inputs and sixteen outputs: two memories on the same address wires, switches of eight poles, all that any row asks for shown', () => {
    const plan = wideBuild();
    const read = readPlan(JSON.stringify(plan));
    expect(read.ok ? 'opens' : read.failure.says).toBe('opens');
    const poles = plan.parts.filter((p) => p.kind === 'dip-switch');
    expect(poles.map((p) => p.params?.poles)).toEqual([8, 8]);
    expect(bad(plan)).toEqual([]);
    const sim = running(plan);
    const bitOf = new Map(plan.wanted?.outputs.map((o, bit) => [o.led, bit]));
    const shown = () =>
      sim.readings().leds.reduce((word, { led, brightness }) => (brightness === 'lit' ? word | (1 << (bitOf.get(led) ?? -1)) : word), 0);
    fc.assert(
      fc.property(fc.nat(65535), (row) => {
        const asked = poles.flatMap(({ id }, s) =>
          Array.from({ length: 8 }, (_, pole) => ({ part: id, pole, closed: ((row >> (15 - 8 * s - pole)) & 1) === 1 })),
        );
        for (const pole of moves(sim, asked)) sim.act({ do: 'set', ...pole });
        sim.wait(0.1);
        expect(shown()).toBe(wideWord(row));
      }),
      { numRuns: 60, examples: [[0], [65535], [32768]] },
    );
  });

  test('refuses a table that nobody would write by hand before its bench is wired, and draws it up to a card of 2048 bytes', () => {
    expect(() => wideBuild({ byHand: true })).toThrow(
      /^Memory 1 needs 65\u202f\d{3} bytes, which at 3\.5 s per press would take 63 hours by hand; a card holds at most 2048\. Load the image in one step\.$/,
    );
    const of = (inputs: number, lit: number) =>
      draftPlan({
        ...ONE,
        inputs: Array.from({ length: inputs }, (_, i) => `in ${i}`),
        rows: Array.from({ length: 2 ** inputs }, (_, row) => (row < lit ? 0 : 0x7f)),
        memory: 'eeprom-8kx8',
        show: 'leds',
        buffered: true,
      });
    // what stays FF is not written
    expect([of(12, 2048), of(12, 2049)].map((d) => (d.ok ? 'drawn up' : d.failure.code))).toEqual(['drawn up', 'card/too-long']);
    const card = programmingCard({ ...wideBuild(), memories: {} });
    expect(card.ok ? '' : card.failure.code).toBe('card/no-write-button');
  });

  test('puts the highest input on the left, as it is written and as address pins stand: the leads to one side of the memory never cross', () => {
    const plan = wideBuild();
    expect(plan.parts.filter((p) => p.label?.startsWith('inputs')).map((p) => p.label)).toEqual(['inputs 16 to 9', 'inputs 8 to 1']);
    const eight = built({
      title: 'Eight',
      inputs: Array.from({ length: 8 }, (_, i) => `in ${i}`),
      outputs: [{ name: 'odd' }],
      rows: Array.from({ length: 256 }, (_, r) => r & 1),
      memory: 'eeprom-2kx8',
      byHand: false,
      show: 'leds',
      buffered: true,
      amps: 4e-3,
    });
    const between = eight.wires
      .map((l) => [/^B2:[f-j](\d+)$/.exec(l.from)?.[1], /^[a-e](\d+)$/.exec(l.to)?.[1]])
      .filter((rows) => rows.every((r) => r !== undefined))
      .map(([from, to]) => [Number(from), Number(to)] as const)
      .sort(([a], [b]) => a - b);
    expect(between).toHaveLength(8);
    expect(between.map(([, to]) => to)).toEqual(between.map(([, to]) => to).sort((a, b) => a - b));
  });

  test('refuses a seventeenth input: no memory has so many address pins', () => {
    const made = buildPlan({
      title: 'Too wide',
      inputs: Array.from({ length: 17 }, (_, i) => `in ${i}`),
      outputs: [{ name: 'odd' }],
      rows: [],
      memory: 'eeprom-64kx8',
      byHand: false,
      show: 'leds',
      buffered: true,
      amps: 4e-3,
    });
    expect(made.ok ? '' : made.failure.says).toBe(
      'The table has 17 inputs and EEPROM 64K × 8, 32-pin has 16 address pins. Choose a larger memory or remove inputs.',
    );
  });

  test('makes a bench for the hand of every static RAM, on which a press of the button leaves no doubt', () => {
    for (const memory of ['static-ram-2kx8', 'static-ram-8kx8', 'static-ram-32kx8'])
      expect(bad(built({ ...ONE, memory, show: 'leds', buffered: true })), memory).toEqual([]);
  });

  test('makes a digit on the memory itself that a hand can write, though its segments share a pin', () => {
    const plan = built({ ...ONE, show: 'digit', buffered: false });
    expect(proveTable(writeByHand(plan))).toMatchObject({ ok: true, value: { right: 2, differences: [] } });
  });

  test('gives each output the colour and the current that were asked for it, or says what can be had', () => {
    const wish: BuildRequest = {
      title: 'Three LEDs',
      inputs: ['A'],
      outputs: [
        { name: 'dim', amps: 3e-3, colour: 'green' },
        { name: 'as all', colour: 'green' },
        { name: 'strong', amps: 14e-3, colour: 'green' },
      ],
      rows: [0, 7],
      memory: 'eeprom-2kx8',
      byHand: false,
      show: 'leds',
      buffered: true,
      amps: 4e-3,
    };
    for (const show of ['leds', 'loads'] as const) {
      const plan = built({ ...wish, show });
      const asked = limitsOf({ ...wish, show })!;
      const sim = running({ ...plan, switches: { ...plan.switches, S1: [true] } });
      const lit = ['LED1', 'LED2', 'LED3'].map((id) => sim.readings().leds.find((l) => l.led === id)!.amps);
      for (const [i, amps] of lit.entries()) {
        // resistors go in steps of a fifth
        expect(amps / asked[i]!.amps).toBeGreaterThan(0.8);
        expect(amps / asked[i]!.amps).toBeLessThan(1.02);
      }
      for (const [i, amps] of [3e-3, 4e-3, 14e-3].entries()) expect(lit[i]! / amps).toBeCloseTo(0.9, 0);
    }
    const says = (more: Partial<BuildRequest>) => {
      const made = buildPlan({ ...wish, ...more });
      return made.ok ? 'built' : made.failure.says;
    };
    const all = (amps: number, outputs: number) => ({ amps, outputs: Array.from({ length: outputs }, (_, i) => ({ name: `out ${i}` })) });
    expect(says(all(20e-3, 1))).toBe('out 0 asks for 20 mA, but its LED is kept to 60 % of its limit of 25 mA. Ask for 15 mA or less.');
    expect(says(all(6e-3, 8))).toBe(
      'out 0 to out 7 ask for 48 mA together, but an octal buffer is kept to 60 % of its limit of 70 mA. Ask for 5.25 mA each or less.',
    );
    expect(says(all(5.25e-3, 8))).toBe('built');
    expect(says(all(1e-3, 1))).toBe('out 0 asks for 1 mA, but its LED might look dim with the supply at 4.5 V. Ask for 1.65 mA or more.');
    expect(says(all(1.65e-3, 1))).toBe('built');
    expect(says({ ...all(1e-3, 1), buffered: false })).toBe(
      'out 0 asks for 1 mA, but an LED looks dim below 1 mA. Ask for 1.25 mA or more.',
    );
    expect(says({ ...all(7e-3, 1), buffered: false })).toMatch(
      /an output of EEPROM 2K × 8, 24-pin itself is kept to 60 % of its limit of 10 mA\. Ask for 6 mA or less\.$/,
    );
  });

  test('refuses what is no current', () => {
    for (const amps of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      const made = buildPlan({ ...ONE, amps, show: 'leds', buffered: true });
      expect(made.ok ? '' : made.failure.says).toMatch(/too little to light it\. Give a current above 0, such as 5 mA\.$/);
    }
  });

  test('keeps every limit with loads on an array of switches, and promises their current', () => {
    const plan = built({
      title: 'Loads',
      inputs: ['A', 'B'],
      outputs: Array.from({ length: 8 }, (_, i) => ({ name: `load ${i}` })),
      rows: [0, 0x0f, 0xf0, 0xff],
      memory: 'eeprom-2kx8',
      byHand: false,
      show: 'loads',
      buffered: true,
      amps: 15e-3,
    });
    const found = dryRun(plan);
    expect(found.ok && found.value.map((f) => plain(sayFinding(f, plan)))).toEqual([]);
    const margins = marginsOf(plan, 'worst');
    expect(margins.ok && margins.value.filter((m) => !m.holds)).toEqual([]);
  });

  test('refuses loads where data switches would hang on their pins too, and one that is active low, with the cure', () => {
    const wish: BuildRequest = {
      title: 'x',
      inputs: ['A'],
      outputs: [{ name: 'horn' }],
      rows: [0, 1],
      memory: 'eeprom-2kx8',
      byHand: true,
      show: 'loads',
      buffered: true,
      amps: 4e-3,
    };
    const byHand = buildPlan(wish);
    expect(byHand.ok ? '' : byHand.failure.says).toMatch(
      /has no enable: during a write .* its loads switch with the data\. Load the image, or show the outputs with LEDs\.$/,
    );
    const made = buildPlan({ ...wish, byHand: false, outputs: [{ name: 'horn', activeLow: true }] });
    expect(made.ok ? '' : made.failure.says).toBe(
      'A Darlington array switches a load on when its data pin is high, so horn cannot be active low. Make it active high, or show the outputs with LEDs.',
    );
  });
});

describe('the bench of a table', () => {
  const shown = (show: BuildRequest['show'], low: readonly number[], count = 7): BuildRequest => ({
    title: 'x',
    inputs: ['A'],
    outputs: Array.from({ length: count }, (_, i) => ({ name: `out ${i}`, ...(low.includes(i) ? { activeLow: true } : {}) })),
    rows: [0x2a55 & (2 ** count - 1), 0x15aa & (2 ** count - 1)],
    memory: 'eeprom-2kx8',
    byHand: false,
    show,
    buffered: true,
    amps: 4e-3,
  });

  test('turns each LED of a bar graph as its output asks, and refuses a display whose segments would have to be of both polarities', () => {
    expect(proveTable(built(shown('bar', [1, 4])))).toMatchObject({ value: { right: 2 } });
    const made = buildPlan(shown('digit', [1, 4]));
    expect(made.ok ? '' : made.failure.says).toBe(
      'All segments of a 7-segment display share one pin, but of out 0 to out 6 only out 1 and out 4 are active low. Make all of them active low or none, or show them with LEDs.',
    );
    // one polarity a display is enough
    expect(proveTable(built(shown('digit', [8, 9, 10, 11, 12, 13], 14)))).toMatchObject({ value: { right: 2 } });
  });

  test('puts two displays beside each other on one board, that of the first outputs on the right', () => {
    const places = (plan: Plan) => plan.parts.filter((p) => p.kind.startsWith('seven-segment')).map((p) => p.at);
    expect(places(built(shown('digit', [], 14)))).toEqual(['B2:d37', 'B2:d31']);
  });

  test('has no part that is called like one of its columns, but the LED of that column', () => {
    const outputs = ['LED2', 'R1', 'U1.D0', 'led3', 'W1', 'PS1', 'S1'].map((name) => ({ name }));
    const plan = built({ ...shown('leds', []), inputs: ['C1'], outputs });
    expect(plan.wanted!.outputs.map((o) => o.led)).toEqual(['LED2', 'LED1', 'LED4', 'LED5', 'LED6', 'LED7', 'LED8']);
    const ids = [...plan.parts, ...plan.wires].map((p) => p.id);
    expect(ids.filter((id) => ['R1', 'U1', 'LED3', 'W1', 'PS1', 'S1', 'C1'].includes(id))).toEqual([]);
    expect(new Set(ids).size).toBe(ids.length);
    expect(proveTable(plan)).toMatchObject({ value: { right: 2 } });
  });

  test('is not built where its supply would not last: LEDs and memories are added up in the row that lights most', () => {
    const made = buildPlan({ ...shown('loads', [], 16), amps: 14e-3, memory: 'prom-2kx8', rows: [0, 0xffff] });
    expect(made.ok ? '' : made.failure.says).toMatch(
      /^Row 1 lights \d+ mA of LEDs, and 2 × .* may draw .*: more than the 500 mA of the bench supply\. /,
    );
  });

  test('is not handed over where a row of it is wrong, or an LED takes another current than was asked for', () => {
    const request = shown('leds', []);
    const draft = draftPlan(request);
    if (!draft.ok) throw new Error(draft.failure.says);
    const { plan, loaded } = draft.value;
    const handed = (bench: Plan) => {
      const proof = proveTable(bench);
      if (!proof.ok) throw new Error(proof.failure.says);
      const given = handOver(request, { plan, loaded: bench }, proof.value);
      return given.ok ? 'handed over' : given.failure.says;
    };
    expect(handed(loaded)).toBe('handed over');
    expect(handed({ ...loaded, memories: { U1: { '0': '00', '1': '00' } } })).toMatch(
      /^The bench drawn up for this table is not right: row 0 \(no input\): out 6, .* should be lit and are dark\. Choose/,
    );
    const parts = loaded.parts.map((p) => (p.kind === 'resistor' && p.params?.ohms !== 10_000 ? { ...p, params: { ohms: 2200 } } : p));
    expect(handed({ ...loaded, parts })).toMatch(/in row 0 out 0 takes [\d.]+ mA of 4 mA/);
  });
});

test.each(['prom-2kx8', 'mask-rom-2kx8', 'eeprom-2kx8'])('bytes FF are loaded into a %s like any others', (memory) => {
  const proof = proveTable(
    built({
      title: 'All lit but one',
      inputs: ['a', 'b', 'c', 'd', 'e'],
      outputs: Array.from({ length: 8 }, (_, i) => ({ name: `out ${i}` })),
      rows: Array.from({ length: 32 }, (_, row) => (row === 31 ? 0 : 0xff)),
      memory,
      byHand: false,
      show: 'leds',
      buffered: true,
      amps: 2e-3,
    }),
  );
  expect(proof).toMatchObject({ ok: true, value: { right: 32 } });
});
