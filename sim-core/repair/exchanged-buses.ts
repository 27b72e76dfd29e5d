/** Data or address wires in another order than the table needs: found by comparing all rows with the table, put right by one act. */
import type { Leg } from '../board/layout.ts';
import type { FaultBench } from '../faults/fault-bench.ts';
import type { TableGoal } from '../findings/table-goal.ts';
import { type Misplaced, movedEnds } from '../fixes/move-ends.ts';
import { compareWords } from '../logic/compare/compare.ts';
import { candidateOf, type RepairCandidate } from './candidate.ts';
import type { SeenRow } from './edit-trial.ts';

/** The kind of this repair. */
export const MOVE_WIRES = 'move-wires';

/** Likelier than two certain wires exchanged, less likely than a switch end for end, which is one thing to touch; our judgement. */
const WEIGHT = 0.4;

/** seen: every row of the table, whatever it shows. */
export function exchangedBuses({ circuit }: FaultBench, { wanted }: TableGoal, seen: readonly SeenRow[]): readonly RepairCandidate[] {
  const all = 2 ** wanted.outputs.length - 1;
  const words = Uint16Array.from(wanted.rows);
  const [shown, known] = [words.slice(), words.map(() => all)];
  for (const { row, wrong, unknown } of seen) {
    shown[row] = (words[row] ?? 0) ^ wrong;
    known[row] = all & ~unknown;
  }
  const care = words.map((_, row) => all & ~(wanted.dontCare?.[row] ?? 0));
  const { fits } = compareWords({ words, care }, { words: shown, care: known }, wanted.outputs.length);
  const changes = fits.flatMap(({ disorders: [d, ...more], leaves }) => {
    if (d?.is !== 'permuted' || more.length > 0 || leaves.length > 0) return [];
    const columns = d.on === 'data' ? wanted.outputs : wanted.inputs;
    const pairs = d.order.flatMap((to, i): Misplaced[] => {
      const [is, meant] = [legAt(circuit, columns[i]?.pin), legAt(circuit, columns[to]?.pin)];
      return to !== i && is && meant ? [{ is, meant }] : [];
    });
    const moved = movedEnds(circuit, pairs);
    return moved ? [moved.change] : [];
  });
  return changes.map((change) => candidateOf(MOVE_WIRES, change, WEIGHT / changes.length));
}

/** pin: 'U1.D0' */
function legAt({ chipById }: FaultBench['circuit'], pin = ''): Leg | undefined {
  const chip = chipById.get(pin.slice(0, pin.indexOf('.')));
  const name = pin.slice(pin.indexOf('.') + 1);
  return [...(chip?.outputs ?? []), ...(chip?.inputs ?? [])].find((p) => p.name === name)?.leg;
}
