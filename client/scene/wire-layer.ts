/** All wires as drawn: one whose path has not changed since the last drawing is taken over from it. */
import type { PlanWire } from '../../shared/plan.ts';
import { holeSpot, OBSTACLE_WEIGHT, type Obstacle, type WirePath, type WireRun, wirePaths } from '../../sim-core/index.ts';
import type { BenchModel } from '../state/bench-model.ts';
import { around, type Box, type Spot } from './geometry.ts';
import type { DrawnPart } from './part-layer.ts';
import { drawWire, type WireDrawing } from './wire-drawing.ts';
import { roughLength, samples } from './wire-path.ts';

export interface DrawnWire {
  readonly wire: PlanWire;
  readonly net: number;
  readonly drawing: WireDrawing;
  /** places along its path, from end to end */
  readonly spots: readonly Spot[];
  /** what it was drawn from */
  readonly from: string;
}

/** Places along a path, at least. */
const SAMPLES = 48;

/** before: the wires of the last drawing. */
export function drawWires(
  model: BenchModel,
  parts: ReadonlyMap<string, DrawnPart>,
  before: ReadonlyMap<string, DrawnWire> = new Map(),
): ReadonlyMap<string, DrawnWire> {
  const { plan, netOfWire } = model;
  const drawn = [...parts.values()];
  const paths = wirePaths(runsOf(model, parts), drawn.flatMap(obstaclesOf), drawn.flatMap(lineOf));
  return new Map(
    plan.wires.flatMap((wire): ReadonlyArray<readonly [string, DrawnWire]> => {
      const path = paths.get(wire.id);
      if (!path) return [];
      const net = netOfWire.get(wire.id) ?? -1;
      const from = `${path.join(' ')} ${wire.colour}`;
      const old = before.get(wire.id);
      return [[wire.id, old?.from === from ? takenOver(old, wire, net) : drawnAlong(path, wire, net, from)]];
    }),
  );
}

/** Each wire from spot to spot, in the plan's order. */
function runsOf({ plan, layout }: BenchModel, parts: ReadonlyMap<string, DrawnPart>): readonly WireRun[] {
  const holeOf = new Map(layout.ends.map((e) => [`${e.wire.id} ${e.end}`, e.hole]));
  const spotOf = (wire: PlanWire, end: 'from' | 'to'): Spot => {
    const hole = holeOf.get(`${wire.id} ${end}`);
    if (hole) return holeSpot(hole);
    const [part = '', pin = ''] = wire[end].split('.');
    return parts.get(part)?.spots.get(pin) ?? [0, 0];
  };
  return plan.wires.map((wire) => ({ id: wire.id, from: spotOf(wire, 'from'), to: spotOf(wire, 'to') }));
}

const obstaclesOf = ({ face, specimen, spots }: DrawnPart): readonly Obstacle[] => [
  { ...edgesOf(face.box), weight: weightOf(specimen) },
  ...(face.writing ?? []).map((box) => ({ ...edgesOf(box), weight: OBSTACLE_WEIGHT.name })),
  // no wire lies over a terminal of what stands beside the boards, but for those that end there
  ...(specimen.part.at === undefined
    ? [...spots.values()].map((spot) => ({ ...edgesOf(around([spot], 0.4)), weight: OBSTACLE_WEIGHT.part, ends: spot }))
    : []),
];

const edgesOf = ({ x, y, width, height }: Box) => ({ left: x, right: x + width, top: y, bottom: y + height });

function weightOf({ isChip, kind, legs }: DrawnPart['specimen']): number {
  if (isChip) return OBSTACLE_WEIGHT.chip;
  if (kind.group === 'passive') return OBSTACLE_WEIGHT.passive;
  if (kind.group === 'led') return legs.length === 2 ? OBSTACLE_WEIGHT.led : OBSTACLE_WEIGHT.chip;
  return OBSTACLE_WEIGHT.part;
}

/** A part with two legs that bend is a line on the board. */
function lineOf({ specimen: { kind, legs }, spots }: DrawnPart) {
  const [one, other] = [...spots.values()];
  return kind.group === 'passive' && legs.length === 2 && one && other ? [{ ax: one[0], ay: one[1], bx: other[0], by: other[1] }] : [];
}

function takenOver(old: DrawnWire, wire: PlanWire, net: number): DrawnWire {
  old.drawing.join(net);
  old.drawing.lay(undefined);
  return { ...old, wire, net };
}

function drawnAlong(path: WirePath, wire: PlanWire, net: number, from: string): DrawnWire {
  const spots = samples(path, Math.max(SAMPLES, roughLength(path)));
  return { wire, net, drawing: drawWire(wire, path, net), spots, from };
}
