/** From a table to a bench that works: built, written by a hand as a person would, gone through row by row, and judged. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readPlan } from '../../shared/read-plan.ts';
import { limitsOf } from '../../sim-core/build/current-limits.ts';
import {
  type BuildRequest,
  buildPlan,
  dryRun,
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

  test('goes as far where the bytes come in by hand, and says that so many are loaded rather than written', () => {
    const plan = wideBuild({ byHand: true });
    expect(bad(plan)).toEqual([]);
    const card = programmingCard(plan);
    expect(card.ok ? '' : card.failure.says).toMatch(
      /^U1 needs 65\u202f\d{3} bytes, which at 3\.5 s per press would take 63 hours by hand/,
    );
  });

  test('puts the highest input on the left, as it is written and as address pins stand: the leads to one side of the memory never cross', () => {
    const plan = wideBuild({ byHand: true });
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
      .map((l) => [/^B2:j(\d+)$/.exec(l.from)?.[1], /^[a-d](\d+)$/.exec(l.to)?.[1]])
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

  test('gives each output the colour and the current that were asked for it, as far as its chip can', () => {
    const wish: BuildRequest = {
      title: 'Three LEDs',
      inputs: ['A'],
      outputs: [
        { name: 'dim', amps: 2e-3, colour: 'green' },
        { name: 'as all', colour: 'green' },
        { name: 'strong', amps: 20e-3, colour: 'green' },
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
      // the buffer's pins bear only so much, an array of switches takes it all from the LED
      expect(asked.map((a) => Math.round(a.amps * 1e3))).toEqual(show === 'loads' ? [2, 4, 15] : [2, 4, Math.round(asked[2]!.amps * 1e3)]);
      if (show === 'leds') expect(asked[2]!.amps).toBeLessThan(asked[1]!.amps * 4);
    }
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
