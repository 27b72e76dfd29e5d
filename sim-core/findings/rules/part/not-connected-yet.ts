/** Parts that are not connected to anything: nothing else is said of them, and while every supply is off this is no more than a note. */

import { listed, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, inCountingOrder, toPart } from '../../rule.ts';
import { unwiredParts } from '../../unwired-parts.ts';

/** More parts than these are counted, not named. */
const MOST_NAMED = 6;

interface Data {
  readonly parts: readonly Ref[];
  /** some supply is on */
  readonly powered: boolean;
}

export const notConnectedYet = defineRule<Data>({
  code: 'part/not-connected-yet',
  role: 'unwired',
  severity: 'fault',
  severityOf: ({ powered }) => (powered ? 'fault' : 'suggestion'),
  reads: 'moment',
  look: ({ circuit, powered }) => {
    const parts = inCountingOrder(unwiredParts(circuit).map(toPart));
    return parts.length > 0 ? [{ parts, powered }] : [];
  },
  message: ({ parts, powered }) => {
    const named = parts.slice(0, parts.length > MOST_NAMED ? MOST_NAMED - 1 : MOST_NAMED);
    const rest = parts.length - named.length;
    const who = rest > 0 ? say`${listed(named)} and ${rest} more parts` : listed(named);
    const are = parts.length > 1 ? 'are' : 'is';
    return powered
      ? say`${who} ${are} not connected yet: nothing else is in the rows of ${parts.length > 1 ? 'their legs. Wire them, or remove them' : 'its legs. Wire it, or remove it'}.`
      : say`${who} ${are} not connected yet.`;
  },
});

export const notConnectedYetExamples = (): RuleExamples => ({
  bad: { points: 'R1', bench: `${FED}\nresistor R1 330 from a10 to a15` },
  good: { bench: `${FED}\nresistor R1 330 from a10 to a15\nwire W1 from b10 to +j5\nwire W2 from b15 to -j5` },
});
