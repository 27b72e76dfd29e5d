/** A chip of which a supply pin is joined to the wrong terminal of a supply. */
import { memoryBench } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { feedOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';

export const supplyReversed = defineRule({
  code: 'chip/supply-reversed',
  severity: 'damage-risk',
  reads: 'wiring',
  look: (circuit) =>
    circuit.chips.flatMap((chip) => {
      if (chip.supply.leg === chip.ground.leg) return [];
      const { supply, ground } = feedOf(circuit, chip);
      const onMinus = supply.minus.filter((s) => !supply.plus.includes(s));
      const onPlus = ground.plus.filter((s) => !ground.minus.includes(s));
      const [source] = [...onPlus, ...onMinus];
      if (!source) return [];
      const wrong = [...(onMinus.length > 0 ? [chip.supply] : []), ...(onPlus.length > 0 ? [chip.ground] : [])];
      const which = wrong.length === 2 ? 'both' : wrong[0] === chip.supply ? 'supply' : 'ground';
      const volts = circuit.network.supplyOf(source.device).volts;
      return [{ at: [toPart(chip.placed), ...wrong.map((p) => toPin(p.leg))], data: { which, measured: -volts, limit: 0, volts } }];
    }),
  bad: { points: 'U1', bench: memoryBench('WV wire j12 -j30\nWG wire a23 +j30', 'WV', 'WG') },
  good: { bench: memoryBench('') },
});
