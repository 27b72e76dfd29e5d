/** A part that turns more power into heat than it may. */
import { FED } from '../../example-benches.ts';
import { toPart } from '../../refs.ts';
import { defineRule } from '../../rule.ts';
import { heatOf } from '../../rule-context.ts';

export const partOverPower = defineRule({
  code: 'part/over-power',
  severity: 'damage-risk',
  reads: 'moment',
  look(scene) {
    return [...heatOf(scene)].flatMap(([placed, measured]) => {
      const most = placed.kind.mostPower;
      return most && measured > most.value
        ? [
            {
              at: [toPart(placed)],
              data: { measured, limit: most.value, source: most.source, cure: placed.kind.spread?.of === 'ohms' ? 'value' : 'load' },
            },
          ]
        : [];
    });
  },
  bad: { points: 'R1', bench: `${FED}\nR1 resistor a10 a15 ohms=47\nW1 wire b10 -j5\nW2 wire b15 +j5` },
  good: { bench: `${FED}\nR1 resistor a10 a15 ohms=120\nW1 wire b10 -j5\nW2 wire b15 +j5` },
});
