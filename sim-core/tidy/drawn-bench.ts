/** A bench as its wiring is judged: every wire and every resistor a straight line, every other part what it covers of the board. */
import type { Outcome } from '../../shared/outcome.ts';
import { done } from '../../shared/outcome.ts';
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { type Layout, type Leg, layOut } from '../board/layout.ts';
import { holeSpot } from '../board/tie-points.ts';
import { partKind } from '../parts/catalogue.ts';
import { shapeOf } from '../parts/footprint-index.ts';
import type { Body, Segment } from './lines.ts';

/** wire: its own id; part: a part with two legs that bend, which is a line too. */
export interface Stroke {
  readonly id: string;
  readonly is: 'wire' | 'part';
  readonly line: Segment;
}

/** led: what it covers is an LED's, which one can look past. */
export interface Covered extends Body {
  readonly part: string;
  readonly led: boolean;
}

export interface DrawnBench {
  readonly layout: Layout;
  readonly strokes: readonly Stroke[];
  readonly bodies: readonly Covered[];
}

/** How far a package reaches beyond its outer legs along the board, and how far it stays within its rows of legs [pitch]; from memory. */
const BEYOND = 0.5;
const WITHIN = 0.4;
/** Half the width of a single LED, 5 mm across (common size), and of a can or a disc [pitch]. */
const ROUND = 1;

/** Fails with `plan/…` if something cannot be where the plan says. */
export function drawnBench(plan: Plan): Outcome<DrawnBench> {
  const layout = layOut(plan, shapeOf);
  if (!layout.ok) return layout;
  const strokes: Stroke[] = [];
  const bodies: Covered[] = [];
  for (const [part, legs] of legsByPart(layout.value)) {
    const [one, other] = legs.map(spotOf);
    if (isBent(part) && one && other)
      strokes.push({ id: part.id, is: 'part', line: { ax: one[0], ay: one[1], bx: other[0], by: other[1] } });
    else bodies.push(...bodyOf(part, legs));
  }
  const { ends } = layout.value;
  for (let i = 0; i + 1 < ends.length; i += 2) {
    const [from, to] = [ends[i], ends[i + 1]];
    if (!from || !to) continue;
    const [[ax, ay], [bx, by]] = [from, to].map(({ hole, strip }) => (hole ? holeSpot(hole) : terminalSpot(plan, strip))) as [Spot, Spot];
    strokes.push({ id: from.wire.id, is: 'wire', line: { ax, ay, bx, by } });
  }
  return done({ layout: layout.value, strokes, bodies });
}

type Spot = readonly [x: number, y: number];

/** Where a part beside the boards stands: its terminals are drawn there. */
const terminalSpot = ({ parts }: Plan, terminal: string): Spot =>
  parts.find((p) => p.id === terminal.slice(0, terminal.indexOf('.')))?.spot ?? [0, 0];

function legsByPart({ legs }: Layout): Map<PlanPart, Leg[]> {
  const found = new Map<PlanPart, Leg[]>();
  for (const leg of legs) {
    const here = found.get(leg.part);
    if (here) here.push(leg);
    else found.set(leg.part, [leg]);
  }
  return found;
}

const spotOf = ({ hole }: Leg): Spot | undefined => hole && holeSpot(hole);

/** Drawn as a line from leg to leg. */
export const isBent = (part: PlanPart): boolean => {
  const shape = shapeOf(part);
  return shape.ok && shape.value.footprint.shape === 'two-leg' && partKind(part.kind)?.group === 'passive';
};

function bodyOf(part: PlanPart, legs: readonly Leg[]): Covered[] {
  const spots = legs.flatMap((leg) => (leg.hole ? [holeSpot(leg.hole)] : []));
  if (spots.length === 0) return [];
  const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const led = partKind(part.kind)?.group === 'led' && legs.length === 2;
  if (led) {
    const [x, y] = [(left + right) / 2, (top + bottom) / 2];
    return [{ part: part.id, led, left: x - ROUND, right: x + ROUND, top: y - ROUND, bottom: y + ROUND }];
  }
  // between its rows of legs; legs in one line stand under it
  const inset = bottom - top > 2 * WITHIN ? WITHIN : -WITHIN;
  return [{ part: part.id, led, left: left - BEYOND, right: right + BEYOND, top: top + inset, bottom: bottom - inset }];
}
