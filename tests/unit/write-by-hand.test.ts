/** Writing a byte by hand: what the pulse on /WE does to the memory, measured on the pin's own crossings. */
import { describe, expect, test } from 'vitest';
import type { WriteReport } from '../../sim-core/index.ts';
import { LAMP_ON_D0, MEMORY, start, writeNetwork } from '../support/bench.ts';

/** /OE on a one-pole switch: closed pulls it low, 10 kΩ keep it high otherwise. A0 (row 19) and D0 are free for leads. */
const OUTPUT_ENABLE = `
  S2 dip-switch e2 poles=1
  L30 lead a2 -a2 black
  L31 lead g2 i16 yellow
  R30 resistor j16 +j12 ohms=10k
`;
const ADDRESS_0 = 'L40 lead a19 -a19 black';
const bench = (network = writeNetwork()) => `${MEMORY}${LAMP_ON_D0}${OUTPUT_ENABLE}${ADDRESS_0}
  L18 lead a18 -a17 black
  L50 lead c20 -a21 blue
  L51 lead c21 -a22 blue
  L52 lead c22 -a23 blue
  L53 lead i23 -j20 blue
  L54 lead i22 -j19 blue
  L55 lead i21 -j18 blue
  L56 lead i20 -j17 blue
  L57 lead i19 -j16 blue
  S2 hands 0
  ${network}`;

const only = (reports: readonly WriteReport[]): WriteReport => {
  expect(reports).toHaveLength(1);
  return reports[0]!;
};

describe('a byte written by hand', () => {
  test('the pulse of 680 Ω and 1 nF stores the byte, and only that', () => {
    const sim = start(bench(), { bounce: false });
    sim.wait(0.01);
    sim.act({ do: 'press', part: 'SB1' });
    const report = only(sim.events);
    expect(report.outcome).toBe('stored');
    expect(report.address).toEqual({ value: 0, unknown: 0, bits: 11 });
    expect(report.data).toEqual({ value: 0, unknown: 0 });
    expect(report.sureLow).toBeGreaterThan(100e-9);
    sim.act({ do: 'release', part: 'SB1' });
    expect(sim.events).toHaveLength(1);
    expect(sim.plan().memories.U1).toEqual({ '000': '00FFFFFFFFFFFFFFFFFFFFFFFFFFFFFF' });
  });
});
