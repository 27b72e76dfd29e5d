/** A chip with a supply pin that is connected to no supply, whatever the switches. */

import { feedChip } from '../../../fixes/join.ts';
import { its, listed, type Ref, say, voltRange } from '../../../sentence/wording.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { feedOf } from '../../resistive-reach.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly chip: Ref;
  /** those that are connected to no supply */
  readonly pins: readonly Ref[];
  readonly which: 'both' | 'supply' | 'ground';
  /** what the chip needs [V] */
  readonly least: number;
  readonly most: number;
}

export const chipNoSupply = defineRule<Data>({
  code: 'chip/no-supply',
  role: 'cause',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    circuit.chips.flatMap((chip) => {
      if (chip.supply.leg === chip.ground.leg) return [];
      const { supply, ground } = feedOf(circuit, chip);
      if (supply.minus.length > 0 || ground.plus.length > 0) return [];
      const missing = [...(supply.plus.length === 0 ? [chip.supply] : []), ...(ground.minus.length === 0 ? [chip.ground] : [])];
      if (missing.length === 0) return [];
      const which = missing.length === 2 ? 'both' : missing[0] === chip.supply ? 'supply' : 'ground';
      const [least, most] = chip.spec.supplyRange;
      return [{ chip: toPart(chip.placed), pins: missing.map((p) => toPin(p.leg)), which, least, most }];
    }),
  message: ({ chip, pins, which, least, most }) =>
    say`${chip} has no supply: ${listed(pins.map(its))} ${which === 'both' ? 'are' : 'is'} not connected (needs ${voltRange(least, most)}). Wire ${RAILS_FOR[which]}.`,
  fixes: ({ chip, pins }, bench) => feedChip(bench, chip, pins),
});

const RAILS_FOR: Readonly<Record<Data['which'], string>> = {
  both: 'them to the + rail and the − rail',
  supply: 'it to the + rail',
  ground: 'it to the − rail',
};

export const chipNoSupplyExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench('', 'WV') },
  good: { bench: memoryBench('') },
});
