/** All leads as drawn: one whose ends and surroundings have not changed since the last drawing is taken over from it, with its way. */
import type { PlanLead } from '../../shared/plan.ts';
import { holeSpot } from '../core.ts';
import type { Standing } from '../standing.ts';
import { type Run, roughLength, samples } from './curves.ts';
import type { DrawnPart } from './drawn-parts.ts';
import { type Box, holds, type Spot } from './geometry.ts';
import { drawLead, type LeadDrawing } from './lead-drawing.ts';
import { layLeads, type Way } from './lead-routes.ts';

export interface DrawnLead {
  readonly lead: PlanLead;
  readonly net: number;
  readonly drawing: LeadDrawing;
  readonly way: Way;
  /** places along its way, from end to end */
  readonly spots: readonly Spot[];
  /** what it was drawn from */
  readonly from: string;
}

/** Samples of a curve, at least, and every which of them is looked at for a body that has come to lie under it. */
const SAMPLES = 48;
const EVERY = 3;
/** What it costs a lead to pass over a part, or over words printed beside one; see lead-routes. */
const [ON_PASSIVE, ON_WRITING, ON_BODY, ON_CHIP] = [0.6, 10, 6, 25];

/** before: the last drawing, unless a board has come, gone or moved since. */
export function drawLeads(
  standing: Standing,
  parts: ReadonlyMap<string, DrawnPart>,
  boards: readonly Box[],
  before: { readonly leads: ReadonlyMap<string, DrawnLead>; readonly parts: ReadonlyMap<string, DrawnPart> } | undefined,
): ReadonlyMap<string, DrawnLead> {
  const { plan, layout, netOfLead } = standing;
  const holeOf = new Map(layout.ends.map((e) => [`${e.lead.id} ${e.end}`, e.hole]));
  const spotOf = (lead: PlanLead, end: 'from' | 'to'): Spot => {
    const hole = holeOf.get(`${lead.id} ${end}`);
    if (hole) return holeSpot(hole);
    const [part = '', pin = ''] = lead[end].split('.');
    return parts.get(part)?.spots.get(pin) ?? [0, 0];
  };
  const runs = plan.leads.map((lead): Run => ({ id: lead.id, from: spotOf(lead, 'from'), to: spotOf(lead, 'to') }));
  const fromOf = new Map(runs.map((r, i) => [r.id, `${r.from} ${r.to} ${plan.leads[i]?.colour}`]));
  const moved = [...parts].flatMap(([id, p]) => (before?.parts.get(id)?.face === p.face ? [] : [p.face.box]));
  const same = new Map(
    [...(before?.leads ?? [])].filter(
      ([id, old]) =>
        old.from === fromOf.get(id) &&
        !(moved.length > 0 && old.spots.some((spot, i) => i % EVERY === 1 && moved.some((b) => holds(b, spot, 0.1)))),
    ),
  );
  const ways = layLeads(
    runs,
    [...parts.values()].flatMap(({ face, specimen }) => [
      { box: face.box, weight: specimen.isChip ? ON_CHIP : specimen.kind.group === 'passive' ? ON_PASSIVE : ON_BODY },
      ...(face.writing ?? []).map((box) => ({ box, weight: ON_WRITING })),
    ]),
    boards,
    new Map([...same].map(([id, old]) => [id, old.way])),
  );
  return new Map(
    plan.leads.flatMap((lead): ReadonlyArray<readonly [string, DrawnLead]> => {
      const way = ways.get(lead.id);
      const net = netOfLead.get(lead.id) ?? -1;
      if (!way) return [];
      const old = same.get(lead.id);
      if (old) {
        old.drawing.join(net);
        old.drawing.lay(undefined);
        return [[lead.id, { ...old, lead, net }]];
      }
      const drawing = drawLead(lead, way.curve, net);
      return [
        [
          lead.id,
          {
            lead,
            net,
            drawing,
            way,
            spots: samples(way.curve, Math.max(SAMPLES, roughLength(way.curve))),
            from: fromOf.get(lead.id) ?? '',
          },
        ],
      ];
    }),
  );
}
