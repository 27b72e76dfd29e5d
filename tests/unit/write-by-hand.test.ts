/** Writing a byte by hand: what the pulse on /WE does to the memory, measured on the pin's own crossings. */
import { describe, expect, test } from 'vitest';
import type { WriteReport } from '../../sim-core/index.ts';
import { LED_ON_D0, MEMORY, READY_TO_WRITE, start, writeNetwork } from '../support/bench.ts';

const ADDRESS_0 = 'wire L40 black from a19 to -a19';
const bench = (network = writeNetwork()) => `${MEMORY}${LED_ON_D0}${READY_TO_WRITE}
  ${ADDRESS_0}
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
    expect(report.guaranteedLow).toBeGreaterThan(100e-9);
    sim.act({ do: 'release', part: 'SB1' });
    expect(sim.events).toHaveLength(1);
    expect(sim.plan().memories.U1).toEqual({ '000': '00FFFFFFFFFFFFFFFFFFFFFFFFFFFFFF' });
  });
});
