/** Two wires that end in neighbouring rows stand in each other's. */
import type { WireEnd } from '../../board/layout.ts';
import { isRailHole, stripOf } from '../../board/tie-points.ts';
import { join } from '../../document/changes.ts';
import { defineFault, type FoundFault } from '../fault.ts';
import { type FaultBench, laidWires, netAt, pinsIn, pointRef, wireRef } from '../fault-bench.ts';
import { metalBeside } from '../near-holes.ts';

function swapped(bench: FaultBench, a: WireEnd, b: WireEnd): FoundFault {
  const [to, from] = [a.wire[a.end], b.wire[b.end]];
  return {
    where: `${a.wire.id}.${a.end} ${b.wire.id}.${b.end}`,
    things: [wireRef(a.wire), wireRef(b.wire)],
    places: [pointRef(to), pointRef(from), ...pinsIn(bench, [a.strip, b.strip])],
    change: join(
      { op: 'replace', list: 'wires', before: a.wire, after: { ...a.wire, [a.end]: from } },
      { op: 'replace', list: 'wires', before: b.wire, after: { ...b.wire, [b.end]: to } },
    ),
  };
}

export const wiresSwapped = defineFault({
  kind: 'wires-swapped',
  of: 'wiring',
  weight: 9,
  visible: 0.9,
  find(bench) {
    const ends = laidWires(bench).flatMap((w) => w.ends);
    return ends.flatMap((a) => {
      const beside = a.hole && !isRailHole(a.hole) ? metalBeside(a.hole, 1) : undefined;
      const strip = beside && stripOf(beside);
      const others = ends.filter((b) => b.strip === strip && b.wire !== a.wire && netAt(bench, b.strip) !== netAt(bench, a.strip));
      return others.map((b) => swapped(bench, a, b));
    });
  },
});
