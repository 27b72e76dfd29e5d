/** A chip whose supply is outside the range in which its data sheet says anything; above its absolute maximum it may be damaged. */

import { inVolts, its, type Ref, say, voltRange } from '../../../sentence/wording.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { feedOf } from '../../resistive-reach.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly chip: Ref;
  readonly pin: Ref;
  /** its supply, the end of the range it is beyond, and the range [V] */
  readonly measured: number;
  readonly limit: number;
  readonly least: number;
  readonly most: number;
  /** the absolute maximum [V], and where it is from */
  readonly ceiling?: number;
  readonly source?: string;
  /** it does nothing at all with so little */
  readonly off: boolean;
}

/** So far below the least of its range [part of it] nothing that the sheet says is worth anything: a 5 V part at 3.3 V. Our choice. */
const FAR_BELOW = 0.1;

const overCeiling = ({ measured, ceiling }: Data): boolean => ceiling !== undefined && measured > ceiling;

export const supplyOutOfRange = defineRule<Data>({
  code: 'chip/supply-out-of-range',
  severity: 'marginal',
  severityOf: (data) =>
    overCeiling(data) ? 'damage-risk' : data.off || data.measured < (1 - FAR_BELOW) * data.least ? 'fault' : 'marginal',
  reads: 'moment',
  look(scene) {
    return scene.circuit.chips.flatMap((chip) => {
      const { supply, ground } = feedOf(scene.circuit, chip);
      const on = (part: string) => scene.readings.supplies.some((s) => s.part === part && s.on);
      // of a supply at its current limit another rule says how little is left
      const sags = (part: string) => scene.readings.supplies.some((s) => s.part === part && s.limiting);
      const reading = scene.chip(chip.placed.part.id);
      // another rule speaks of a chip that is not connected to a supply, or the wrong way round
      if (!reading || !supply.plus.some((s) => on(s.placed.part.id)) || ground.minus.length === 0) return [];
      if (supply.plus.some((s) => sags(s.placed.part.id))) return [];
      const [least, most] = chip.spec.supplyRange;
      const measured = reading.supply;
      if (measured >= least && measured <= most) return [];
      const { mostSupply } = chip.spec;
      return [
        {
          chip: toPart(chip.placed),
          pin: toPin(chip.supply.leg),
          measured,
          limit: measured > most ? most : least,
          least,
          most,
          ...(mostSupply ? { ceiling: mostSupply.value, source: mostSupply.source } : {}),
          off: reading.state.doing === 'no supply',
        },
      ];
    });
  },
  message: (data) => {
    const { chip, pin, measured, least, most, ceiling } = data;
    const ruin = overCeiling(data) ? `; above ${inVolts(ceiling as number)} it may be destroyed` : '';
    const load = measured < least ? ' and check what loads it' : '';
    return say`${chip} has ${inVolts(measured)} at ${its(pin)} (range ${voltRange(least, most)}${ruin}). Set the supply to ${inVolts((least + most) / 2)}${load}.`;
  },
});

export const supplyOutOfRangeExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench('').replace('PS1 5', 'PS1 4') },
  good: { bench: memoryBench('') },
});
