/** Chips that drive each other in a loop for ever: the simulation was stopped before the bench settled, and what it shows is one moment of many. */

import { listed, type Ref, say } from '../../../sentence/wording.ts';
import { type RuleExamples, ring } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';

export const benchOscillates = defineRule<{ readonly chips: readonly Ref[] }>({
  code: 'bench/oscillates',
  severity: 'fault',
  reads: 'moment',
  look: ({ readings }) => (readings.restless ? [{ chips: readings.restless.map((id) => ({ kind: 'part', id })) }] : []),
  message: ({ chips }) =>
    say`${listed(chips)} ${chips.length === 1 ? 'drives itself' : 'drive each other'} in a loop and the bench oscillates: it shows one moment of many. Break the loop from output to input.`,
});

export const benchOscillatesExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: ring() },
  good: { bench: ring().replace('FFFE', 'FFFF') },
});
