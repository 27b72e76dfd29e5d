/** All wires as drawn: one whose ends and surroundings have not changed since the last drawing is taken over from it, with its way. */
import type { PlanWire } from '../../shared/plan.ts';
import { holeSpot } from '../../sim-core/index.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { Obstacle } from './cost-grid.ts';
import { around, type Box, holds, type Spot } from './geometry.ts';
import type { DrawnPart } from './part-layer.ts';
import { drawWire, type WireDrawing } from './wire-drawing.ts';
import { type Run, roughLength, samples } from './wire-path.ts';
import { layWires, type WireRoute } from './wire-router.ts';

export interface DrawnWire {
  readonly wire: PlanWire;
  readonly net: number;
  readonly drawing: WireDrawing;
  readonly way: WireRoute;
  /** places along its way, from end to end */
  readonly spots: readonly Spot[];
  /** what it was drawn from */
  readonly from: string;
}

/** Samples of a path, at least, and every which of them is looked at for a body that has come to lie under it. */
const SAMPLES = 48;
const EVERY = 3;
/** What it costs a wire to pass over a part, or over words printed beside one; see wire-router.ts. */
const [ON_PASSIVE, ON_WRITING, ON_BODY, ON_CHIP] = [0.6, 10, 6, 25];

interface Before {
  readonly wires: ReadonlyMap<string, DrawnWire>;
  readonly parts: ReadonlyMap<string, DrawnPart>;
}

/** before: the last drawing, unless a board has come, gone or moved since. */
export function drawWires(
  model: BenchModel,
  parts: ReadonlyMap<string, DrawnPart>,
  boards: readonly Box[],
  before: Before | undefined,
): ReadonlyMap<string, DrawnWire> {
  const { plan, netOfWire } = model;
  const runs = runsOf(model, parts);
  const fromOf = new Map(runs.map((r, i) => [r.id, `${r.from} ${r.to} ${plan.wires[i]?.colour}`]));
  const same = unchanged(before, parts, fromOf);
  const ways = layWires(runs, [...parts.values()].flatMap(obstaclesOf), boards, new Map([...same].map(([id, old]) => [id, old.way])));
  return new Map(
    plan.wires.flatMap((wire): ReadonlyArray<readonly [string, DrawnWire]> => {
      const way = ways.get(wire.id);
      const net = netOfWire.get(wire.id) ?? -1;
      if (!way) return [];
      const old = same.get(wire.id);
      return [[wire.id, old ? takenOver(old, wire, net) : drawnAlong(way, wire, net, fromOf.get(wire.id) ?? '')]];
    }),
  );
}

/** Each wire from spot to spot, in the plan's order. */
function runsOf({ plan, layout }: BenchModel, parts: ReadonlyMap<string, DrawnPart>): readonly Run[] {
  const holeOf = new Map(layout.ends.map((e) => [`${e.wire.id} ${e.end}`, e.hole]));
  const spotOf = (wire: PlanWire, end: 'from' | 'to'): Spot => {
    const hole = holeOf.get(`${wire.id} ${end}`);
    if (hole) return holeSpot(hole);
    const [part = '', pin = ''] = wire[end].split('.');
    return parts.get(part)?.spots.get(pin) ?? [0, 0];
  };
  return plan.wires.map((wire) => ({ id: wire.id, from: spotOf(wire, 'from'), to: spotOf(wire, 'to') }));
}

/** Wires that begin and end where they did, and under which no body has come to lie. */
function unchanged(
  before: Before | undefined,
  parts: ReadonlyMap<string, DrawnPart>,
  fromOf: ReadonlyMap<string, string>,
): ReadonlyMap<string, DrawnWire> {
  const moved = [...parts].flatMap(([id, p]) => (before?.parts.get(id)?.face === p.face ? [] : [p.face.box]));
  const lies = ({ spots }: DrawnWire) => spots.some((spot, i) => i % EVERY === 1 && moved.some((b) => holds(b, spot, 0.1)));
  return new Map([...(before?.wires ?? [])].filter(([id, old]) => old.from === fromOf.get(id) && !(moved.length > 0 && lies(old))));
}

const obstaclesOf = ({ face, specimen, spots }: DrawnPart): readonly Obstacle[] => [
  { box: face.box, weight: specimen.isChip ? ON_CHIP : specimen.kind.group === 'passive' ? ON_PASSIVE : ON_BODY },
  ...(face.writing ?? []).map((box) => ({ box, weight: ON_WRITING })),
  // no wire runs along the terminals of what stands beside the boards
  ...(specimen.part.at === undefined && spots.size > 0 ? [{ box: around([...spots.values()], 0.4), weight: ON_BODY }] : []),
];

function takenOver(old: DrawnWire, wire: PlanWire, net: number): DrawnWire {
  old.drawing.join(net);
  old.drawing.lay(undefined);
  return { ...old, wire, net };
}

function drawnAlong(way: WireRoute, wire: PlanWire, net: number, from: string): DrawnWire {
  const spots = samples(way.path, Math.max(SAMPLES, roughLength(way.path)));
  return { wire, net, drawing: drawWire(wire, way.path, net), way, spots, from };
}
