/** How easily the wiring of a bench is followed, in figures: wires, their length, and how often they cross, come near, or go over a part. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { type DrawnBench, drawnBench } from './drawn-bench.ts';
import { conflicts, goesOver, lengthOf } from './lines.ts';
import { pathsOnBench, segmentsOf } from './wire-paths.ts';

/** length, longest [pitch]; crossings: how often wires cross as they are drawn; near: ends within 0.45 pitch of another wire; over: wires over a part that is no single LED. */
export interface WiringFigures {
  readonly wires: number;
  readonly length: number;
  readonly longest: number;
  readonly crossings: number;
  readonly near: number;
  readonly over: number;
}

/** Fails with `plan/…` if something cannot be where the plan says. */
export function wiringFigures(plan: Plan): Outcome<WiringFigures> {
  const drawn = drawnBench(plan);
  return drawn.ok ? done(figuresOf(drawn.value)) : drawn;
}

export function figuresOf(bench: DrawnBench): WiringFigures {
  const wires = [...pathsOnBench(bench).values()].map(segmentsOf);
  const lengths = wires.map((parts) => parts.reduce((sum, part) => sum + lengthOf(part), 0));
  let [crossings, near, over] = [0, 0, 0];
  for (const [i, a] of wires.entries()) {
    for (const b of wires.slice(i + 1)) {
      const between = conflicts(a, b);
      crossings += between.crossings;
      near += between.near;
    }
    if (bench.bodies.some((body) => !body.led && a.some((part) => goesOver(part, body)))) over += 1;
  }
  return {
    wires: wires.length,
    length: lengths.reduce((sum, l) => sum + l, 0),
    longest: Math.max(0, ...lengths),
    crossings,
    near,
    over,
  };
}
