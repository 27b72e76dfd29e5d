/** A bench for which no voltages could be found that fit everything on it. What is shown then is not to be trusted. */
import { toNet } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const noOperatingPoint = defineRule({
  code: 'bench/no-operating-point',
  severity: 'fault',
  reads: 'moment',
  look({ circuit, readings }) {
    if (!readings.unsolved) return [];
    const net = circuit.nets.all[readings.unsolved.net];
    return [{ at: toNet(net), data: { points: net?.legs.length ?? 0 } }];
  },
  bad: {
    none: 'Every law of the shelf is monotone, so a bench that is built has voltages; what remains is a solver that does not find them.',
  },
  good: { bench: 'B1 board-63' },
});
