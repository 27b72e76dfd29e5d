/** What is chosen, on the drawing: a ring round each part, a light and two handles on each wire; and the cursor that keys move from hole to hole. */
import type { Drawing } from '../scene/drawing.ts';
import { type Spot, U } from '../scene/geometry.ts';
import { el, short } from '../scene/svg.ts';

const HANDLE = 5.5;

/** alone: wires that are chosen are to stand out from the others. */
export function drawSelection(
  layer: SVGGElement,
  drawing: Drawing,
  ids: ReadonlySet<string>,
  cursor: Spot | undefined,
  alone: boolean,
): void {
  const rings = [...ids].flatMap((id): SVGElement[] => {
    const box = drawing.paths.has(id) ? undefined : drawing.boxOf(id);
    if (box)
      return [
        el('rect', {
          x: short((box.x - 0.3) * U),
          y: short((box.y - 0.3) * U),
          width: short((box.width + 0.6) * U),
          height: short((box.height + 0.6) * U),
          rx: 8,
          class: 'chosen-ring',
        }),
      ];
    const path = drawing.paths.get(id);
    return [path?.[0], path?.at(-1)].flatMap((s) =>
      s ? [el('circle', { cx: short(s[0] * U), cy: short(s[1] * U), r: HANDLE, class: 'chosen-end' })] : [],
    );
  });
  const here = cursor ? [el('path', { d: cross(cursor), class: 'bench-cursor' })] : [];
  layer.replaceChildren(...rings, ...here);
  for (const [id, wire] of drawing.wires) wire.root.classList.toggle('chosen', ids.has(id));
  drawing.layers.wires.classList.toggle('some-chosen', alone && [...ids].some((id) => drawing.wires.has(id)));
}

/** Four corners round a hole. */
function cross([x, y]: Spot): string {
  const [r, arm] = [0.46 * U, 0.22 * U];
  const corner = (sx: number, sy: number) =>
    `M${short(x * U + sx * r)} ${short(y * U + sy * (r - arm))}v${short(sy * arm)}h${short(-sx * arm)}`;
  return [corner(1, 1), corner(-1, 1), corner(-1, -1), corner(1, -1)].join('');
}
