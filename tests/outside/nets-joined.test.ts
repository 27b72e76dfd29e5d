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
  const high = `resistor RH${n} 10k from ${row[0]} to +a${n}\n`;
  const low = `resistor RL${n} 10k from ${row[1]} to -a${n}\n`;
  if (level === 'Z') return '';
  if (level === 'H') return high;
  if (level === 'L') return low;
  if (level === 'W') return high + low;
  // a memory whose every byte is 00 or FF, or every other one, its address in the air: nobody can tell which it shows, and one of the two it does
  const bytes = { '0': '00', '1': 'FF', X: '00FF' }[level].repeat(level === 'X' ? 512 : 1024);
  return `
    eeprom-2kx8 U${n} at ${board}:d12
    wire V${n} red from ${board}:j12 to ${board}:+j12
    wire G${n} black from ${board}:a23 to ${board}:-a20
    wire E${n} black from ${board}:i18 to ${board}:-j16
    wire W${n} red from ${board}:i15 to ${board}:+j13
    wire D${n} green from ${board}:a20 to ${row[0]}
    wire O${n} black from ${board}:i16 to ${board}:-j15
    memory U${n} 0 ${bytes}, 400 ${bytes}`;
}

const bench = (a: (typeof ORDER)[number], b: (typeof ORDER)[number]) => `
  board-63 B1
  board-63 B2
  board-63 B3
  bench-supply PS1
  switch PS1 set 1
  ${['B1', 'B2', 'B3'].map((x, i) => `wire Y${i}a red from PS1.+ to ${x}:+j1\nwire Y${i}b black from PS1.- to ${x}:-j1\nwire Y${i}c red from ${x}:+j2 to ${x}:+a20\nwire Y${i}d black from ${x}:-j2 to ${x}:-a21`).join('\n')}
  resistor R9 1k from e1 to e9
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
