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
        S9 dip-switch e40 poles=1
        WS wire j40 +j30
        RD resistor a40 a38 ohms=10
        WD wire b38 -j38
        RR resistor b40 ${hole('CP')} ohms=${ohms}
        CC capacitor h30 f35 farads=1n
        WC wire g35 -j35
        WX wire f30 ${hole('CP') === 'b11' ? 'c11' : ''}`,
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
  const b = logicBench('schmitt-inverter', { still: false, params: 'family=HC' });
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
    B1 board-63
    PS1 bench-supply
    PS1 hands 1
    W1 wire PS1.+ +j1
    W2 wire PS1.- -j1
    W3 wire -j2 -a1
    U1 octal-register e10
    U2 octal-buffer e30
    V1 wire j10 +j10
    G1 wire a19 -a10
    E1 wire a10 -a11
    V2 wire j30 +j20
    G2 wire a39 -a20
    E2 wire a30 -a21
    L1 wire j11 a31
    R1 resistor i11 -j11 ohms=10k`,
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
      G1 crystal-oscillator e40 hertz=1M
      VG wire h40 +j40
      GG wire a46 -j46
      CG wire h46 ${hole('CP')}`,
  );
  b.set({ '/MR': 1 });
  const seen = new Set<string>();
  for (let i = 0; i < 64; i++) {
    b.sim.wait(1e-6);
    seen.add(b.look(Q));
  }
  expect(seen.size).toBe(16);
});
