/** The whole drawing of a standing bench: layers in their order of paint, and the one call that shows a reading. */

import type { Plan } from '../../shared/plan.ts';
import type { LampReading, Readings } from '../core.ts';
import { holeSpot } from '../core.ts';
import { damageIn } from '../damage.ts';
import { presenting } from '../look/presentation.ts';
import { digitsSay } from '../shown.ts';
import type { Specimen, Standing } from '../standing.ts';
import { boardBox, drawBoard } from './board-drawing.ts';
import { drawDamage } from './damage-mark.ts';
import { faceFor } from './faces/catalogue.ts';
import type { Face, Hand, Sight } from './faces/face.ts';
import { around, type Box, holds, type Spot, union } from './geometry.ts';
import { placeLabels, type Wish } from './labels.ts';
import { drawLead, type LeadDrawing } from './lead-drawing.ts';
import { type Curve, layLeads, type Run, samples } from './lead-routes.ts';
import type { Drawn } from './picks.ts';
import { drawPinLevels, type PinLevels } from './pin-levels.ts';
import { rampColour, rampIndex } from './ramp.ts';
import { el } from './svg.ts';

export interface Drawing extends Drawn {
  readonly boards: SVGGElement;
  /** bodies, leads, lamps, levels, labels */
  readonly layers: readonly SVGGElement[];
  readonly box: Box;
  /** all that is drawn of a part, by id: body, what is over the leads, levels at its pins */
  readonly pieces: ReadonlyMap<string, readonly SVGElement[]>;
  readonly leads: ReadonlyMap<string, LeadDrawing>;
  /** what the next drawing may take over */
  readonly kept: Kept;
  /** marks the parts that this plan says are damaged, and no others; shown with the next reading */
  mark(plan: Plan): void;
  /** places the names for a view of so many pixels to the drawing unit; small names only if `near` */
  name(scale: number, near: boolean): void;
  show(readings: Readings, dark: boolean): void;
}

/** Half of the place that a mark at one pin takes [pitch]. */
const PIN_MARK = 0.4;
/** Drawn things by id, each with what it was drawn from; what has not changed is not drawn again, and its leads keep their ways. */
interface Kept {
  readonly boards: string;
  readonly faces: ReadonlyMap<string, { readonly from: string; readonly face: Face; readonly levels: PinLevels | undefined }>;
  readonly leads: ReadonlyMap<string, { readonly from: string; readonly drawing: LeadDrawing; readonly curve: Curve }>;
}

const EMPTY: Box = { x: 0, y: 0, width: 65, height: 20 };

export function drawBench(standing: Standing, hand: Hand, before?: Drawing): Drawing {
  const { plan } = standing;
  const boardBoxes = plan.boards.map(boardBox);
  const whole = union(boardBoxes) ?? EMPTY;
  const middle: Spot = [whole.x + whole.width / 2, whole.y + whole.height / 2];
  const legSpots = new Map<string, Map<string, Spot>>();
  const faces = new Map<string, Face>();
  const keptFaces = new Map<string, { readonly from: string; readonly face: Face; readonly levels: PinLevels | undefined }>();
  // what stands beside the boards comes first, so that a supply's switch is the first thing a keyboard reaches
  const order = [...standing.specimens].sort((a, b) => Number(a.part.at !== undefined) - Number(b.part.at !== undefined));
  const free = freeSpots(whole);
  for (const s of order.map((o) => (o.part.at === undefined && !o.part.spot ? { ...o, part: { ...o.part, spot: free() } } : o))) {
    const legs = new Map(s.legs.flatMap((l) => (l.hole ? [[l.pin.pin, holeSpot(l.hole)] as const] : [])));
    const { damaged: _, ...whole } = s.part;
    const from = JSON.stringify([whole, [...legs], s.contacts, s.lamps, s.part.at === undefined ? middle : 0]);
    const old = before?.kept.faces.get(s.part.id);
    const face = old?.from === from ? old.face : faceFor(s)(s, { legs, middle, hand });
    face.body.setAttribute('data-part', s.part.id);
    const spots = new Map([...legs, ...(face.terminals ?? [])]);
    const levels = !s.isChip ? undefined : old?.from === from ? old.levels : drawPinLevels(s, spots, face);
    levels?.join(s);
    keptFaces.set(s.part.id, { from, face, levels });
    legSpots.set(s.part.id, new Map([...legs, ...(face.terminals ?? [])]));
    faces.set(s.part.id, face);
  }
  const faceOf = (s: Specimen) => faces.get(s.part.id) as Face;

  const holeOf = new Map(standing.layout.ends.map((e) => [`${e.lead.id} ${e.end}`, e.hole]));
  const runs = plan.leads.map((lead): Run => {
    const [from, to] = (['from', 'to'] as const).map((end): Spot => {
      const hole = holeOf.get(`${lead.id} ${end}`);
      if (hole) return holeSpot(hole);
      const [part = '', pin = ''] = lead[end].split('.');
      return legSpots.get(part)?.get(pin) ?? middle;
    });
    return { id: lead.id, from: from ?? middle, to: to ?? middle };
  });
  const boardsAre = JSON.stringify(plan.boards);
  const moved = standing.specimens.filter((s) => before?.kept.faces.get(s.part.id)?.face !== faceOf(s)).map((s) => faceOf(s).box);
  const leadFrom = new Map(runs.map((r, i) => [r.id, JSON.stringify([r.from, r.to, plan.leads[i]?.colour])]));
  const same = new Map(
    [...(before?.kept.boards === boardsAre ? before.kept.leads : [])].filter(
      ([id, old]) =>
        old.from === leadFrom.get(id) &&
        !samples(old.curve, 16)
          .slice(1, -1)
          .some((spot) => moved.some((b) => holds(b, spot, 0.1))),
    ),
  );
  const curves = layLeads(
    runs,
    standing.specimens.map((s) => ({ box: faceOf(s).box, weight: s.kind.group === 'passive' ? 0.6 : 6 })),
    boardBoxes,
    new Map([...same].map(([id, old]) => [id, old.curve])),
  );
  const leads = plan.leads.flatMap((lead) => {
    const curve = curves.get(lead.id);
    const net = standing.netOfLead.get(lead.id) ?? -1;
    if (!curve) return [];
    const drawing = same.get(lead.id)?.drawing ?? drawLead(lead, curve, net);
    drawing.join(net);
    return [{ id: lead.id, net, curve, drawing }];
  });
  const curveSpots = new Map([...curves].map(([id, c]) => [id, samples(c, 48)]));
  const levels = standing.specimens.flatMap((s) => keptFaces.get(s.part.id)?.levels ?? []);
  const bodies = [...faces.values()].map((f) => f.box);
  const holes = [...legSpots.values()].flatMap((legs) => [...legs.values()].map((spot) => around([spot], 0.22)));

  const labels = el('g', { class: 'labels', 'aria-hidden': 'true' });
  const marks = el('g', { class: 'marks' });
  const room = { bodies: [...bodies, ...holes], busy: [...curveSpots.values()].flat(), boards: boardBoxes };
  let damage: ReadonlyMap<string, string> = new Map();
  let seen: readonly [scale: number, near: boolean] | undefined;
  const name = (scale: number, near: boolean) => {
    seen = [scale, near];
    const all = wishes(standing, faces, damage).filter((w) => near || w.look !== 'part-name');
    labels.replaceChildren(...placeLabels(all, room, scale));
  };

  let last: { readings: Readings; dark: boolean } | undefined;
  return {
    boards: before?.kept.boards === boardsAre ? before.boards : el('g', {}, ...plan.boards.map(drawBoard)),
    layers: [
      el('g', { class: 'bodies' }, ...order.map((s) => faceOf(s).body)),
      el('g', { class: 'leads' }, ...leads.map((l) => l.drawing.root)),
      el('g', { class: 'lamps' }, ...order.flatMap((s) => faceOf(s).over ?? [])),
      el('g', { class: 'all-levels', 'aria-hidden': 'true' }, ...levels.map((l) => l.root)),
      marks,
      labels,
    ],
    box: union([...boardBoxes, ...bodies]) ?? EMPTY,
    faces,
    legSpots,
    curves: curveSpots,
    pieces: new Map(
      standing.specimens.map((s) => {
        const { body, over } = faceOf(s);
        const own = keptFaces.get(s.part.id)?.levels;
        return [s.part.id, [body, ...(over ? [over] : []), ...(own ? [own.root] : [])]];
      }),
    ),
    leads: new Map(leads.map((l) => [l.id, l.drawing])),
    kept: {
      boards: boardsAre,
      faces: keptFaces,
      leads: new Map(leads.map((l) => [l.id, { from: leadFrom.get(l.id) ?? '', drawing: l.drawing, curve: l.curve }])),
    },
    mark(plan) {
      const now = damageIn(plan);
      if ([...now].join() === [...damage].join()) return;
      damage = now;
      marks.replaceChildren(
        ...standing.specimens.flatMap((s) => {
          const says = damage.get(s.part.id);
          // lamps say it themselves
          const spoken = s.lamps.length > 0 ? undefined : `${s.part.label ?? s.part.id}, ${says}`;
          if (!says) return [];
          const burnt = plan.parts.find((p) => p.id === s.part.id)?.damaged?.pins;
          if (!burnt) return [drawDamage(faceOf(s).box, spoken)];
          // the marks stand at the pins; the first of them speaks for all
          return s.legs
            .filter(({ pin }) => burnt.includes(pin.name))
            .map(({ pin }, i) => {
              const spot = legSpots.get(s.part.id)?.get(pin.pin);
              return drawDamage(spot ? around([spot], PIN_MARK) : faceOf(s).box, i === 0 ? spoken : undefined);
            });
        }),
      );
      if (seen) name(...seen);
    },
    name,
    show(readings, dark) {
      const dead = standing.specimens.filter((s) => damage.has(s.part.id)).flatMap((s) => s.lamps.map((l) => deadLamp(s, l.lamp)));
      const sight: Sight = {
        readings,
        dark,
        damage,
        digits: digitsSay(readings),
        volts: standing.volts,
        lamps: new Map([...readings.lamps, ...dead].map((l) => [l.lamp, l])),
        chips: new Map(readings.chips.map((c) => [c.part, c])),
        supplies: new Map(readings.supplies.map((s) => [s.part, s])),
      };
      const again = last?.dark !== dark;
      for (const { net, drawing } of leads) {
        const now = readings.nets[net];
        if (!now) continue;
        const before = again ? undefined : last?.readings.nets[net];
        const index = rampIndex(now.volts, standing.volts);
        if (before && before.held === now.held && rampIndex(before.volts, standing.volts) === index) continue;
        drawing.show(now.held, rampColour(index, dark));
      }
      for (const f of faces.values()) f.show?.(sight);
      for (const l of levels) l.show(sight);
      last = { readings, dark };
    },
  };
}

/** A damaged part has no lamps that could be read. */
const deadLamp = ({ part }: Specimen, lamp: string): LampReading => ({ lamp, part: part.id, amps: 0, volts: 0, glow: 'dark' });

/** Where parts stand that are off the boards and of which the plan does not say where: in a row above them. */
function freeSpots({ x, y }: Box): () => [number, number] {
  let next = x + 0.5;
  return () => {
    const spot: [number, number] = [next, y - 5.4];
    next += 14;
    return spot;
  };
}

function wishes({ specimens }: Standing, faces: ReadonlyMap<string, Face>, damage: ReadonlyMap<string, string>): Wish[] {
  const lampWishes: Wish[] = [];
  const others: Wish[] = [];
  for (const { part, kind, params, lamps, isChip } of specimens) {
    const about = faces.get(part.id)?.box;
    if (!about || part.at === undefined) continue;
    const down = about.height / 2;
    const side = about.width / 2;
    const dead = damage.has(part.id);
    const named = (name: string) => (dead ? `${name} damaged` : name);
    const title = faces.get(part.id)?.title;
    if (title && !dead && presenting())
      others.push({
        text: title,
        about,
        look: 'lamp-name',
        places: [
          [0, down + 1.4],
          [0, -down - 1.4],
          [0, down + 2.4],
          [0, -down - 2.4],
        ],
      });
    if (kind.group === 'lamp') {
      const text = named(lamps.length === 1 ? (lamps[0]?.name ?? part.id) : (part.label ?? part.id));
      lampWishes.push({
        text,
        about,
        look: dead ? 'damaged-name' : 'lamp-name',
        places: [
          [0, down + 0.45],
          [0, -down - 0.45],
          [0, down + 1],
          [0, -down - 1],
          [0, down + 1.6],
          [0, -down - 1.6],
          [side + 0.3 + text.length * 0.16, 0],
        ],
      });
    } else if (!isChip || dead) {
      const value = kind.value?.(params);
      const text = dead
        ? named(part.label ?? part.id)
        : [part.label ?? part.id, kind.group === 'passive' ? value : ''].filter(Boolean).join(' ');
      const look = dead ? 'damaged-name' : part.label ? 'lamp-name' : 'part-name';
      const half = text.length * (look === 'part-name' ? 0.14 : 0.2);
      others.push({
        text,
        about,
        look,
        places: [
          [0, down + 0.36],
          [0, -down - 0.36],
          [side + 0.2 + half, 0],
          [-side - 0.2 - half, 0],
          [0, 0],
        ],
      });
    }
  }
  return [...lampWishes, ...others];
}
