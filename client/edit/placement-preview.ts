/** Where a part in the hand would go: from the hole nearest to the pointer at which its legs find holes, with the spots of those legs or what is in the way. */
import { type EditContext, holeAt, holeName, holeSpot, holesOfPart, type Placing, place } from '../../sim-core/index.ts';
import type { Spot } from '../scene/geometry.ts';

export interface PlacementPreview {
  readonly placing: Placing;
  readonly spots: readonly Spot[];
  readonly refusal?: string;
}

/** A part beside the boards is about so large [pitch]. */
const BESIDE: Spot = [12, 4];

export function placementPreview(context: EditContext, toPlace: Placing, [x, y]: Spot): PlacementPreview {
  const { plan, kinds } = context;
  const shape = kinds.shapeOf({ id: 'X', kind: toPlace.kind, ...(toPlace.params ? { params: toPlace.params } : {}) });
  const footprint = shape.ok ? shape.value.footprint : undefined;
  if (!footprint || footprint.shape === 'off-board') {
    const spot: [number, number] = [Math.round(x - BESIDE[0] / 2), Math.round(y - BESIDE[1] / 2)];
    return { placing: { ...toPlace, spot }, spots: [spot, [spot[0] + BESIDE[0], spot[1] + BESIDE[1]]] };
  }
  const [cx, cy] = [Math.round(x), Math.round(y)];
  const legsAt = (spot: Spot, to?: string): readonly Spot[] | undefined => {
    const hole = holeAt(spot, plan.boards);
    if (!hole) return undefined;
    const { label: _, spot: __, ...bare } = toPlace;
    const holes = holesOfPart(plan.boards, { id: 'X', ...bare, at: holeName(hole, plan.boards), ...(to ? { to } : {}) }, footprint, '');
    return holes.ok ? holes.value.map(holeSpot) : undefined;
  };
  if (footprint.shape === 'two-leg') {
    const hole = holeAt([cx, cy], plan.boards);
    if (!hole) return { placing: toPlace, spots: [[cx, cy]], refusal: 'No hole here.' };
    const placing = { ...toPlace, at: holeName(hole, plan.boards) };
    const would = place(context, placing);
    const to = would.ok ? would.value.item.to : undefined;
    const spots = to ? legsAt([cx, cy], to) : undefined;
    return {
      placing,
      spots: spots ?? [
        [cx, cy],
        [cx + footprint.span, cy],
      ],
      ...(would.ok ? {} : { refusal: would.failure.says }),
    };
  }
  // chips snap to the trench: of the holes above and below the pointer the nearest from which all legs find one
  for (const dy of Array.from({ length: 8 }, (_, i) => (i === 0 ? [0] : [i, -i])).flat()) {
    const hole = holeAt([cx, cy + dy], plan.boards);
    const spots = legsAt([cx, cy + dy]);
    if (!hole || 'rail' in hole || !spots) continue;
    const placing = { ...toPlace, at: holeName(hole, plan.boards) };
    const would = place(context, placing);
    return { placing, spots, ...(would.ok ? {} : { refusal: would.failure.says }) };
  }
  return { placing: toPlace, spots: [[cx, cy]], refusal: 'No room for its pins here. Move it over a board.' };
}
