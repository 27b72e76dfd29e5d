/** Things lifted off the drawing while they are dragged: a layer of their own is moved, so that the rest is not painted again. */

import { type Spot, U } from '../scene/geometry.ts';
import { el, short } from '../scene/svg.ts';
import type { WireDrawing } from '../scene/wire-drawing.ts';

export interface DragLayer {
  /** [pitch] from where it was lifted */
  shift(by: Spot): void;
  layWire(id: string, from: Spot, to: Spot): void;
  /** everything where it was before */
  back(): void;
}

export function liftToDragLayer(overlay: SVGGElement, pieces: readonly SVGElement[], wires: ReadonlyMap<string, WireDrawing>): DragLayer {
  const moved = el('g');
  const laid = el('g');
  overlay.replaceChildren(laid, moved);
  const homes = [...pieces, ...[...wires.values()].map((l) => l.root)].map((e) => ({ e, parent: e.parentNode, next: e.nextSibling }));
  moved.append(...pieces);
  laid.append(...[...wires.values()].map((l) => l.root));
  return {
    shift([dx, dy]) {
      moved.setAttribute('transform', `translate(${short(dx * U)} ${short(dy * U)})`);
    },
    layWire(id, from, to) {
      wires.get(id)?.lay([from, to]);
    },
    back() {
      for (const { e, parent, next } of homes.reverse()) {
        if (e.parentNode !== moved && e.parentNode !== laid) continue;
        parent?.insertBefore(e, next?.parentNode === parent ? next : null);
      }
      for (const wire of wires.values()) wire.lay(undefined);
      overlay.replaceChildren();
    },
  };
}
