/** Bare metal: the legs between a body and its holes. */
import { type Spot, U } from '../geometry.ts';
import { el } from '../svg.ts';

/** A bent wire, hole to body. */
export const bentLeg = (from: Spot, to: Spot): SVGGElement =>
  el(
    'g',
    { class: 'bent-leg' },
    el('line', { x1: from[0] * U, y1: from[1] * U, x2: to[0] * U, y2: to[1] * U }),
    el('circle', { cx: from[0] * U, cy: from[1] * U, r: 3.1 }),
  );

/** A stamped leg of a row package. */
export const leg = (hole: Spot, bodyY: number): SVGGElement => {
  const top = Math.min(hole[1], bodyY) - 0.14;
  return el(
    'g',
    { class: 'leg' },
    el('rect', { x: (hole[0] - 0.16) * U, y: top * U, width: 0.32 * U, height: (Math.abs(hole[1] - bodyY) + 0.28) * U, rx: 1.5 }),
  );
};

/** Of a part between two holes: its middle, how far they are apart [pitch], which way the second lies from the first [°], and its bent legs. */
export function betweenHoles(a: Spot, b: Spot) {
  const middle: Spot = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const [across, down] = [b[0] - a[0], b[1] - a[1]];
  const angle = (Math.atan2(down, across) * 180) / Math.PI;
  return { middle, span: Math.hypot(across, down), angle, wires: [bentLeg(a, middle), bentLeg(b, middle)] } as const;
}

/** Print is read from the left or from below. */
export const readable = (angle: number): number => (angle > 90 || angle <= -90 ? angle + 180 : angle);
