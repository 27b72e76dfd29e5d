/** The supply is switched off. */
import { setEntry } from '../../document/changes.ts';
import { defineFault } from '../fault.ts';
import { partRef } from '../fault-bench.ts';

export const supplyOff = defineFault({
  kind: 'supply-off',
  of: 'supply',
  weight: 0.6,
  visible: 0.9,
  find: ({ plan, circuit }) =>
    circuit.supplies
      .filter((s) => plan.switches[s.placed.part.id]?.[0])
      .map(({ placed: { part } }) => ({
        where: part.id,
        things: [partRef(part)],
        places: [],
        change: setEntry(plan, 'switches', part.id, [false]),
      })),
});
