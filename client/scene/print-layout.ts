/** The drawing laid out for print: the whole bench in one view, with names in their printed size. */
import { type Box, U } from './geometry.ts';

export function layOutForPrint(surfaces: readonly SVGSVGElement[], worlds: readonly SVGGElement[], { x, y, width, height }: Box): void {
  for (const svg of surfaces) svg.setAttribute('viewBox', [x - 1, y - 1, width + 2, height + 2].map((p) => p * U).join(' '));
  for (const world of worlds) {
    world.removeAttribute('transform');
    Object.assign(world.dataset, { detail: 'near', names: 'flat' });
    world.style.removeProperty('--least');
  }
}
