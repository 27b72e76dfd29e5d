/** A part with two legs of which one touches nothing else: its row is empty, or holds only wires that lead to nothing. A rail in use has its own rule. */
import { isRailHole } from '../../../board/tie-points.ts';
import { FED } from '../../example-benches.ts';
import { toPart, toPin, toWire } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const legNotConnected = defineRule({
  code: 'part/leg-not-connected',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    [...circuit.placed.values()].flatMap((placed) => {
      if (placed.kind.footprint(placed.params).shape !== 'two-leg') return [];
      return placed.legs
        .filter(
          (leg) =>
            leg.hole &&
            circuit.netOf(leg).legs.length === 1 &&
            ![leg, ...circuit.netOf(leg).ends].some((e) => e.hole && isRailHole(e.hole)),
        )
        .map((leg) => {
          const { ends } = circuit.netOf(leg);
          const wires = [...new Set(ends.map((e) => e.wire.id))];
          const hole = (leg === placed.legs[0] ? placed.part.at : placed.part.to) ?? '';
          return { at: [toPin(leg), toPart(placed), ...wires.map(toWire)], data: { hole, wires: wires.length } };
        });
    }),
  bad: { points: 'R1.1', bench: `${FED}\nR1 resistor b10 +j5 ohms=330\nD1 led a11 a14\nW1 wire b14 -j3\nW2 wire b11 -j4` },
  good: { bench: `${FED}\nR1 resistor b11 +j5 ohms=330\nD1 led a11 a14\nW1 wire b14 -j3` },
});
