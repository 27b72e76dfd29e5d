/** How easily the wiring of a bench is followed, in figures: wires, their length, and how often they cross, come near, or go over a part. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { type DrawnBench, drawnBench } from './drawn-bench.ts';
import { cross, goesOver, lengthOf, nearEnds } from './lines.ts';

/** length, longest [pitch]; crossings: pairs of wires that cross; near: ends within 0.45 pitch of another wire; over: wires over a part that is no single LED. */
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

export function figuresOf({ strokes, bodies }: DrawnBench): WiringFigures {
  const wires = strokes.flatMap(({ is, line }) => (is === 'wire' ? [line] : []));
  const lengths = wires.map(lengthOf);
  let [crossings, near, over] = [0, 0, 0];
  for (const [i, a] of wires.entries()) {
    for (const b of wires.slice(i + 1)) {
      if (cross(a, b)) crossings += 1;
      near += nearEnds(a, b);
    }
    if (bodies.some((body) => !body.led && goesOver(a, body))) over += 1;
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
