/** A part with two legs in one strip of the board, so that the board itself shorts them. */
import type { Leg } from '../../../board/layout.ts';
import { type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly part: Ref;
  /** those in the first such strip */
  readonly pins: readonly Ref[];
  /** their numbers as they print */
  readonly numbers: string;
  /** legs of the part, and strips that hold two or more of them */
  readonly legs: number;
  readonly pairs: number;
  readonly strip: string;
}

export const bothLegsInOneRow = defineRule<Data>({
  code: 'part/both-legs-in-one-row',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    [...circuit.placed.values()].flatMap((placed) => {
      const byStrip = new Map<string, Leg[]>();
      for (const leg of placed.legs) byStrip.set(leg.strip, [...(byStrip.get(leg.strip) ?? []), leg]);
      const shorted = [...byStrip].filter(([, legs]) => legs.length > 1);
      return shorted.slice(0, 1).map(([strip, first]) => ({
        part: toPart(placed),
        pins: first.map(toPin),
        numbers: first.map((l) => l.pin).join(' and '),
        legs: placed.legs.length,
        pairs: shorted.length,
        strip,
      }));
    }),
  message: ({ part, numbers, legs, pairs }) =>
    legs === 2
      ? say`${part} has both legs in one row: the board shorts it. Move one leg to another row.`
      : say`${part} has pins ${numbers} in one row: the board shorts them${pairs > 1 ? ` (${pairs} such pairs)` : ''}. Place it across the centre gap.`,
});

export const bothLegsInOneRowExamples = (): RuleExamples => ({
  bad: { points: 'R1', bench: `${FED}\nresistor R1 330 from a10 to e10` },
  good: { bench: `${FED}\nresistor R1 330 from a10 to f10` },
});
