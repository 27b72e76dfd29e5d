/** A rail that parts hang on and nothing feeds, in all its length. A half of a split rail whose other half is fed has its own rule. */
import { BOARDS, RAILS, type Rail } from '../../../board/boards.ts';
import type { Net } from '../../../board/nets.ts';
import { stripOf } from '../../../board/tie-points.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { Ref } from '../../../sentence/ref.ts';
import { FED } from '../../example-benches.ts';
import { distinct, toPin } from '../../refs.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';

const BENCH = `
  ${FED}
  R1 resistor b10 +j5 ohms=330
  D1 led a10 a14
  W1 wire b14 -a3`;

export const railNotConnected = defineRule({
  code: 'board/rail-not-connected',
  severity: 'fault',
  reads: 'wiring',
  look(circuit) {
    const [supply] = circuit.supplies;
    if (!supply) return [];
    const told = new Set<Net>();
    return circuit.plan.boards.flatMap((board) =>
      RAILS.flatMap((rail) => {
        const strips = [1, BOARDS[board.kind].railHoles].map((k) => stripOf({ board, rail, k }));
        const nets = [...new Set(strips.flatMap((s) => circuit.nets.ofStrip.get(s) ?? []))];
        const net = nets.find((n) => n.legs.length > 0);
        if (!net || told.has(net) || nets.some((n) => isFed(circuit, n))) return [];
        for (const n of nets) told.add(n);
        const hanging: Ref[] = distinct(net.legs.map((leg) => ({ kind: 'part', id: leg.part.id })));
        const at: Ref[] = [{ kind: 'board', id: board.id }, toPin(terminalFor(rail) === '+' ? supply.plus : supply.minus), ...hanging];
        return [{ at, data: { rail, parts: hanging.length } }];
      }),
    );
  },
  bad: { points: 'B1', bench: BENCH },
  good: { bench: `${BENCH}\nW2 wire -a1 -j2` },
});

const terminalFor = (rail: Rail): string => rail.slice(0, 1);

/** By metal from a supply or a chip's output, with all switches closed. */
function isFed(circuit: Circuit, net: Net): boolean {
  const reach = reachOf(circuit);
  return [...reach.from(net.index, 'no LEDs')].some(
    ([n, ohms]) => ohms < METAL && (reach.plus.has(n) || reach.minus.has(n) || reach.outputs.has(n)),
  );
}
