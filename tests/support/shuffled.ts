/** A bench whose file is in another order: nothing that is said or shown of it may depend on that. */
import type { Plan } from '../../shared/plan.ts';
import { makeRandom } from '../../sim-core/units/random.ts';

/** The same bench, its parts and wires in another order. */
export function shuffled(plan: Plan, seed: number): Plan {
  const random = makeRandom(seed);
  const shuffle = <T>(list: readonly T[]): T[] =>
    list
      .map((thing) => ({ thing, at: random() }))
      .sort((a, b) => a.at - b.at)
      .map(({ thing }) => thing);
  return { ...plan, parts: shuffle(plan.parts), wires: shuffle(plan.wires) };
}
