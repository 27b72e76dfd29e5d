/** An LED stands the wrong way round. */
import { flip } from '../../document/edits/rotate.ts';
import { toPin } from '../../findings/rule.ts';
import { defineFault } from '../fault.ts';
import { onTwoLegs, partRef } from '../fault-bench.ts';

export const ledTurned = defineFault({
  kind: 'led-reversed',
  of: 'wiring',
  weight: 6,
  visible: 0.6,
  find: (bench) =>
    onTwoLegs(bench)
      .filter((p) => p.kind.group === 'led')
      .flatMap(({ part, legs }) => {
        const change = flip(bench.context, [part.id]);
        return change.ok ? [{ where: part.id, things: [partRef(part)], places: legs.map(toPin), change: change.value }] : [];
      }),
});
