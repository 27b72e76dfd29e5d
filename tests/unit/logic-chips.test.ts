/** Logic chips in time: delays, slow and doubtful clocks, unknown levels that resistors do not hide, benches that swing for ever. */
import { describe, expect, test } from 'vitest';
import { afterEdges, edges } from '../../sim-core/parts/logic/clock.ts';
import { HIGH, LOW } from '../../sim-core/parts/logic/logic-function.ts';
import { ANY, certain, possible, tabulate } from '../../sim-core/parts/logic/unknown-enumeration.ts';
import { start } from '../support/bench.ts';
import { logicBench } from '../support/logic-bench.ts';

const Q = ['Q3', 'Q2', 'Q1', 'Q0'];

describe('what may be', () => {
  test('an exclusive-or of two unknown inputs is unknown, an and with one low input is low', () => {
    const xor = tabulate([0, 1], undefined, (a, b) => (a !== b ? HIGH : LOW));
    const and = tabulate([0, 1], undefined, (a, b) => (a && b ? HIGH : LOW));
    expect(certain(possible(xor, { value: 0, unknown: 3 }, 0))).toBeUndefined();
    expect(certain(possible(and, { value: 0, unknown: 2 }, 0))).toBe(LOW);
  });
  test('a slow edge may have counted any number of times, a return to the old level once or not at all', () => {
    const plusOne = (all: number) => ((all << 1) | (all >> 15)) & ANY(4);
    expect(edges('L', 'H', 1, 2)).toBe('one');
    expect(afterEdges(1, edges('L', 'H', 1, 2), plusOne)).toBe(2);
    expect(afterEdges(1, edges('L', 'L', 1, 2), plusOne)).toBe(3);
    expect(afterEdges(1, edges('H', 'L', 1, 2), plusOne)).toBe(1);
    expect(afterEdges(1, edges('L', 'H', 3, 2), plusOne)).toBe(ANY(4));
  });
});

/** A counter that counts, its clock given by what `more` wires to it. */
const counting = (more: (hole: (name: string) => string) => string) =>
  logicBench('counter-4-bit', { still: false, open: ['CP'], high: ['/PE', 'CEP', 'CET'], more });

describe('a clock', () => {
  const throughRc = (ohms: string) =>
    counting(
      (hole) => `
        dip-switch S9 at e40 with poles 1
        wire WS from j40 to +j30
        resistor RD 10 from a40 to a38
        wire WD from b38 to -j38
        resistor RR ${ohms} from b40 to ${hole('CP')}
        capacitor CC 1n from h30 to f35
        wire WC from g35 to -j35
        wire WX from f30 to ${hole('CP') === 'b11' ? 'c11' : ''}`,
    );
  const tick = (b: ReturnType<typeof counting>) => {
    b.set({ '/MR': 1 });
    b.sim.act({ do: 'set', part: 'S9', pole: 0, closed: true });
    b.sim.wait(1e-3);
    return b.look(Q);
  };
  test('that rises in 85 ns from 0.3 to 0.7 of the supply counts once', () => {
    // RC·ln(0.7/0.3) with 100 Ω and 1 nF
    expect(tick(throughRc('100'))).toBe('LLLH');
  });
  test('that takes 850 ns leaves the count unknown', () => {
    expect(tick(throughRc('1k'))).toBe('XXXX');
  });
});

test('an output follows its input after the delay and not before', () => {
  const b = logicBench('schmitt-inverter', { still: false, family: 'HC' });
  expect(b.see('1Y')).toBe('H');
  b.sim.begin({ do: 'set', part: 'S0', pole: 0, closed: true });
  b.sim.wait(11e-9);
  expect(b.see('1Y')).toBe('H');
  b.sim.wait(2e-9);
  expect(b.see('1Y')).toBe('L');
});

test('a resistor to minus does not make a low of what nobody knows', () => {
  // a register that has never been clocked, into a buffer, with 10 kΩ to minus between
  const sim = start(
    `
    board-63 B1
    bench-supply PS1
    switch PS1 set 1
    wire W1 from PS1.+ to +j1
    wire W2 from PS1.- to -j1
    wire W3 from -j2 to -a1
    octal-register U1 at e10
    octal-buffer U2 at e30
    wire V1 from j10 to +j10
    wire G1 from a19 to -a10
    wire E1 from a10 to -a11
    wire V2 from j30 to +j20
    wire G2 from a39 to -a20
    wire E2 from a30 to -a21
    wire L1 from j11 to a31
    resistor R1 10k from i11 to -j11`,
    { still: true },
  );
  const level = (chip: number, pin: number) => sim.readings().chips[chip]!.pins[pin - 1]!.level;
  expect(level(0, 19)).toBe('X');
  expect(level(1, 2)).toBe('X');
  expect(level(1, 18)).toBe('X');
});

test('a chip loses what it stored with its supply', () => {
  const b = logicBench('counter-4-bit', { high: ['/PE'] });
  b.set({ '/MR': 1 });
  expect(b.look(Q)).toBe('LLLL');
  b.sim.act({ do: 'set', part: 'PS1', pole: 0, closed: false });
  b.sim.wait(1);
  b.sim.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
  expect(b.look(Q)).toBe('XXXX');
});

test('an act on a bench with a clock that ticks for ever comes back, and what the clock drives goes on', () => {
  const b = counting(
    (hole) => `
      crystal-oscillator G1 1M at e40
      wire VG from h40 to +j40
      wire GG from a46 to -j46
      wire CG from h46 to ${hole('CP')}`,
  );
  b.set({ '/MR': 1 });
  const seen = new Set<string>();
  for (let i = 0; i < 64; i++) {
    b.sim.wait(1e-6);
    seen.add(b.look(Q));
  }
  expect(seen.size).toBe(16);
});
