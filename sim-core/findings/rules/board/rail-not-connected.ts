/** A rail that is in use and connected to no supply, in all its length. A half of a split rail whose other half is connected has its own rule. */
import { BOARDS, RAILS, type Rail } from '../../../board/boards.ts';
import type { Net } from '../../../board/nets.ts';
import { stripOf } from '../../../board/tie-points.ts';
import { feedRail } from '../../../fixes/join.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import { listed, type Ref, railName, say } from '../../../sentence/wording.ts';
import { compareTexts } from '../../../units/text-list.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule, distinct, inCountingOrder, toPin } from '../../rule.ts';

interface Data {
  readonly board: Ref;
  /** of the supply */
  readonly terminal: Ref;
  readonly parts: readonly Ref[];
  readonly rail: Rail;
}

export const railNotConnected = defineRule<Data>({
  code: 'board/rail-not-connected',
  role: 'cause',
  severity: 'fault',
  reads: 'wiring',
  look(circuit) {
    const [supply] = [...circuit.supplies].sort((a, b) => compareTexts(a.placed.part.id, b.placed.part.id));
    if (!supply) return [];
    const told = new Set<Net>();
    return circuit.plan.boards.flatMap((board) =>
      RAILS.flatMap((rail): readonly Data[] => {
        const strips = [1, BOARDS[board.kind].railHoles].map((k) => stripOf({ board, rail, k }));
        const nets = [...new Set(strips.flatMap((s) => circuit.nets.ofStrip.get(s) ?? []))];
        const net = nets.find((n) => n.legs.length > 0);
        if (!net || told.has(net) || nets.some((n) => isFed(circuit, n))) return [];
        for (const n of nets) told.add(n);
        const parts = inCountingOrder(distinct(net.legs.map((leg) => ({ kind: 'part', id: leg.part.id }))));
        return [
          { board: { kind: 'board', id: board.id }, terminal: toPin(rail.startsWith('+') ? supply.plus : supply.minus), parts, rail },
        ];
      }),
    );
  },
  message: ({ board, terminal, parts, rail }) => {
    const who = parts.length > 3 ? say`${parts[0] ?? ''} and ${parts.length - 1} more parts` : listed(parts);
    return say`Rail ${railName(rail)} on ${board} is not connected to a supply, but ${who} ${parts.length > 1 ? 'use' : 'uses'} it. Wire ${terminal} to it.`;
  },
  fixes: ({ board, rail }, bench) => feedRail(bench, board, rail),
});

/** By metal from a supply or a chip's output, with all switches closed. */
function isFed(circuit: Circuit, net: Net): boolean {
  const reach = reachOf(circuit);
  return [...reach.from(net.index, 'no LEDs')].some(
    ([n, ohms]) => ohms < METAL && (reach.plus.has(n) || reach.minus.has(n) || reach.outputs.has(n)),
  );
}

const bench = (): string => `
  ${FED}
  resistor R1 330 from b10 to +j5
  led LED1 from a10 to a14
  wire W1 from b14 to -a3`;

export const railNotConnectedExamples = (): RuleExamples => ({
  bad: { points: 'B1', bench: bench() },
  good: { bench: `${bench()}\nwire W2 from -a1 to -j2` },
});
