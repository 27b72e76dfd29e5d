/** Parts that stand on the bench and are not connected to anything yet: of these nothing else is said. */
import type { Nets } from '../board/nets.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Placed } from '../run/circuit/sites.ts';

const known = new WeakMap<Nets, readonly Placed[]>();

/** Parts none of whose legs has a wire or another part in its row; one with two legs in one row is misplaced and not among them. In order of the plan. */
export function unwiredParts(circuit: Circuit): readonly Placed[] {
  const before = known.get(circuit.nets);
  if (before) return before;
  const found = [...circuit.placed.values()].filter(
    ({ part, legs }) =>
      new Set(legs.map((l) => l.strip)).size === legs.length &&
      legs.every((leg) => {
        const net = circuit.netOf(leg);
        return net.ends.length === 0 && net.legs.every((l) => l.part === part);
      }),
  );
  known.set(circuit.nets, found);
  return found;
}
