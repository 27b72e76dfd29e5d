/** Rows solved without events, beside the same rows solved by the event engine: what the LEDs show, every voltage that something holds, and Kirchhoff's law. */
import fc from 'fast-check';
import { expect } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { GROUND } from '../../sim-core/devices/network.ts';
import { everyRow } from '../../sim-core/document/memory-rows.ts';
import { draftPlan, partKind } from '../../sim-core/index.ts';
import type { RowWalk } from '../../sim-core/run/row-walk.ts';
import { walkRows } from '../../sim-core/run/sweep.ts';
import { RELATIVE_RESIDUAL, RESIDUAL_FLOOR } from '../../sim-core/solve/equations.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { randomRequest } from '../support/random-table.ts';
import { trial } from '../support/trial.ts';

/** Of a wider table one share is gone through, of 2⁸ rows. */
const INPUTS = 8;
/** Two answers for a held voltage differ by less than this [V]; the residual that both stop at allows some 1e-9. */
const ALIKE = 4e-9;

/** Images by chance, and in half of the cases a wire or a part less: some pins then float. */
function altered(plan: Plan, seed: number): Plan {
  const random = makeRandom(seed);
  const one = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)] as T;
  const memories = plan.parts.filter((p) => partKind(p.kind)?.group === 'memory');
  const images = Object.fromEntries(
    memories.map(({ id }) => [id, everyRow(Uint8Array.from({ length: 512 }, () => Math.floor(random() * 256)))]),
  );
  const withBytes = { ...plan, memories: images };
  if (seed % 2 === 0) return withBytes;
  const gone = random() < 0.7 ? one(plan.wires).id : one(plan.parts.filter((p) => ['resistor', 'led'].includes(p.kind))).id;
  return { ...withBytes, wires: plan.wires.filter((w) => w.id !== gone), parts: plan.parts.filter((p) => p.id !== gone) };
}

/** By row: the LEDs, and the voltages. */
function look(walk: RowWalk, each: (row: number, brightnesses: string, x: Float64Array) => void): void {
  const x = new Float64Array(walk.circuit.network.n + 1);
  for (let row = walk.next(); row >= 0; row = walk.next()) {
    walk.voltages(x);
    each(row, walk.brightnesses.join(), x);
  }
}

/** By how much currents do not add up at these voltages, with the bench as the walk has it, as a part of what the solver may leave. */
function imbalance({ circuit: { network } }: RowWalk, x: Float64Array): number {
  const [residual, magnitude] = [new Float64Array(network.n + 1), new Float64Array(network.n + 1)];
  network.evaluate(x, residual, magnitude, null);
  return Math.max(...network.unfolded.map((i) => Math.abs(residual[i]!) / (RELATIVE_RESIDUAL * magnitude[i]! + RESIDUAL_FLOOR)));
}

trial(
  'a row that is solved without events shows what the event engine shows',
  { cases: fc.constant(0), sample: 12, full: 900 },
  (_, seed) => {
    const request = randomRequest(seed);
    const made = draftPlan(request);
    if (!made.ok) return { kind: 'refused by the builder' };
    const plan = altered(made.value.plan, seed);
    const of = 2 ** Math.max(0, request.inputs.length - INPUTS);
    const share = { part: seed % of, of };
    const begun = walkRows(plan, {}, share);
    const judged = walkRows(plan, { rows: 'events' }, share);
    if (!begun.ok || !judged.ok) {
      expect(begun.ok).toBe(judged.ok);
      return { kind: 'no switch sets an address' };
    }
    const seen = new Map<number, { brightnesses: string; x: Float64Array }>();
    look(begun.value, (row, brightnesses, x) => void seen.set(row, { brightnesses, x: x.slice() }));
    let [worst, unbalanced] = [0, 0];
    look(judged.value, (row, brightnesses, x) => {
      const mine = seen.get(row)!;
      expect(`row ${row}: ${mine.brightnesses}`).toBe(`row ${row}: ${brightnesses}`);
      const { nets, chips } = judged.value.bench().readings();
      for (const [net, node] of judged.value.circuit.nodeOfNet.entries())
        if (node !== GROUND && !['floating', 'unknown'].includes(nets[net]!.drive))
          worst = Math.max(worst, Math.abs(mine.x[node]! - x[node]!));
      if (chips.every(({ pins }) => pins.every((p) => p.level !== 'X'))) unbalanced = Math.max(unbalanced, imbalance(judged.value, mine.x));
    });
    expect(worst).toBeLessThan(ALIKE);
    expect(unbalanced).toBeLessThan(1);
    return {
      kind: `${seed % 2 === 0 ? 'whole' : 'something missing'}, ${request.show}`,
      rows: begun.value.mine,
      solved: begun.value.solved,
      volts: worst,
      residual: unbalanced,
    };
  },
);
