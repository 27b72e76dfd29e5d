/** The two wires of a supply are at each other's terminal. */
import type { PlanWire } from '../../../shared/plan.ts';
import { type Change, join } from '../../document/changes.ts';
import { defineFault } from '../fault.ts';
import { partRef, pointRef, wireRef } from '../fault-bench.ts';

export const supplyTurned = defineFault({
  kind: 'supply-reversed',
  of: 'wiring',
  weight: 0.2,
  visible: 0.9,
  find: ({ plan, circuit }) =>
    circuit.supplies.flatMap(({ placed: { part }, plus, minus }) => {
      const other = (point: string) => (point === plus.strip ? minus.strip : point === minus.strip ? plus.strip : point);
      const turned = plan.wires.flatMap((before): Change[] => {
        const after: PlanWire = { ...before, from: other(before.from), to: other(before.to) };
        return after.from === before.from && after.to === before.to ? [] : [{ op: 'replace', list: 'wires', before, after }];
      });
      const wires = plan.wires.filter((w) => [w.from, w.to].some((p) => p !== other(p)));
      if (wires.length < 2) return [];
      const places = [pointRef(plus.strip), pointRef(minus.strip)];
      return [{ where: part.id, things: [partRef(part), ...wires.map(wireRef)], places, change: join(...turned) }];
    }),
});
