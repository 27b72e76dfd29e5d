/** A write pulse that keeps its limits with the parts as drawn, and leaves them when the parts' tolerances, the supply and the thresholds lie at their worst together. */
import { DATA_5A, memoryBench, writeButton } from '../../example-benches.ts';
import { distinct } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const pulseNotGuaranteed = defineRule({
  code: 'memory/pulse-not-guaranteed',
  severity: 'marginal',
  reads: 'marginal',
  look: ({ pulses }) =>
    pulses.map(({ at, what, button = '', worst, nominal, limit, source, dominant }) => ({
      at: distinct([
        { kind: 'part', id: at.id },
        { kind: 'part', id: button },
        ...(dominant ? [{ kind: 'part', id: dominant.part } as const] : []),
      ]),
      data: {
        why: what,
        measured: worst,
        nominal,
        limit,
        source,
        ...(dominant ? { figure: dominant.figure, value: dominant.value, unit: dominant.unit } : {}),
      },
    })),
  bad: { points: 'U1', bench: memoryBench(DATA_5A + writeButton('1n')) },
  good: { bench: memoryBench(DATA_5A + writeButton('1.5n')) },
});
