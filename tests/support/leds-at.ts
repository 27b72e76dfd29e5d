/** Where the single LEDs of a build stand. */
import type { Plan } from '../../shared/plan.ts';
import { holeSpot, readHole } from '../../sim-core/board/tie-points.ts';

/** Middles of the LEDs, in order of the table's outputs [pitch]; y runs down. */
export function ledsAt(plan: Plan): Array<readonly [number, number]> {
  const spot = (name: string): readonly [number, number] => {
    const hole = readHole(name, plan.boards);
    if (!hole.ok) throw new Error(hole.failure.says);
    return holeSpot(hole.value);
  };
  return plan.wanted!.outputs.map((o) => {
    const led = plan.parts.find((p) => p.id === o.led)!;
    const [[ax, ay], [bx, by]] = [spot(led.at!), spot(led.to!)];
    return [(ax + bx) / 2, (ay + by) / 2];
  });
}
