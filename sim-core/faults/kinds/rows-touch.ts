/** Two neighbouring rows touch: a bent leg, or a scrap of wire between them. */
import { stripOf } from '../../board/tie-points.ts';
import { addWire } from '../../document/edits/wires.ts';
import { defineFault } from '../fault.ts';
import { netAt, pinsIn, wireRef } from '../fault-bench.ts';
import { freeIn, metalBeside } from '../near-holes.ts';

export const rowsTouch = defineFault({
  kind: 'rows-touch',
  of: 'wiring',
  weight: 2,
  visible: 0.5,
  find(bench) {
    const rows = new Map(bench.context.layout.legs.flatMap((l) => (l.hole ? [[l.strip, l.hole] as const] : [])));
    return [...rows].flatMap(([strip, hole]) => {
      const beside = metalBeside(hole, 1);
      const other = beside && stripOf(beside);
      if (other === undefined || !rows.has(other) || netAt(bench, other) === netAt(bench, strip)) return [];
      const [from, to] = [freeIn(bench, hole), freeIn(bench, beside)];
      const change = from !== undefined && to !== undefined ? addWire(bench.context, from, to, 'grey') : undefined;
      if (!change?.ok) return [];
      return [
        { where: `${strip} ${other}`, things: [wireRef(change.value.item)], places: pinsIn(bench, [strip, other]), change: change.value },
      ];
    });
  },
});
