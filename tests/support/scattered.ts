/** A bench wired without care: every end of a wire in some other free hole of its strip or rail. */
import type { Plan } from '../../shared/plan.ts';
import { layOut } from '../../sim-core/board/layout.ts';
import { holeName, readHole, sameStrip } from '../../sim-core/board/tie-points.ts';
import { shapeOf } from '../../sim-core/parts/footprint-index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';

/** The same circuit; what stands on the boards stays where it is. */
export function scattered(plan: Plan, seed: number): Plan {
  const random = makeRandom(seed);
  const { boards } = plan;
  const layout = layOut(plan, shapeOf);
  if (!layout.ok) throw new Error(layout.failure.says);
  const taken = new Set(layout.value.taken.keys());
  const elsewhere = (name: string): string => {
    const hole = readHole(name, boards);
    if (!hole.ok) return name;
    const free = sameStrip(hole.value)
      .map((h) => holeName(h, boards))
      .filter((h) => !taken.has(h));
    const chosen = free[Math.floor(random() * free.length)];
    if (chosen === undefined) return name;
    taken.add(chosen);
    taken.delete(name);
    return chosen;
  };
  return { ...plan, wires: plan.wires.map((wire) => ({ ...wire, from: elsewhere(wire.from), to: elsewhere(wire.to) })) };
}
