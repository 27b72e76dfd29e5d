/** A half of a split rail that is in use and connected to no supply, while its other half is. */
import type { PlanBoard } from '../../../../shared/plan.ts';
import { BOARDS, RAILS, type Rail, railHalf } from '../../../board/boards.ts';
import { type Hole, holeName, stripOf } from '../../../board/tie-points.ts';
import { joinHalves } from '../../../fixes/join.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import { type Ref, railName, say } from '../../../sentence/wording.ts';
import type { RuleExamples } from '../../example-benches.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';

interface Data {
  /** holes on both sides of the gap, this half's first */
  readonly here: Ref;
  readonly there: Ref;
  readonly board: Ref;
  readonly rail: Rail;
  readonly half: 'left' | 'right';
}

export const railHalfNotConnected = defineRule<Data>({
  code: 'board/rail-half-not-connected',
  role: 'cause',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    circuit.plan.boards.filter((b) => b.splitRails).flatMap((board) => RAILS.flatMap((rail) => deadHalf(circuit, board, rail))),
  message: ({ here, there, board, rail, half }) =>
    say`The ${half} half of rail ${railName(rail)} on ${board} is in use but not connected to a supply: only the other half is. Connect ${here} and ${there} with a wire.`,
  fixes: ({ here, there, rail }, bench) => joinHalves(bench, rail, here, there),
});

function deadHalf(circuit: Circuit, board: PlanBoard, rail: Rail): readonly Data[] {
  const fed = ([0, 1] as const).map((half) => isFed(circuit, stripOf({ board, rail, k: half === 0 ? 1 : BOARDS[board.kind].railHoles })));
  const dead = fed[0] === false && fed[1] ? 0 : fed[1] === false && fed[0] ? 1 : undefined;
  if (dead === undefined) return [];
  const hole = (half: 0 | 1): Ref => ({ kind: 'point', id: holeName(freeBesideCut(circuit, board, rail, half), circuit.plan.boards) });
  const [here, there] = dead === 0 ? [hole(0), hole(1)] : [hole(1), hole(0)];
  return [{ here, there, board: { kind: 'board', id: board.id }, rail, half: dead === 0 ? 'left' : 'right' }];
}

/** undefined: nothing is in it. */
function isFed(circuit: Circuit, strip: string): boolean | undefined {
  const net = circuit.nets.ofStrip.get(strip);
  if (!net) return undefined;
  const reach = reachOf(circuit);
  return [...reach.from(net.index, 'no LEDs')].some(([n, ohms]) => ohms < METAL && (reach.plus.has(n) || reach.minus.has(n)));
}

/** The free hole of this half that is nearest to the cut; the last one if none is free. */
function freeBesideCut(circuit: Circuit, board: PlanBoard, rail: Rail, half: 0 | 1): Hole {
  const kind = BOARDS[board.kind];
  const holes = Array.from({ length: kind.railHoles }, (_, i): Hole => ({ board, rail, k: i + 1 })).filter(
    (_, i) => railHalf(kind, i + 1) === half,
  );
  const fromCut = half === 0 ? holes.reverse() : holes;
  return fromCut.find((h) => !circuit.layout.taken.has(holeName(h, circuit.plan.boards))) ?? (fromCut[0] as Hole);
}

const bench = (): string => `
  board-63 B1 split rails
  bench-supply PS1 5
  wire WP red from PS1.+ to +j1
  wire WN black from PS1.- to -j1
  led LED1 from a50 to a54
  resistor R1 330 from b50 to +j45
  wire W1 from b54 to -j2`;

export const railHalfNotConnectedExamples = (): RuleExamples => ({
  bad: { points: '+j26', bench: bench() },
  good: { bench: `${bench()}\nwire WJ from +j25 to +j26` },
});
