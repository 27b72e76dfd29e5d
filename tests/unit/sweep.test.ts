/** All settings of the switches that set a bench's inputs: which switch sets which input and which way, every row once, and rows shared among workers. */
import { describe, expect, test } from 'vitest';
import { memoryBench } from '../../sim-core/findings/example-benches.ts';
import { sweep, switchAt, switchedInputs, walkRows } from '../../sim-core/run/sweep.ts';
import { planOf, start } from '../support/bench.ts';

/** A0 and A1 go high when their pole of S1 closes, A2 goes low; each address holds itself; LED1 on D0, LED2 on D1. */
const BENCH = memoryBench(
  `WOE wire j16 -j9
  WWE wire j15 +j9
  S1 dip-switch e45 poles=3
  S1 hands 011
  WS1 wire a45 a19
  WP1 wire j45 +j25
  RA0 resistor b45 -a30 ohms=10k
  WS2 wire a46 a18
  WP2 wire j46 +j26
  RA1 resistor b46 -a31 ohms=10k
  WS3 wire a47 a17
  WP3 wire j47 -j27
  RA2 resistor b47 +a32 ohms=10k
  WJ wire +a33 +j33
  LED1 led b20 b30
  R1 resistor a30 -a20 ohms=1k
  LED2 led b21 b33
  R2 resistor a33 -a21 ohms=1k
  U1 memory 000=0001020304050607`,
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
  test('are not those that two switches set, nor those of a button', () => {
    const two = `${BENCH}\nS2 dip-switch e50 poles=1\nWT1 wire a50 c45\nWT2 wire j50 +j30`;
    expect(switchedInputs(start(two, { still: true })).map((i) => i.name)).toEqual(['A1', 'A2']);
    const button = `${BENCH}\nS2 push-button e50\nWT1 wire a50 c45\nWT2 wire j52 +j30`;
    expect(switchedInputs(start(button, { still: true })).map((i) => i.name)).toEqual(['A0', 'A1', 'A2']);
  });
});

describe('a sweep', () => {
  test('reads every row: the byte that stands there, and the LEDs of its bits', () => {
    const { inputs, rows } = good(sweep(planOf(BENCH)));
    expect(inputs).toEqual(INPUTS);
    expect(rows.map((r) => [r.row, r.chips[0]?.state.data?.value, r.leds.map((l) => l.brightness)])).toEqual(
      Array.from({ length: 8 }, (_, row) => [row, row, [row & 1 ? 'lit' : 'dark', row & 2 ? 'lit' : 'dark']]),
    );
  });
  test('switches the supply on, and a bench without a switch on an input has nothing to go through', () => {
    expect(good(sweep(planOf(BENCH.replace('PS1 hands 1', 'PS1 hands 0')))).rows.map((r) => r.chips[0]?.state.data?.value)).toEqual([
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
