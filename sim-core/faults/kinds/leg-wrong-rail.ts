/** A leg of a part on two wires stands in the rail beside the one that was meant: a pull-down pulls up. */
import { defineFault } from '../fault.ts';
import { onTwoLegs } from '../fault-bench.ts';
import { withLegAt } from '../moved.ts';
import { besideRail, holeCalled } from '../near-holes.ts';

export const legWrongRail = defineFault({
  kind: 'leg-wrong-rail',
  of: 'wiring',
  weight: 1,
  visible: 0.9,
  find: (bench) =>
    onTwoLegs(bench).flatMap((placed) =>
      (['at', 'to'] as const).flatMap((leg) => {
        const hole = holeCalled(bench, placed.part[leg] ?? '');
        return withLegAt(bench, placed, leg, hole && besideRail(bench, hole), 'other rail');
      }),
    ),
});
