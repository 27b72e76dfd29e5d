/** All settings of the switches that set a bench's inputs: which switch sets which input and which way, every row once, and rows shared among workers. */
import { describe, expect, test } from 'vitest';
import { composeAll } from '../../sim-core/demos/documents.ts';
import { memoryBench } from '../../sim-core/findings/example-benches.ts';
import { sweep, walkRows } from '../../sim-core/run/sweep.ts';
import { switchAt, switchedInputs } from '../../sim-core/run/switched-inputs.ts';
import { manyMemories } from '../bench/benches.ts';
import { planOf, start } from '../support/bench.ts';

/** A0 and A1 go high when their pole of S1 closes, A2 goes low; each address holds itself; LED1 on D0, LED2 on D1. */
const BENCH = memoryBench(
  `wire WOE from j16 to -j9
  wire WWE from j15 to +j9
  dip-switch S1 at e45 with poles 3
  switch S1 set 011
  wire WS1 from a45 to a19
  wire WP1 from j45 to +j25
  resistor RA0 10k from b45 to -a30
  wire WS2 from a46 to a18
  wire WP2 from j46 to +j26
  resistor RA1 10k from b46 to -a31
  wire WS3 from a47 to a17
  wire WP3 from j47 to -j27
  resistor RA2 10k from b47 to +a32
  wire WJ from +a33 to +j33
  led LED1 from b20 to b30
  resistor R1 1k from a30 to -a20
  led LED2 from b21 to b33
  resistor R2 1k from a33 to -a21
  memory U1 000 0001020304050607`,
  'WA0',
  'WA1',
  'WA2',
);
const good = <T>(o: { ok: true; value: T } | { ok: false; failure: { says: string } }): T => {
  if (!o.ok) throw new Error(o.failure.says);
  return o.value;
};

const INPUTS = [
  { name: 'A0', pin: 'U1.A0', part: 'S1', pole: 0, highWhenClosed: true },
  { name: 'A1', pin: 'U1.A1', part: 'S1', pole: 1, highWhenClosed: true },
  { name: 'A2', pin: 'U1.A2', part: 'S1', pole: 2, highWhenClosed: false },
];

describe('the inputs of a bench', () => {
  test('are the address pins that one switch sets, and which way; the switches stand as before', () => {
    const sim = start(BENCH, { still: true });
    expect(switchedInputs(sim)).toEqual(INPUTS);
    expect(sim.readings().switches.S1).toEqual([false, true, true]);
    expect(switchAt(sim, 'U1.A3')).toBeUndefined();
    expect(switchAt(sim, 'U9.A0')).toBeUndefined();
  });
  test('have the names that the plan gives them, in its order', () => {
    const wanted = {
      inputs: [
        { name: 'cold', pin: 'U1.A2' },
        { name: 'hot', pin: 'U1.A0' },
      ],
      outputs: [{ name: 'F', pin: 'U1.D0' }],
      rows: [0, 1, 0, 1],
    };
    const sim = start({ ...planOf(BENCH), wanted } as never, { still: true });
    expect(switchedInputs(sim).map((i) => [i.name, i.pole, i.highWhenClosed])).toEqual([
      ['cold', 2, false],
      ['hot', 0, true],
    ]);
  });
  test('are one for each switch where memories share their address wires', () => {
    const found = switchedInputs(start(manyMemories(2, (a) => a & 0xff) as never, { still: true }));
    expect(found.map((i) => [i.pin, i.pole])).toEqual(Array.from({ length: 11 }, (_, bit) => [`U1.A${bit}`, bit]));
  });
  test('are not those that two switches set, nor those of a button', () => {
    const two = `${BENCH}\ndip-switch S2 at e50 with poles 1\nwire WT1 from a50 to c45\nwire WT2 from j50 to +j30`;
    expect(switchedInputs(start(two, { still: true })).map((i) => i.name)).toEqual(['A1', 'A2']);
    const button = `${BENCH}\npush-button S2 at e50\nwire WT1 from a50 to c45\nwire WT2 from j52 to +j30`;
    expect(switchedInputs(start(button, { still: true })).map((i) => i.name)).toEqual(['A0', 'A1', 'A2']);
  });
});

describe('a pin that two poles are near', () => {
  /** The first pole pulls A0 from + down to −; the second is joined to it through 1 MΩ, which moves it by less than half a volt. */
  const bench = memoryBench(
    `wire WOE from j16 to -j9
  wire WWE from j15 to +j9
  dip-switch S1 at e45 with poles 2
  wire WS1 from a45 to a19
  wire WP1 from j45 to -j25
  resistor RA0 10k from b19 to +a30
  resistor RM 1M from c19 to a46
  wire WP2 from j46 to -j26
  wire WJ from +a33 to +j33`,
    'WA0',
  );
  test('is set by the one that moves it, here low when closed', () => {
    expect(switchAt(start(bench, { still: true }), 'U1.A0')).toEqual({ pin: 'U1.A0', part: 'S1', pole: 0, highWhenClosed: false });
    expect(switchAt(start(`${bench}\nswitch S1 set 10`, { still: true }), 'U1.A0')).toEqual({
      pin: 'U1.A0',
      part: 'S1',
      pole: 0,
      highWhenClosed: false,
    });
  });
  test('is set by the only pole near it, however little that moves it', () => {
    const alone = bench.replace('wire WS1 from a45 to a19\n', '');
    expect(switchAt(start(alone, { still: true }), 'U1.A0')).toMatchObject({ part: 'S1', pole: 1 });
  });
});

describe('a sweep', () => {
  test('reads every row: the byte that stands there, and the LEDs of its bits', () => {
    const { inputs, rows } = good(sweep(planOf(BENCH)));
    expect(inputs).toEqual(INPUTS);
    expect(rows.map((r) => [r.row, r.memories[0]?.data?.value, r.leds.map((l) => l.brightness)])).toEqual(
      Array.from({ length: 8 }, (_, row) => [row, row, [row & 1 ? 'lit' : 'dark', row & 2 ? 'lit' : 'dark']]),
    );
  });
  test.each([
    ['one memory', BENCH],
    ['a memory whose outputs are off', BENCH.replace('wire WOE from j16 to -j9', 'wire WOE from j16 to +j10')],
    ['a memory of which a bit of the address floats', BENCH.replace('resistor RA0 10k from b45 to -a30', '')],
    ['the greenhouse', composeAll().greenhouse!],
  ])('of %s reads what the event engine reads', (_, bench) => {
    const plan = typeof bench === 'string' ? planOf(bench) : bench;
    const [mine, judged] = [good(sweep(plan)), good(sweep(plan, { rows: 'events' }))];
    expect(mine.inputs).toEqual(judged.inputs);
    for (const [i, { row, memories, leds }] of judged.rows.entries()) {
      expect(mine.rows[i]).toMatchObject({ row, memories });
      for (const [k, { amps, volts, ...rest }] of leds.entries()) {
        expect(mine.rows[i]!.leds[k]).toMatchObject(rest);
        expect(Math.abs(mine.rows[i]!.leds[k]!.amps - amps)).toBeLessThan(1e-10);
        expect(Math.abs(mine.rows[i]!.leds[k]!.volts - volts)).toBeLessThan(4e-9);
      }
    }
  });
  test('switches the supply on, and a bench without a switch on an input has nothing to go through', () => {
    expect(good(sweep(planOf(BENCH.replace('switch PS1 set 1', 'switch PS1 set 0')))).rows.map((r) => r.memories[0]?.data?.value)).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7,
    ]);
    const none = sweep(planOf(memoryBench('')));
    expect(none).toMatchObject({
      ok: false,
      failure: { at: 'plan', says: expect.stringMatching(/^No switch of this bench sets an input/) },
    });
  });
});

describe('rows one after the other', () => {
  const walked = (share?: { part: number; of: number }) => {
    const walk = good(walkRows(planOf(BENCH), {}, share));
    const seen: number[] = [];
    const brightnesses: string[] = [];
    for (let row = walk.next(); row >= 0; row = walk.next()) {
      seen.push(row);
      brightnesses.push([...walk.brightnesses].join(''));
    }
    expect(walk.next()).toBe(-1);
    return { walk, seen, brightnesses };
  };
  test('are one switch apart, each once', () => {
    const { walk, seen } = walked();
    expect(seen).toEqual([0, 1, 3, 2, 6, 7, 5, 4]);
    expect([walk.rows, walk.mine, walk.leds]).toEqual([8, 8, ['LED1', 'LED2']]);
  });
  test('shared among three are all rows, none twice, each with the same LEDs', () => {
    const whole = walked();
    const parts = [0, 1, 2].map((part) => walked({ part, of: 3 }));
    expect(parts.map((p) => p.walk.mine)).toEqual([2, 3, 3]);
    expect(parts.flatMap((p) => p.seen)).toEqual(whole.seen);
    expect(parts.flatMap((p) => p.brightnesses)).toEqual(whole.brightnesses);
    expect(new Set(whole.brightnesses).size).toBe(4);
  });
});
