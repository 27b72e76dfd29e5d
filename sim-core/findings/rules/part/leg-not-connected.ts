/** A part with two legs of which one is not connected: its row is empty, or holds only wires that connect to nothing. A rail in use has its own rule. */

import { isRailHole } from '../../../board/tie-points.ts';
import { listed, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, inCountingOrder, toPart, toPin, toWire } from '../../rule.ts';

interface Data {
  readonly leg: Ref;
  readonly part: Ref;
  /** those in its row */
  readonly wires: readonly Ref[];
  readonly hole: Ref;
}

export const legNotConnected = defineRule<Data>({
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
          const wires = inCountingOrder([...new Set(circuit.netOf(leg).ends.map((e) => e.wire.id))].map(toWire));
          const hole = (leg === placed.legs[0] ? placed.part.at : placed.part.to) ?? '';
          return { leg: toPin(leg), part: toPart(placed), wires, hole: { kind: 'point', id: hole } };
        });
    }),
  message: ({ leg, wires, hole }) =>
    wires.length === 0
      ? say`${leg} is not connected: ${hole} has nothing else in its row. Move it, or a wire, to the right row.`
      : say`${leg} is not connected: ${hole} has only ${listed(wires)} in its row, and ${wires.length === 1 ? 'it connects' : 'they connect'} to nothing. Move a wire, or the leg, to the right row.`,
});

export const legNotConnectedExamples = (): RuleExamples => ({
  bad: {
    points: 'R1.1',
    bench: `${FED}\nresistor R1 330 from b10 to +j5\nled LED1 from a11 to a14\nwire W1 from b14 to -j3\nwire W2 from b11 to -j4`,
  },
  good: { bench: `${FED}\nresistor R1 330 from b11 to +j5\nled LED1 from a11 to a14\nwire W1 from b14 to -j3` },
});
