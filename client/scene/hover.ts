/** What the pointer and the focus rest on, told as they come and go. */
import type { BenchModel } from '../state/bench-model.ts';
import type { Drawing } from './drawing.ts';
import type { Box, Spot } from './geometry.ts';
import { MARKED, type Under, underElement, underHole } from './hit-text.ts';
import type { HoleIndex } from './hole-index.ts';

export interface PointedAt {
  model(): BenchModel | undefined;
  drawing(): Drawing | undefined;
  toBench(clientX: number, clientY: number): Spot;
  holeAt: HoleIndex;
  /** something is being moved, and nothing is picked out meanwhile */
  busy(): boolean;
  tell(under: Under | undefined): void;
  touched(under: Under): void;
  reveal(box: Box): void;
}

export function attachPointing(surface: SVGSVGElement, at: PointedAt): void {
  const under = (e: { clientX: number; clientY: number; target: EventTarget | null }): Under | undefined => {
    const [model, drawing] = [at.model(), at.drawing()];
    if (!model || !drawing) return undefined;
    const spot = at.toBench(e.clientX, e.clientY);
    const marked = e.target instanceof Element ? e.target.closest<SVGElement>(MARKED) : undefined;
    if (marked) return underElement(marked.dataset, model, drawing, spot);
    const hole = at.holeAt(spot);
    return hole && underHole(hole, model);
  };
  surface.addEventListener('pointermove', (e) => {
    if (!at.busy()) at.tell(under(e));
  });
  surface.addEventListener('focusin', (e) => {
    const [model, drawing] = [at.model(), at.drawing()];
    const marked = e.target instanceof Element ? e.target.closest<SVGElement>('[data-part]') : undefined;
    if (!marked?.matches(':focus-visible') || !model || !drawing) return;
    at.tell(underElement(marked.dataset, model, drawing));
    const box = drawing.faces.get(marked.dataset.part ?? '')?.box;
    if (box) at.reveal(box);
  });
  for (const left of ['pointerleave', 'focusout']) surface.addEventListener(left, () => at.tell(undefined));
  surface.addEventListener('click', (e) => {
    const it = under(e);
    if (it) at.touched(it);
  });
}
