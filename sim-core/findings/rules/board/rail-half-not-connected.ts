/** A half of a split rail that is in use and joined to no supply, while its other half is. */
import type { PlanBoard } from '../../../../shared/plan.ts';
import { BOARDS, RAILS, type Rail, railHalf } from '../../../board/boards.ts';
import { type Hole, holeName, stripOf } from '../../../board/tie-points.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule } from '../../rule.ts';

const BENCH = `
  B1 board-63 split
  PS1 bench-supply volts=5
  WP wire PS1.+ +j1 red
  WN wire PS1.- -j1 black
  D1 led a50 a54
  R1 resistor b50 +j45 ohms=330
  W1 wire b54 -j2`;

export const railHalfNotConnected = defineRule({
  code: 'board/rail-half-not-connected',
  severity: 'fault',
  reads: 'wiring',
  look: (circuit) =>
    circuit.plan.boards
      .filter((b) => b.splitRails)
      .flatMap((board) =>
        RAILS.flatMap((rail) => {
          const fed = ([0, 1] as const).map((half) =>
            isFed(circuit, stripOf({ board, rail, k: half === 0 ? 1 : BOARDS[board.kind].railHoles })),
          );
          const dead = fed[0] === false && fed[1] ? 0 : fed[1] === false && fed[0] ? 1 : undefined;
          if (dead === undefined) return [];
          const name = (half: 0 | 1) => holeName(freeBesideCut(circuit, board, rail, half), circuit.plan.boards);
          const [here, there] = dead === 0 ? [name(0), name(1)] : [name(1), name(0)];
          return [
            {
              at: [{ kind: 'point', id: here } as const, { kind: 'point', id: there } as const, { kind: 'board', id: board.id } as const],
              data: { rail, half: dead === 0 ? 'left' : 'right' },
            },
          ];
        }),
      ),
  bad: { points: '+j26', bench: BENCH },
  good: { bench: `${BENCH}\nWJ wire +j25 +j26` },
});

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
