/** Rows solved without events, beside the same rows solved by the event engine: what the LEDs show, and every voltage that something holds. */
import fc from 'fast-check';
import { expect } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { GROUND } from '../../sim-core/devices/network.ts';
import { everyRow } from '../../sim-core/document/memory-rows.ts';
import { buildPlan, partKind } from '../../sim-core/index.ts';
import type { RowWalk } from '../../sim-core/run/row-walk.ts';
import { walkRows } from '../../sim-core/run/sweep.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { randomRequest } from '../support/random-table.ts';
import { trial } from '../support/trial.ts';

/** More rows than these are a matter for the sweep's own test. */
const MOST_INPUTS = 9;
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

trial(
  'a row that is solved without events shows what the event engine shows',
  { cases: fc.constant(0), sample: 25, full: 300 },
  (_, seed) => {
    const request = randomRequest(seed);
    if (request.inputs.length > MOST_INPUTS) return { kind: 'too many inputs' };
    const made = buildPlan(request);
    if (!made.ok) return { kind: 'refused by the builder' };
    const plan = altered(made.value, seed);
    const begun = walkRows(plan);
    const judged = walkRows(plan, { rows: 'events' });
    if (!begun.ok || !judged.ok) {
      expect(begun.ok).toBe(judged.ok);
      return { kind: 'no switch sets an address' };
    }
    const seen = new Map<number, { brightnesses: string; x: Float64Array }>();
    look(begun.value, (row, brightnesses, x) => void seen.set(row, { brightnesses, x: x.slice() }));
    let worst = 0;
    look(judged.value, (row, brightnesses, x) => {
      const mine = seen.get(row)!;
      expect(`row ${row}: ${mine.brightnesses}`).toBe(`row ${row}: ${brightnesses}`);
      const { nets } = judged.value.bench().readings();
      for (const [net, node] of judged.value.circuit.nodeOfNet.entries())
        if (node !== GROUND && nets[net]?.drive !== 'floating') worst = Math.max(worst, Math.abs(mine.x[node]! - x[node]!));
    });
    expect(worst).toBeLessThan(ALIKE);
    return {
      kind: `${seed % 2 === 0 ? 'whole' : 'something missing'}, ${request.show}`,
      rows: begun.value.rows,
      solved: begun.value.solved,
      volts: worst,
    };
  },
);
