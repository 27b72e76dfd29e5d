/** Things lifted off the drawing while they are dragged: a layer of their own is moved, so that the rest is not painted again. */
import { handCurve } from '../scene/curves.ts';
import { type Spot, U } from '../scene/geometry.ts';
import type { LeadDrawing } from '../scene/lead-drawing.ts';
import { el, short } from '../scene/svg.ts';

export interface Lifted {
  /** [pitch] from where it was lifted */
  shift(by: Spot): void;
  layLead(id: string, from: Spot, to: Spot): void;
  /** everything where it was before */
  back(): void;
}

export function lift(air: SVGGElement, pieces: readonly SVGElement[], leads: ReadonlyMap<string, LeadDrawing>): Lifted {
  const moved = el('g');
  const laid = el('g');
  air.replaceChildren(laid, moved);
  const homes = [...pieces, ...[...leads.values()].map((l) => l.root)].map((e) => ({ e, parent: e.parentNode, next: e.nextSibling }));
  moved.append(...pieces);
  laid.append(...[...leads.values()].map((l) => l.root));
  return {
    shift([dx, dy]) {
      moved.setAttribute('transform', `translate(${short(dx * U)} ${short(dy * U)})`);
    },
    layLead(id, from, to) {
      leads.get(id)?.lay(handCurve({ id, from, to }));
    },
    back() {
      for (const { e, parent, next } of homes.reverse()) {
        if (e.parentNode !== moved && e.parentNode !== laid) continue;
        parent?.insertBefore(e, next?.parentNode === parent ? next : null);
      }
      for (const lead of leads.values()) lead.lay(undefined);
      air.replaceChildren();
    },
  };
}
