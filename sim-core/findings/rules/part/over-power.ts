/** A part that dissipates more power than it may. */

import { inWatts, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart } from '../../rule.ts';
import { heatOf } from '../../rule-context.ts';

interface Data {
  readonly part: Ref;
  /** what it dissipates, and may [W] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
  /** what helps: another value, or less load */
  readonly cure: 'value' | 'load';
}

export const partOverPower = defineRule<Data>({
  code: 'part/over-power',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    [...heatOf(scene, scene.atMost)].flatMap(([placed, measured]) => {
      const { mostPower: most, spread } = placed.kind;
      if (!most || measured <= most.value) return [];
      return [{ part: toPart(placed), measured, limit: most.value, source: most.source, cure: spread?.of === 'ohms' ? 'value' : 'load' }];
    }),
  message: ({ part, measured, limit, cure }) =>
    say`${part} dissipates ${inWatts(measured)} (limit ${inWatts(limit)}). ${cure === 'value' ? 'Use a larger value' : 'Reduce its current or its voltage'}, or share the load between several.`,
});

export const partOverPowerExamples = (): RuleExamples => ({
  bad: { points: 'R1', bench: `${FED}\nresistor R1 47 from a10 to a15\nwire W1 from b10 to -j5\nwire W2 from b15 to +j5` },
  good: { bench: `${FED}\nresistor R1 120 from a10 to a15\nwire W1 from b10 to -j5\nwire W2 from b15 to +j5` },
});
