/** Two sources on one net against the resolution table of IEEE 1164 (SOURCES.md S70): 0, 1, X, Z, L, H, W as a bench can make them. */
import { describe, expect, test } from 'vitest';
import { netLevel } from '../../sim-core/run/readout/readings.ts';
import { start } from '../support/bench.ts';

const ORDER = ['X', '0', '1', 'Z', 'W', 'L', 'H'] as const;
const TABLE: Record<(typeof ORDER)[number], string> = {
  X: 'XXXXXXX',
  '0': 'X0X0000',
  '1': 'XX11111',
  Z: 'X01ZWLH',
  W: 'X01WWWW',
  L: 'X01LWLW',
  H: 'X01HWWH',
};

/** Thresholds symmetric about half the supply, 30 and 70 per cent (usual CMOS limits, from memory), so that two equal resistors give an undefined level. */
const VIL = 1.5;
const VIH = 3.5;

/** A source of each kind on the row of test, as lines of a bench. `n` is 1 or 2: which memory or which holes it uses. */
function source(level: (typeof ORDER)[number], n: 1 | 2): string {
  const board = `B${n + 1}`;
  const row = n === 1 ? ['a1', 'b1'] : ['c1', 'd1'];
  const high = `RH${n} resistor ${row[0]} +a${n} ohms=10k\n`;
  const low = `RL${n} resistor ${row[1]} -a${n} ohms=10k\n`;
  if (level === 'Z') return '';
  if (level === 'H') return high;
  if (level === 'L') return low;
  if (level === 'W') return high + low;
  // a memory whose every byte is 00 or FF, or every other one, its address in the air: nobody can tell which it shows, and one of the two it does
  const bytes = { '0': '00', '1': 'FF', X: '00FF' }[level].repeat(level === 'X' ? 512 : 1024);
  return `
    U${n} eeprom-2kx8 ${board}:d12
    V${n} wire ${board}:j12 ${board}:+j12 red
    G${n} wire ${board}:a23 ${board}:-a20 black
    E${n} wire ${board}:i18 ${board}:-j16 black
    W${n} wire ${board}:i15 ${board}:+j13 red
    D${n} wire ${board}:a20 ${row[0]} green
    O${n} wire ${board}:i16 ${board}:-j15 black
    U${n} memory 0=${bytes} 400=${bytes}`;
}

const bench = (a: (typeof ORDER)[number], b: (typeof ORDER)[number]) => `
  B1 board-63
  B2 board-63
  B3 board-63
  PS1 bench-supply
  PS1 hands 1
  ${['B1', 'B2', 'B3'].map((x, i) => `Y${i}a wire PS1.+ ${x}:+j1 red\nY${i}b wire PS1.- ${x}:-j1 black\nY${i}c wire ${x}:+j2 ${x}:+a20 red\nY${i}d wire ${x}:-j2 ${x}:-a21 black`).join('\n')}
  R9 resistor e1 e9 ohms=1k
  ${source(a, 1)}
  ${source(b, 2)}`;

describe('two sources on one net', () => {
  for (const a of ORDER)
    test(`${a} joined with each of ${ORDER.join(' ')}`, () => {
      const seen = ORDER.map((b) => {
        const sim = start(bench(a, b));
        const net = sim.circuit.nets.ofStrip.get('B1/1a')!;
        return netLevel(sim.readings().nets[net.index]!, VIL, VIH);
      });
      expect(seen.join('')).toBe(TABLE[a]);
    });
});
