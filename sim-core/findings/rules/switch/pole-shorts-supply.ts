/** A switch or button one pole of which, when closed, shorts a supply. */

import { inAmps } from '../../../sentence/figures.ts';
import type { Ref } from '../../../sentence/ref.ts';
import { say } from '../../../sentence/wording.ts';
import type { RuleExamples } from '../../example.ts';
import { FED } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

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
  bad: { points: 'S1', bench: `${FED}\nS1 dip-switch e10 poles=2\nW1 wire a10 -j5\nW2 wire j10 +j5` },
  good: { bench: `${FED}\nS1 dip-switch e10 poles=2\nW1 wire a10 a20\nR1 resistor b20 -j9 ohms=10k\nW2 wire j10 +j5` },
});
