/** A switch or button one pole of which, when closed, shorts a supply. */

import { inAmps, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly part: Ref;
  readonly legs: readonly Ref[];
  readonly supply: Ref;
  /** from 1 */
  readonly pole: number;
  readonly momentary: boolean;
  /** what flows when it is closed, and the supply's current limit [A] */
  readonly measured: number;
  readonly limit: number;
}

export const poleShortsSupply = defineRule<Data>({
  code: 'switch/pole-shorts-supply',
  severity: 'damage-risk',
  reads: 'wiring',
  apart: ({ pole }) => pole,
  look: (circuit) =>
    circuit.contacts.flatMap((site) => {
      const [a, b] = site.legs.map((leg) => circuit.netOf(leg).index);
      const supply = circuit.supplies.find((s) => {
        const [plus, minus] = [circuit.netOf(s.plus).index, circuit.netOf(s.minus).index];
        return (a === plus && b === minus) || (a === minus && b === plus);
      });
      if (!supply) return [];
      const { volts, ohms, amps } = circuit.network.supplyOf(supply.device);
      return [
        {
          part: toPart(site.placed),
          legs: site.legs.map(toPin),
          supply: toPart(supply.placed),
          pole: site.pole + 1,
          momentary: site.contact.momentary === true,
          measured: Math.min(volts / (ohms + site.contact.on), amps),
          limit: amps,
        },
      ];
    }),
  message: ({ part, supply, pole, momentary, measured, limit }) => {
    const closing = momentary ? say`Pressing ${part}` : say`Closing pole ${pole} of ${part}`;
    return say`${closing} shorts ${supply}: ${inAmps(measured)} (limit ${inAmps(limit)}). Wire one side elsewhere, or put 10 kΩ in series.`;
  },
});

export const poleShortsSupplyExamples = (): RuleExamples => ({
  bad: { points: 'S1', bench: `${FED}\ndip-switch S1 at e10 with poles 2\nwire W1 from a10 to -j5\nwire W2 from j10 to +j5` },
  good: {
    bench: `${FED}\ndip-switch S1 at e10 with poles 2\nwire W1 from a10 to a20\nresistor R1 10k from b20 to -j9\nwire W2 from j10 to +j5`,
  },
});
