/** What each leg takes from its net, so that Kirchhoff's law gives what a wire carries. */
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { PULL_HIGH } from '../devices/network.ts';
import type { RuleContext } from '../findings/rule-context.ts';

export interface LegCurrent {
  readonly leg: Leg;
  /** from the net into the leg [A]; negative: the leg gives it */
  readonly amps: number;
}

/** Of every leg of this net. A voltmeter's 10 MΩ is no leg and not counted. */
export function legCurrents({ circuit, amps }: RuleContext, net: Net): readonly LegCurrent[] {
  const sums = new Map<Leg, number>(net.legs.map((leg) => [leg, 0]));
  const add = (leg: Leg, current: number) => {
    const sum = sums.get(leg);
    if (sum !== undefined) sums.set(leg, sum + current);
  };
  for (const { device, legs, whenHigh } of circuit.branches) {
    const [first, low] = legs;
    const second = whenHigh && circuit.network.pullOf(device) === PULL_HIGH ? whenHigh : low;
    if (!sums.has(first) && !sums.has(second)) continue;
    const current = amps(device);
    add(first, current);
    add(second, -current);
  }
  return [...sums].map(([leg, current]) => ({ leg, amps: current }));
}
