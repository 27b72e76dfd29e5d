/** A switch or button one pole of which, when closed, joins a supply's two terminals. */
import { FED } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const poleShortsSupply = defineRule({
  code: 'switch/pole-shorts-supply',
  severity: 'damage-risk',
  reads: 'wiring',
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
          at: [toPart(site.placed), ...site.legs.map(toPin), toPart(supply.placed)],
          data: {
            pole: site.pole + 1,
            momentary: site.contact.momentary ? 'yes' : 'no',
            measured: Math.min(volts / (ohms + site.contact.on), amps),
            limit: amps,
          },
        },
      ];
    }),
  bad: { points: 'S1', bench: `${FED}\nS1 dip-switch e10 poles=2\nW1 wire a10 -j5\nW2 wire j10 +j5` },
  good: { bench: `${FED}\nS1 dip-switch e10 poles=2\nW1 wire a10 a20\nR1 resistor b20 -j9 ohms=10k\nW2 wire j10 +j5` },
});
