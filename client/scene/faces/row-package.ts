/** What packages with two rows of legs share: body between the rows, legs, the notch and the dot at pin 1. */
import { around, type Box, type Spot, U } from '../geometry.ts';
import { el } from '../svg.ts';
import { leg } from './metal.ts';

export interface RowPackage {
  readonly box: Box;
  readonly notchAtLeft: boolean;
  readonly parts: readonly SVGElement[];
}

/** A 0.3 inch package has a body 0.25 inch wide, a 0.6 inch one 0.54 (from memory). */
export function rowPackage(legs: ReadonlyMap<string, Spot>): RowPackage {
  const spots = [...legs.values()];
  const outer = around(spots);
  const inset = outer.height > 4 ? 0.32 : 0.28;
  const box = { x: outer.x - 0.55, y: outer.y + inset, width: outer.width + 1.1, height: outer.height - 2 * inset };
  const one = spots[0] ?? [0, 0];
  const left = one[0] < outer.x + outer.width / 2;
  const midY = box.y + box.height / 2;
  const notchX = left ? box.x : box.x + box.width;
  const notch = el('path', {
    d: `M${notchX * U} ${(midY - 0.5) * U}a${0.5 * U} ${0.5 * U} 0 0 ${left ? 1 : 0} 0 ${U}z`,
    class: 'notch',
  });
  const dotY = one[1] > midY ? box.y + box.height - 0.92 : box.y + 0.92;
  const dot = el('circle', { cx: (left ? box.x + 0.42 : box.x + box.width - 0.42) * U, cy: dotY * U, r: 2, class: 'pin-one' });
  return {
    box,
    notchAtLeft: left,
    parts: [
      ...spots.map((s) => leg(s, s[1] < midY ? box.y : box.y + box.height)),
      el('rect', { x: box.x * U, y: box.y * U, width: box.width * U, height: box.height * U, rx: 3, class: 'chip-body' }),
      notch,
      dot,
    ],
  };
}

/** A pin's printed name at its edge of the body, with a line over it where it is active low. */
export function pinName(name: string, hole: Spot, box: Box): SVGGElement {
  const top = hole[1] < box.y + box.height / 2;
  const y = (top ? box.y + 0.66 : box.y + box.height - 0.26) * U;
  const low = name.startsWith('/');
  // of two names of one pin, such as RDY//BUSY, the first has to do
  const print = low ? name.slice(1) : (name.split('//')[0] ?? name);
  const size = Math.min(9.6, 18.5 / (0.6 * print.length));
  const width = print.length * 0.6 * size;
  return el(
    'g',
    { class: 'pin-name' },
    el('text', { x: hole[0] * U, y, 'font-size': size }, print),
    ...(low ? [el('path', { d: `M${hole[0] * U - width / 2} ${y - size + 0.6}h${width}` })] : []),
  );
}
