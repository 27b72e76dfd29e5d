/** The parts that must not be put in the wrong way round, with what stands across them at this moment. */
import type { Leg } from '../board/layout.ts';
import type { PartKind } from '../parts/part.ts';
import type { Placed } from '../run/circuit/sites.ts';
import type { RuleContext } from './rule-context.ts';

export interface Polarised {
  readonly placed: Placed;
  readonly polar: NonNullable<PartKind['polar']>;
  readonly plus: Leg;
  readonly minus: Leg;
  /** plus against minus [V] */
  readonly volts: number;
}

export function polarised({ circuit, at }: RuleContext): Polarised[] {
  return [...circuit.placed.values()].flatMap((placed): Polarised[] => {
    const { polar } = placed.kind;
    const plus = placed.legs.find((l) => l.pin === polar?.plus);
    const minus = placed.legs.find((l) => l.pin === polar?.minus);
    if (!polar || !plus || !minus) return [];
    return [{ placed, polar, plus, minus, volts: at(circuit.netOf(plus).index) - at(circuit.netOf(minus).index) }];
  });
}
