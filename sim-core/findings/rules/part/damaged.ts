/** A part that an overload has damaged, or burnt at some of its pins, until it is replaced. */
import type { PlanPart } from '../../../../shared/plan.ts';
import { overloadWords } from '../../../sentence/damage.ts';
import { its, listed, type Ref, say } from '../../../sentence/wording.ts';
import { siFormat } from '../../../units/quantity.ts';
import type { RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

type Damage = NonNullable<PlanPart['damaged']>;

interface Data extends Omit<Damage, 'pins'> {
  readonly part: Ref;
  /** the pins that are burnt; empty: the whole part is */
  readonly burnt: readonly Ref[];
  /** what is left of it */
  readonly left: 'conducts' | 'open';
}

export const partDamaged = defineRule<Data>({
  code: 'part/damaged',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    [...circuit.placed.values()].flatMap((p) => {
      const { damaged } = p.part;
      if (!damaged) return [];
      const { pins = [], ...damage } = damaged;
      const names = p.kind.pins(p.params).map((pin) => pin.name);
      const burnt = pins.flatMap((name) => p.legs.filter((_, i) => names[i] === name).map(toPin));
      return [{ part: toPart(p), burnt, ...damage, left: p.kind.wireDamaged ? 'conducts' : 'open' }];
    }),
  message({ part, burnt, by, measured, limit, left }) {
    const { who, did, unit } = overloadWords(by);
    const overload = `${who} ${did} ${siFormat(measured, unit)} (limit ${siFormat(limit, unit)})`;
    if (burnt.length > 0)
      return say`${part} is damaged at ${listed(burnt.map(its))}: ${overload}, and is open there. Remove the cause, then replace it.`;
    return say`${part} is damaged: ${overload}${left === 'conducts' ? ', and is nearly a short now' : ''}. Remove the cause, then replace it.`;
  },
});

export const partDamagedExamples = (): RuleExamples => ({
  bad: {
    points: 'U1',
    bench:
      'board-63 B1\nbench-supply PS1 9\nswitch PS1 set 1\noctal-buffer U1 at e20\nwire WM from PS1.- to a29\nwire WP from PS1.+ to j20',
    // 9 V on a supply pin that bears 7 V
    waits: 10,
  },
  good: {
    bench:
      'board-30 B1\nbench-supply PS1\nswitch PS1 set 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a9\nresistor R1 330 from b1 to b9',
  },
});
