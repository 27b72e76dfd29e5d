/** Where a part in the hand would go: from the hole nearest to the pointer at which its legs find holes, with the spots of those legs or what is in the way. */
import { type EditContext, holeAt, holeName, holeSpot, holesOfPart, type Placing, place, readHole } from '../../sim-core/index.ts';
import type { Spot } from '../scene/geometry.ts';

export interface PlacementPreview {
  readonly placing: Placing;
  readonly spots: readonly Spot[];
  readonly refusal?: string;
}

/** How a part on two legs lies: its second leg so many quarter turns from the right of its first, none chosen where undefined; and with its legs exchanged. */
export interface Lie {
  readonly quarter?: number;
  readonly flipped?: boolean;
}

/** To the right, down, to the left, up. */
const QUARTERS: readonly Spot[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/** A part beside the boards is about so large [pitch]. */
const BESIDE: Spot = [12, 4];

export function placementPreview(context: EditContext, toPlace: Placing, [x, y]: Spot, lies: Lie = {}): PlacementPreview {
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
  const spotOf = (name: string | undefined): Spot | undefined => {
    const hole = name === undefined ? undefined : readHole(name, plan.boards);
    return hole?.ok ? holeSpot(hole.value) : undefined;
  };
  if (footprint.shape === 'two-leg') {
    /** with its second leg where it was turned to; undefined: there is no hole */
    const laid = (placing: Placing): Placing | undefined => {
      const [right, down] = QUARTERS[lies.quarter ?? 0] ?? [1, 0];
      const turned =
        lies.quarter === undefined ? undefined : holeAt([cx + right * footprint.span, cy + down * footprint.span], plan.boards);
      if (lies.quarter !== undefined && !turned) return undefined;
      const usual = turned ? undefined : place(context, placing);
      const to = turned ? holeName(turned, plan.boards) : usual?.ok ? usual.value.item.to : undefined;
      if (to === undefined) return placing;
      return lies.flipped ? { ...placing, at: to, to: placing.at } : { ...placing, to };
    };
    const hole = holeAt([cx, cy], plan.boards);
    if (!hole) return { placing: toPlace, spots: [[cx, cy]], refusal: 'No hole here.' };
    const placing = laid({ ...toPlace, at: holeName(hole, plan.boards) });
    if (!placing) return { placing: toPlace, spots: [[cx, cy]], refusal: 'No hole for its second leg here.' };
    const would = place(context, placing);
    const item = would.ok ? would.value.item : undefined;
    const spots = item?.to ? legsAt(spotOf(item.at) ?? [cx, cy], item.to) : undefined;
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
