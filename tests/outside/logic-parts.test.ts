/** Every logic part against its published function table, row by row, in every family it is made in; and what nobody can tell is X, exactly there. */
import { describe, expect, test } from 'vitest';
import { PARTS } from '../../sim-core/index.ts';
import { one, play, type Row, rowsOf } from '../support/function-tables.ts';
import { logicBench } from '../support/logic-bench.ts';

const families = ['HC', 'HCT', 'LS'] as const;

describe.each(families)('in family %s', (family) => {
  const bench = (id: string, open: readonly string[] = [], high: readonly string[] = []) => logicBench(id, { family, open, high });

  // SOURCES.md S1, S16: /G low passes A on, /G high lets go
  test('octal buffer', () => {
    const b = bench('octal-buffer');
    for (const group of [1, 2])
      for (let n = 1; n <= 4; n++)
        for (const row of rowsOf(
          `/${group}G ${group}A${n} | ${group}Y${n}
           L L | L
           L H | H
           H X | Z`,
        ))
          play(b, row);
  });

  // SOURCES.md S1: DIR high from A to B, low from B to A; /OE high isolates
  test('octal transceiver', () => {
    const b = bench('octal-transceiver');
    for (let n = 1; n <= 8; n++)
      for (const row of rowsOf(
        one(
          `/OE DIR A# B# | A# B#
           L H L L | L L
           L H H L | H H
           L L L H | H H
           L L L L | L L
           H X L L | Z Z`,
          n,
        ),
      )) {
        // a pin that only listens here shows what it is given
        const shown = row.see.filter(([name]) => row.set.find(([s]) => s === '/OE')?.[1] === 'H' || name[0] === (drivesB(row) ? 'B' : 'A'));
        play(b, { set: row.set, see: shown });
        b.set({ [`A${n}`]: 0, [`B${n}`]: 0 });
      }
  });
  const drivesB = (row: Row) => row.set.find(([n]) => n === 'DIR')?.[1] === 'H';

  // SOURCES.md S1, S18, S34: D goes to Q at the rising edge of CP; /OE high lets go and contents are kept
  test.each(['octal-register', 'octal-register-paired'])('%s', (id) => {
    const b = bench(id);
    b.set({ '/OE': 0 });
    expect(b.look(many8('Q'))).toBe('XXXXXXXX');
    for (let n = 1; n <= 8; n++)
      for (const row of rowsOf(
        one(
          `/OE CP D# | Q#
           L ↑ H | H
           L H L | H
           L L L | H
           L ↑ L | L
           L H H | L
           L L H | L
           H ↑ H | Z
           L H X | H
           H L X | Z
           L L X | H`,
          n,
        ),
      ))
        play(b, row);
  });

  // SOURCES.md S1, S34: transparent while LE is high
  test.each(['octal-latch', 'octal-latch-paired'])('%s', (id) => {
    const b = bench(id);
    b.set({ '/OE': 0 });
    expect(b.look(many8('Q'))).toBe('XXXXXXXX');
    for (let n = 1; n <= 8; n++)
      for (const row of rowsOf(
        one(
          `/OE LE D# | Q#
           L H L | L
           L H H | H
           L L X | H
           L H L | L
           L L X | L
           H X X | Z
           L H H | H`,
          n,
        ),
      )) {
        // the latch is closed before its data move
        if (row.set.some(([n, l]) => n === 'LE' && l === 'L')) b.set({ LE: 0 });
        play(b, row);
      }
  });

  // SOURCES.md S35: /CLR low: all low; rising edge loads; CP low holds
  test('octal register with clear', () => {
    const b = bench('octal-register-clear', [], ['/CLR']);
    expect(b.look(many8('Q'))).toBe('XXXXXXXX');
    for (let n = 1; n <= 8; n++)
      for (const row of rowsOf(
        one(
          `/CLR CP D# | Q#
           L X X | L
           H ↑ H | H
           H L X | H
           H H X | H
           H ↑ L | L
           H L X | L
           H ↑ H | H
           L X X | L
           H L X | L`,
          n,
        ),
      ))
        play(b, row);
  });

  // SOURCES.md S15: /MR at once, /PE at the edge, counting when CEP and CET are high; TC = CET and 15
  test('4-bit counter', () => {
    const b = bench('counter-4-bit', [], ['/MR']);
    const Q = ['Q3', 'Q2', 'Q1', 'Q0'];
    expect(b.look(Q)).toBe('XXXX');
    const shows = (n: number) => [...n.toString(2).padStart(4, '0')].map((c) => (c === '1' ? 'H' : 'L')).join('');
    const clock = () => {
      b.set({ CP: 1 });
      b.set({ CP: 0 });
    };
    for (const row of rowsOf(`/MR CP /PE CEP CET D0 D1 D2 D3 | Q0 Q1 Q2 Q3 TC
      L X X X X L L L L | L L L L L`))
      play(b, row);
    b.set({ '/MR': 1, CP: 0 });
    for (let n = 0; n < 16; n++) {
      b.set({ '/PE': 0, D0: (n & 1) as 0 | 1, D1: ((n >> 1) & 1) as 0 | 1, D2: ((n >> 2) & 1) as 0 | 1, D3: ((n >> 3) & 1) as 0 | 1 });
      clock();
      expect(b.look(Q), `load ${n}`).toBe(shows(n));
      b.set({ '/PE': 1 });
      for (const [cep, cet] of [
        [0, 0],
        [0, 1],
        [1, 0],
      ] as const) {
        b.set({ CEP: cep, CET: cet });
        clock();
        expect(b.look(Q), `hold ${n}`).toBe(shows(n));
        expect(b.see('TC'), `TC at ${n}`).toBe(cet && n === 15 ? 'H' : 'L');
      }
      b.set({ CEP: 1, CET: 1 });
      clock();
      expect(b.look(Q), `count from ${n}`).toBe(shows((n + 1) % 16));
      b.set({ CEP: 0, CET: 0 });
    }
  });

  // SOURCES.md S1, S17: enabled by G1 high and both /G2 low; then only the numbered output is low
  test('3-to-8 decoder, all 64 rows', () => {
    const b = bench('decoder-3-to-8');
    const Y = Array.from({ length: 8 }, (_, n) => `/Y${n}`).join(' ');
    const rows = rowsOf(`G1 /G2A /G2B C B A | ${Y}
      L X X X X X | H H H H H H H H
      X H X X X X | H H H H H H H H
      X X H X X X | H H H H H H H H
      H L L L L L | L H H H H H H H
      H L L L L H | H L H H H H H H
      H L L L H L | H H L H H H H H
      H L L L H H | H H H L H H H H
      H L L H L L | H H H H L H H H
      H L L H L H | H H H H H L H H
      H L L H H L | H H H H H H L H
      H L L H H H | H H H H H H H L`);
    for (const row of rows) play(b, row);
  });

  // an open LS input counts as high, from memory; one of CMOS may read either
  describe(family === 'LS' ? 'what an open input does, which counts as high' : 'what is undefined', () => {
    const either = (unknown: string, high: string) => (family === 'LS' ? high : unknown);
    test('an open data input makes its own bit unknown and no other', () => {
      const b = bench('octal-register', ['D3']);
      b.set({ '/OE': 0, D1: 1, CP: 0 });
      b.set({ CP: 1 });
      expect(b.look(many8('Q'))).toBe(either('HLXLLLLL', 'HLHLLLLL'));
    });
    test('an open select input leaves the outputs known that no choice of it would pull', () => {
      const b = bench('decoder-3-to-8', ['B']);
      b.set({ G1: 1, '/G2A': 0, '/G2B': 0, A: 1, C: 0 });
      expect(b.look(Array.from({ length: 8 }, (_, n) => `/Y${n}`))).toBe(either('HXHXHHHH', 'HHHLHHHH'));
      b.set({ '/G2A': 1 });
      expect(b.look(Array.from({ length: 8 }, (_, n) => `/Y${n}`))).toBe('HHHHHHHH');
    });
    test('an open clock leaves a register unknown, and a counter after its clear at 0 or 1 and more', () => {
      const register = bench('octal-register', ['CP']);
      register.set({ '/OE': 0 });
      expect(register.look(many8('Q'))).toBe('XXXXXXXX');
      const counter = bench('counter-4-bit', ['CEP']);
      counter.set({ '/MR': 0, '/PE': 1, CET: 1 });
      counter.set({ '/MR': 1 });
      counter.set({ CP: 1 });
      counter.set({ CP: 0 });
      // 0 or 1, or with a high enable 1: the upper three bits are known
      expect(counter.look(['Q3', 'Q2', 'Q1', 'Q0'])).toBe(either('LLLX', 'LLLH'));
    });
  });
});

const many8 = (letter: string) => Array.from({ length: 8 }, (_, i) => `${letter}${i + 1}`);

/**
 * Outputs a … g for the inputs 0 to 15, D first: function table of the 48 kind; that of the 47 kind is its complement (SOURCES.md S36). As printed, so that
 * 6 has no top and 9 no bottom stroke.
 */
const SEGMENTS_48 = `1111110 0110000 1101101 1111001 0110011 1011011 0011111 1110000 1111111 1110011
  0001101 0011001 0100011 1001011 0001111 0000000`.split(/\s+/);
const SEGMENTS = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];
const code = (n: number) => ({ A: (n & 1) as 0 | 1, B: ((n >> 1) & 1) as 0 | 1, C: ((n >> 2) & 1) as 0 | 1, D: ((n >> 3) & 1) as 0 | 1 });
const as = (bits: string, on: string, off: string) => [...bits].map((c) => (c === '1' ? on : off)).join('');

/** on and off as their pins read: an open collector that is off, and one with a resistor inside, has let go */
describe.each([
  ['seven-segment-driver-low', 'L', 'Z'],
  ['seven-segment-driver-high', 'Z', 'L'],
] as const)('%s', (id, on, off) => {
  const bench = () => logicBench(id, { open: ['/BI-RBO'] });
  const blanked = () => logicBench(id);

  test('all sixteen inputs', () => {
    const b = bench();
    b.set({ '/LT': 1, '/RBI': 1 });
    for (let n = 0; n < 16; n++) {
      b.set(code(n));
      expect(b.look(SEGMENTS), String(n)).toBe(as(SEGMENTS_48[n]!, on, off));
      expect(b.volts('/BI-RBO'), String(n)).toBeGreaterThan(2.4);
      // 48: the resistor inside makes it high
      for (const [i, s] of SEGMENTS.entries())
        if (id === 'seven-segment-driver-high' && SEGMENTS_48[n]![i] === '1') expect(b.volts(s)).toBeGreaterThan(2.4);
    }
  });
  test('/RBI low suppresses a zero, and only a zero, and says so on /RBO', () => {
    const b = bench();
    b.set({ '/LT': 1, '/RBI': 0 });
    for (let n = 0; n < 16; n++) {
      b.set(code(n));
      expect(b.look(SEGMENTS), String(n)).toBe(as(n === 0 ? '0000000' : SEGMENTS_48[n]!, on, off));
      if (n === 0) expect(b.volts('/BI-RBO')).toBeLessThan(0.5);
      else expect(b.volts('/BI-RBO')).toBeGreaterThan(2.4);
    }
  });
  test('/LT low lights all, whatever the inputs, while /BI is high', () => {
    const b = bench();
    b.set({ '/LT': 0 });
    for (let n = 0; n < 16; n++)
      for (const rbi of [0, 1] as const) {
        b.set({ ...code(n), '/RBI': rbi });
        expect(b.look(SEGMENTS), String(n)).toBe(as('1111111', on, off));
      }
  });
  test('/BI low puts all out, whatever else', () => {
    const b = blanked();
    b.set({ '/BI-RBO': 0 });
    for (let n = 0; n < 16; n++)
      for (const lt of [0, 1] as const) {
        b.set({ ...code(n), '/LT': lt });
        expect(b.look(SEGMENTS), String(n)).toBe(as('0000000', on, off));
      }
  });
});

// SOURCES.md S37: active high, codes above 9 blank; /LT before /BL; patterns of 0 to 9 as above and the latch's level from memory
describe('seven-segment-driver-latch', () => {
  const shown = (n: number) => as(n <= 9 ? SEGMENTS_48[n]! : '0000000', 'H', 'L');
  test('all sixteen inputs, latched while LE is high', () => {
    const b = logicBench('seven-segment-driver-latch', { high: ['/LT', '/BL', 'LE'] });
    expect(b.look(SEGMENTS)).toBe('XXXXXXX');
    for (let n = 0; n < 16; n++) {
      b.set({ LE: 0, ...code(n) });
      expect(b.look(SEGMENTS), String(n)).toBe(shown(n));
      b.set({ LE: 1 });
      for (const other of [0, 5, 15]) {
        b.set(code(other));
        expect(b.look(SEGMENTS), `${n} kept while ${other} stands there`).toBe(shown(n));
      }
    }
  });
  test('/BL low puts all out, /LT low lights all whatever else', () => {
    const b = logicBench('seven-segment-driver-latch');
    b.set({ '/LT': 1, '/BL': 0, LE: 0 });
    for (let n = 0; n < 16; n++) {
      b.set(code(n));
      expect(b.look(SEGMENTS)).toBe('LLLLLLL');
    }
    for (const bl of [0, 1] as const) {
      b.set({ '/LT': 0, '/BL': bl });
      expect(b.look(SEGMENTS)).toBe('HHHHHHH');
    }
  });
});

// a high input pulls its output low and no other: SOURCES.md S20, S21
test.each([
  ['darlington-array-7', 7],
  ['darlington-array-8', 8],
] as const)('%s', (id, channels) => {
  const b = logicBench(id);
  const names = Array.from({ length: channels }, (_, i) => String(i + 1));
  expect(b.look(names.map((n) => `OUT${n}`))).toBe('Z'.repeat(channels));
  for (const n of names) {
    b.set({ [`IN${n}`]: 1 });
    expect(b.look(names.map((m) => `OUT${m}`))).toBe(names.map((m) => (m === n ? 'L' : 'Z')).join(''));
    b.set({ [`IN${n}`]: 0 });
  }
});

test('no logic part is left out', () => {
  const tested =
    `octal-buffer octal-transceiver octal-register octal-register-paired octal-latch octal-latch-paired octal-register-clear counter-4-bit
    decoder-3-to-8 quad-nand quad-nor quad-and quad-or quad-xor hex-inverter schmitt-inverter seven-segment-driver-low seven-segment-driver-high seven-segment-driver-latch darlington-array-7 darlington-array-8`.split(
      /\s+/,
    );
  // these three have no function table; their times are held elsewhere
  const byTime = ['timer', 'crystal-oscillator', 'clock-generator'];
  expect(
    PARTS.filter((p) => p.group === 'logic')
      .map((p) => p.id)
      .sort(),
  ).toEqual([...tested, ...byTime].sort());
});
