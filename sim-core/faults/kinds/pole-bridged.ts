/** A wire across a pole of a switch, so the pole is always closed. */
import { addWire } from '../../document/edits/wires.ts';
import { toPin } from '../../findings/rule.ts';
import { defineFault } from '../fault.ts';
import { partRef, wireRef } from '../fault-bench.ts';
import { freeIn } from '../near-holes.ts';

export const poleBridged = defineFault({
  kind: 'pole-bridged',
  of: 'wiring',
  weight: 0.8,
  visible: 0.5,
  find: (bench) =>
    bench.circuit.contacts
      .filter((c) => !c.contact.momentary)
      .flatMap(({ placed: { part }, pole, legs }) => {
        const [from, to] = legs.map((l) => freeIn(bench, l.hole));
        const change = from !== undefined && to !== undefined ? addWire(bench.context, from, to, 'green') : undefined;
        if (!change?.ok) return [];
        const things = [wireRef(change.value.item), partRef(part)];
        return [{ where: `${part.id}.${pole + 1}`, things, places: legs.map(toPin), change: change.value }];
      }),
});
