/** A part with two legs of which one touches nothing else: its row is empty, or holds only leads that lead to nothing. A rail in use has its own rule. */
import { isRailHole } from '../../bench/points.ts';
import { FED } from '../example-benches.ts';
import { toLead, toPart, toPin } from '../refs.ts';
import { defineRule } from '../rule.ts';

export const legAlone = defineRule({
  code: 'part/leg-alone',
  severity: 'broken',
  reads: 'wiring',
  look: (circuit) =>
    [...circuit.placed.values()].flatMap((placed) => {
      if (placed.kind.footprint(placed.params).shape !== 'two-lead') return [];
      return placed.legs
        .filter(
          (leg) =>
            leg.hole &&
            circuit.netOf(leg).legs.length === 1 &&
            ![leg, ...circuit.netOf(leg).ends].some((e) => e.hole && isRailHole(e.hole)),
        )
        .map((leg) => {
          const { ends } = circuit.netOf(leg);
          const leads = [...new Set(ends.map((e) => e.lead.id))];
          const hole = (leg === placed.legs[0] ? placed.part.at : placed.part.to) ?? '';
          return { at: [toPin(leg), toPart(placed), ...leads.map(toLead)], data: { hole, leads: leads.length } };
        });
    }),
  bad: { points: 'R1.1', bench: `${FED}\nR1 resistor b10 +j5 ohms=330\nD1 led a11 a14\nW1 lead b14 -j3\nW2 lead b11 -j4` },
  good: { bench: `${FED}\nR1 resistor b11 +j5 ohms=330\nD1 led a11 a14\nW1 lead b14 -j3` },
});
