/** A bench for which no voltages could be found that fit everything on it. What is shown then is not to be trusted. */

import { type Ref, say } from '../../../sentence/wording.ts';
import type { RuleExamples } from '../../example-benches.ts';
import { defineRule, toNet } from '../../rule.ts';

interface Data {
  /** something on the net at which the solver stopped; empty for a net with nothing on it */
  readonly net: readonly Ref[];
}

export const noOperatingPoint = defineRule<Data>({
  code: 'bench/no-operating-point',
  severity: 'fault',
  reads: 'moment',
  look({ circuit, readings }) {
    return readings.unsolved ? [{ net: toNet(circuit.nets.all[readings.unsolved.net]) }] : [];
  },
  message: ({ net }) =>
    say`No operating point was found: the solver stopped at ${net[0] ?? 'the bench'}. Do not trust LEDs and meters now. Undo the last change and check what it connects.`,
});

export const noOperatingPointExamples = (): RuleExamples => ({
  bad: {
    none: 'The current of every part rises with its voltage, so a bench that is built has voltages; what remains is a solver that does not find them.',
  },
  good: { bench: 'board-63 B1' },
});
