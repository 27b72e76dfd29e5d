/** A write pulse that is none: nothing ends it but the finger, so the strobe is low as long as the button is held. */

import { inSeconds, type Ref, say } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples, writeButton } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { heldLow } from '../../write-log.ts';

interface Data {
  readonly memory: Ref;
  /** the maximum width that was measured, and the longest that the data sheet gives [s] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
}

export const levelNoPulse = defineRule<Data>({
  code: 'memory/level-no-pulse',
  severity: 'marginal',
  reads: 'log',
  look: ({ circuit, events }) =>
    circuit.chips.flatMap(({ placed }): Data[] => {
      const report = heldLow(events, placed.part.id);
      const { most, source = '' } = report?.limits ?? {};
      if (!report || most === undefined) return [];
      return [{ memory: { kind: 'part', id: placed.part.id }, measured: report.maximumLow, limit: most, source }];
    }),
  message: ({ memory, measured, limit }) =>
    say`${memory} gets a level instead of a write pulse: its write enable was low for ${inSeconds(measured)}, as long as the button was held (its data sheet gives at most ${inSeconds(limit)}; other sheets give no maximum). Put a capacitor between the button and the pin, with a resistor that discharges it.`,
});

const script = [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]] as const;

/** The button pulls /WE straight to ground: held until the bench has come to rest, and for long after. */
export const levelNoPulseExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench(DATA_5A + writeButton().replace('capacitor CW 1n', 'wire CW')), script, holds: 0.1 },
  good: { bench: memoryBench(DATA_5A + writeButton('1n')), script, holds: 0.1 },
});
