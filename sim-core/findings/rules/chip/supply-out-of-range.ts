/** A chip that gets a voltage outside the range in which its data sheet says anything; above its absolute maximum it may be damaged. */
import { memoryBench } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { feedOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';

export const supplyOutOfRange = defineRule({
  code: 'chip/supply-out-of-range',
  severity: 'marginal',
  reads: 'moment',
  look(scene) {
    if (!scene.powered) return [];
    return scene.circuit.chips.flatMap((chip) => {
      const { supply, ground } = feedOf(scene.circuit, chip);
      const on = (part: string) => scene.readings.supplies.some((s) => s.part === part && s.on);
      const reading = scene.chip(chip.placed.part.id);
      // another rule speaks of a chip that is not joined to a supply, or the wrong way round
      if (!reading || !supply.plus.some((s) => on(s.placed.part.id)) || ground.minus.length === 0) return [];
      const [least, most] = chip.spec.supplyRange;
      const measured = reading.supply;
      if (measured >= least && measured <= most) return [];
      const { mostSupply } = chip.spec;
      const limit = measured > most ? most : least;
      const data = { measured, limit, least, most, ...(mostSupply ? { ceiling: mostSupply.value, source: mostSupply.source } : {}) };
      const severity =
        mostSupply && measured > mostSupply.value ? 'damage-risk' : reading.state.doing === 'no supply' ? 'fault' : 'marginal';
      return [{ at: [toPart(chip.placed), toPin(chip.supply.leg)], severity, data } as const];
    });
  },
  bad: { points: 'U1', bench: memoryBench('').replace('volts=5', 'volts=4') },
  good: { bench: memoryBench('') },
});
