/** What a part on offer looks like: small, in the list; and in the hand, where it would stand. */
import { apply, emptyBench, type Placing, partLookup, place } from '../../sim-core/index.ts';
import type { Spot } from '../scene/geometry.ts';
import { drawSmallPart, sketchPart } from '../scene/small-drawing.ts';
import { layoutOf, makeBenchModel, type PlacedPart } from '../state/bench-model.ts';

/** The plan of one such part alone on a board. */
interface Sample {
  readonly plan: ReturnType<typeof apply>;
  readonly id: string;
}

const bare = { ...emptyBench, parts: [] };
const samples = new Map<string, Sample | undefined>();

/** undefined: it has no room on a board of its own. */
function sampleOf({ kind, params }: Placing): Sample | undefined {
  const key = JSON.stringify([kind, params]);
  if (samples.has(key)) return samples.get(key);
  const layout = layoutOf(bare);
  const made = layout.ok ? place({ plan: bare, layout: layout.value, kinds: partLookup }, { kind, ...(params ? { params } : {}) }) : layout;
  const sample = made.ok ? { plan: apply(bare, made.value), id: made.value.item.id } : undefined;
  samples.set(key, sample);
  return sample;
}

/** A new drawing each time: an element stands in one place only. */
export function partPicture(placing: Placing): SVGSVGElement | undefined {
  const sample = sampleOf(placing);
  return sample && drawSmallPart(sample.plan, sample.id);
}

const specimens = new Map<Sample, PlacedPart | undefined>();

/** spots: of its legs in the order of its pins; of a part beside the boards, its corner. middle: of the bench, to which terminals turn. */
export function partInHand(placing: Placing, spots: readonly Spot[], middle: Spot): SVGGElement | undefined {
  const sample = sampleOf(placing);
  const [corner] = spots;
  if (!sample || !corner) return undefined;
  if (!specimens.has(sample)) specimens.set(sample, makeBenchModel(sample.plan).specimen.get(sample.id));
  const part = specimens.get(sample);
  const onBoard = part?.part.at !== undefined;
  if (!part || (onBoard && part.legs.length !== spots.length)) return undefined;
  const legs = new Map(onBoard ? part.legs.map((l, i) => [l.pin.pin, spots[i] ?? corner] as const) : []);
  return sketchPart(part, legs, corner, middle);
}
