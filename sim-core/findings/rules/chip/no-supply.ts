/** A chip of which a supply pin is joined to no supply, whatever the switches. */
import { memoryBench } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { feedOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';

export const chipNoSupply = defineRule({
  code: 'chip/no-supply',
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
      return [{ at: [toPart(chip.placed), ...missing.map((p) => toPin(p.leg))], data: { which, least, most } }];
    }),
  bad: { points: 'U1', bench: memoryBench('', 'WV') },
  good: { bench: memoryBench('') },
});
