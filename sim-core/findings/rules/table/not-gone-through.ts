/** A truth table whose rows cannot be set on this bench, so that nothing is known of them: no switch sets an input, or two LEDs have an output's name. */

import { say } from '../../../sentence/wording.ts';
import type { RuleExamples } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';

interface Data {
  /** the sentence of what could not be done */
  readonly because: string;
}

export const notGoneThrough = defineRule<Data>({
  code: 'table/not-gone-through',
  severity: 'suggestion',
  reads: 'table',
  look: (trial) => ('failure' in trial ? [{ because: trial.failure.says }] : []),
  message: ({ because }) => say`No row of the table was tried. ${because}`,
});

export const notGoneThroughExamples = (): RuleExamples => ({
  bad: { none: 'The text notation has no truth tables; tests/unit/table-check.test.ts gives benches one.' },
  good: { bench: 'board-63 B1' },
});
