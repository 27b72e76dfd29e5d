/** What packages with two rows of legs share: body between the rows, legs, the notch and the dot at pin 1. */
import { around, type Box, type Spot, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { leg } from './bent-leg.ts';

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

const focusRing = (box: Box): SVGRectElement =>
  el('rect', {
    x: (box.x - 0.15) * U,
    y: (box.y - 0.15) * U,
    width: (box.width + 0.3) * U,
    height: (box.height + 0.3) * U,
    rx: 5,
    class: 'focus-ring',
  });

/** A chip as keys and assistive tools reach it: over the wires, which a pointer goes through to. */
export const chipHandle = (box: Box, called: string): SVGGElement =>
  el('g', { class: 'chip-handle', role: 'button', 'aria-label': called, 'pointer-events': 'none' }, focusRing(box));

/** Largest letters of a name that stands upright [drawing units]: in a wide body, and in a narrow one, where two names meet in the middle. */
const [UPRIGHT_WIDE, UPRIGHT_NARROW] = [15, 14.5];
/** A letter of the mono face is so wide, as a part of its size. */
const LETTER = 0.6;

/** A pin's printed name at its edge of the body, lying and upright, with a line over it where it is active low. */
export function pinName(name: string, hole: Spot, box: Box): SVGGElement {
  const top = hole[1] < box.y + box.height / 2;
  const low = name.startsWith('/');
  // of two names of one pin, such as RDY//BUSY, the first has to do
  const print = low ? name.slice(1) : (name.split('//')[0] ?? name);
  const x = hole[0] * U;
  const flat = Math.min(9.6, 18.5 / (LETTER * print.length));
  const wide = box.height > 4;
  const upright = Math.min(wide ? UPRIGHT_WIDE : UPRIGHT_NARROW, ((wide ? 1.7 : 1.05) * U) / (LETTER * print.length));
  const line = (size: number, from: number) =>
    low ? [el('path', { d: `M${short(from)} ${short(0.6 - size)}h${short(print.length * LETTER * size)}` })] : [];
  const edge = (top ? box.y : box.y + box.height) * U;
  return el(
    'g',
    { class: 'pin-name' },
    el(
      'g',
      { class: 'flat', transform: `translate(${short(x)} ${short(edge + (top ? 0.66 : -0.26) * U)})` },
      el('text', { 'font-size': flat, 'text-anchor': 'middle' }, print),
      ...line(flat, -0.5 * print.length * LETTER * flat),
    ),
    el(
      'g',
      { class: 'upright', transform: `translate(${short(x + upright * 0.36)} ${short(edge + (top ? 3.5 : -3.5))}) rotate(-90)` },
      el(
        'g',
        {},
        el('text', { 'font-size': upright, 'text-anchor': top ? 'end' : 'start' }, print),
        ...line(upright, top ? -print.length * LETTER * upright : 0),
      ),
    ),
  );
}
