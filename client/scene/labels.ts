/** Names beside the parts on strips of paper, placed so that none lies on another or on a body. */
import { type Box, overlap, type Spot, U } from './geometry.ts';
import { el } from './svg.ts';

export interface Wish {
  readonly text: string;
  /** what it names */
  readonly about: Box;
  readonly look: 'lamp-name' | 'part-name';
  /** where it may stand, best first; the middle of the text, relative to the middle of the thing, [pitch] */
  readonly places: readonly Spot[];
}

/** Width of a letter of each look [pitch], a little more than the fonts' own. */
const LETTER = { 'lamp-name': 0.365, 'part-name': 0.28 } as const;
const HEIGHT = { 'lamp-name': 0.8, 'part-name': 0.56 } as const;
/** From the text to the strip's edge [pitch]. */
const MARGIN = 0.16;

/** Places the wishes in their order; a later one gives way to an earlier one. */
export function placeLabels(wishes: readonly Wish[], bodies: readonly Box[], busy: readonly Spot[]): SVGGElement {
  const placed: Box[] = [];
  const texts = wishes.map((wish) => {
    const middle: Spot = [wish.about.x + wish.about.width / 2, wish.about.y + wish.about.height / 2];
    const width = wish.text.length * LETTER[wish.look];
    const height = HEIGHT[wish.look];
    let best: Box | undefined;
    let least = Number.POSITIVE_INFINITY;
    wish.places.forEach(([dx, dy], rank) => {
      const box = { x: middle[0] + dx - width / 2, y: middle[1] + dy - height / 2, width, height };
      const grown = { x: box.x - 0.14, y: box.y, width: width + 0.28, height };
      let cost = rank * 0.45;
      for (const other of placed) cost += overlap(grown, other) * 20;
      for (const body of bodies) cost += overlap(grown, body) * 6;
      for (const [x, y] of busy) if (x > box.x && x < box.x + width && y > box.y && y < box.y + height) cost += 0.07;
      if (cost < least) {
        least = cost;
        best = box;
      }
    });
    if (best) placed.push(best);
    const at = best ?? { x: middle[0], y: middle[1], width: 0, height };
    const strip = { x: at.x - MARGIN, y: at.y, width: at.width + 2 * MARGIN, height: at.height };
    return el(
      'g',
      { class: `label ${wish.look}` },
      el('rect', { x: strip.x * U, y: strip.y * U, width: strip.width * U, height: strip.height * U, rx: 3 }),
      el('text', { x: (at.x + at.width / 2) * U, y: (at.y + at.height / 2) * U + (wish.look === 'lamp-name' ? 4.8 : 3) }, wish.text),
    );
  });
  return el('g', { class: 'labels', 'aria-hidden': 'true' }, ...texts);
}
