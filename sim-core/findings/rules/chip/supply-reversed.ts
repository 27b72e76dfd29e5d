/** A chip with a supply pin on the wrong terminal of a supply. */

import { inVolts, its, type Ref, say } from '../../../sentence/wording.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { feedOf } from '../../resistive-reach.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly chip: Ref;
  /** those that are on the wrong terminal: supply before ground */
  readonly pins: readonly Ref[];
  readonly which: 'both' | 'supply' | 'ground';
  /** of the supply [V] */
  readonly volts: number;
  /** what the chip gets, and the least it bears [V] */
  readonly measured: number;
  readonly limit: number;
}

export const supplyReversed = defineRule<Data>({
  code: 'chip/supply-reversed',
  severity: 'damage-risk',
  reads: 'wiring',
  role: 'cause',
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
      const { volts } = circuit.network.supplyOf(source.device);
      return [{ chip: toPart(chip.placed), pins: wrong.map((p) => toPin(p.leg)), which, volts, measured: -volts, limit: 0 }];
    }),
  message: ({ chip, pins: [first, second], which, volts, measured, limit }) => {
    const [is, must] = which === 'ground' ? ['+', '−'] : ['−', '+'];
    return first && second
      ? say`The supply of ${chip} is reversed: ${its(first)} is on − and ${its(second)} on +, ${inVolts(measured)} (limit ${inVolts(limit)}). Switch off and swap the two.`
      : say`The supply of ${chip} is reversed: ${first ? its(first) : 'a supply pin'} is on ${is} of a ${inVolts(volts)} supply. Switch off and wire it to ${must}.`;
  },
});

export const supplyReversedExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench('wire WV from j12 to -j30\nwire WG from a23 to +j30', 'WV', 'WG') },
  good: { bench: memoryBench('') },
});
