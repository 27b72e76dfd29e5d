/** A part of which two legs are in one strip of the board, so that the board itself joins them. */
import type { Leg } from '../../../board/layout.ts';
import { FED } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const bothLegsInOneRow = defineRule({
  code: 'part/both-legs-in-one-row',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    [...circuit.placed.values()].flatMap((placed) => {
      const byStrip = new Map<string, Leg[]>();
      for (const leg of placed.legs) byStrip.set(leg.strip, [...(byStrip.get(leg.strip) ?? []), leg]);
      const joined = [...byStrip.values()].filter((legs) => legs.length > 1);
      const [first] = joined;
      if (!first) return [];
      return [
        {
          at: [toPart(placed), ...first.map(toPin)],
          data: {
            legs: placed.legs.length,
            pairs: joined.length,
            strip: first[0]?.strip ?? '',
            pins: first.map((l) => l.pin).join(' and '),
          },
        },
      ];
    }),
  bad: { points: 'R1', bench: `${FED}\nR1 resistor a10 e10 ohms=330` },
  good: { bench: `${FED}\nR1 resistor a10 f10 ohms=330` },
});
