/** The whole drawing of a standing bench: layers in their order of paint, and the one call that shows a reading. An edit redraws what it is about. */
import type { Plan } from '../../shared/plan.ts';
import type { LampReading, Readings } from '../core.ts';
import { damageIn, goneLamps } from '../damage.ts';
import { digitsSay } from '../shown.ts';
import type { Specimen, Standing } from '../standing.ts';
import { boardBox, drawBoard } from './board-drawing.ts';
import { drawDamage } from './damage-mark.ts';
import { type DrawnLead, drawLeads } from './drawn-leads.ts';
import { type DrawnPart, drawParts } from './drawn-parts.ts';
import type { Hand, Sight } from './faces/face.ts';
import { around, type Box, union } from './geometry.ts';
import type { LeadDrawing } from './lead-drawing.ts';
import { makeNames, type Names, wishes } from './names.ts';
import type { Drawn } from './picks.ts';
import { rampColour, rampIndex } from './ramp.ts';
import { leadsSay } from './reading.ts';
import { el, layIn } from './svg.ts';

export interface Drawing extends Drawn {
  readonly boards: SVGGElement;
  /** bodies, leads, lamps, levels, labels: the same elements after every edit */
  readonly layers: Layers;
  readonly box: Box;
  /** where a part, a lead or a board is, by id */
  boxOf(id: string): Box | undefined;
  /** all that is drawn of a part, by id: body, what is over the leads, levels at its pins */
  readonly pieces: ReadonlyMap<string, readonly SVGElement[]>;
  readonly leads: ReadonlyMap<string, LeadDrawing>;
  /** what the next drawing may take over */
  readonly kept: Kept;
  /** marks the parts that this plan says are damaged, and no others; shown with the next reading */
  mark(plan: Plan): void;
  /** places the names for a view of so many pixels to the drawing unit; small names only if `near` */
  name(scale: number, near: boolean): void;
  /** after an edit: places the names of what is new among the others */
  nameChanged(): void;
  show(readings: Readings, dark: boolean): void;
}

interface Layers {
  readonly bodies: SVGGElement;
  readonly leads: SVGGElement;
  readonly lamps: SVGGElement;
  readonly levels: SVGGElement;
  readonly marks: SVGGElement;
  readonly names: Names;
}

interface Kept {
  readonly boards: string;
  readonly parts: ReadonlyMap<string, DrawnPart>;
  readonly leads: ReadonlyMap<string, DrawnLead>;
}

/** Half of the place that a mark at one pin takes [pitch]. */
const PIN_MARK = 0.4;
const EMPTY: Box = { x: 0, y: 0, width: 65, height: 20 };

const makeLayers = (): Layers => ({
  bodies: el('g', { class: 'bodies' }),
  // read as one: each lead has its row in the list
  leads: el('g', { class: 'leads', role: 'img' }),
  lamps: el('g', { class: 'lamps' }),
  levels: el('g', { class: 'all-levels', 'aria-hidden': 'true' }),
  marks: el('g', { class: 'marks' }),
  names: makeNames(),
});

/** From the lowest to the uppermost. */
export const inOrder = ({ bodies, leads, lamps, levels, marks, names }: Layers): readonly SVGGElement[] => [
  bodies,
  leads,
  lamps,
  levels,
  marks,
  names.root,
];

export function drawBench(standing: Standing, hand: Hand, before?: Drawing): Drawing {
  const { plan } = standing;
  const boardBoxes = plan.boards.map(boardBox);
  const boardsAre = JSON.stringify(plan.boards);
  const boardsStay = before?.kept.boards === boardsAre;
  const parts = drawParts(standing, hand, union(boardBoxes) ?? EMPTY, before?.kept.parts);
  const leads = drawLeads(standing, parts, boardBoxes, boardsStay ? before?.kept : undefined);
  const faces = new Map([...parts].map(([id, p]) => [id, p.face]));
  const bodies = [...faces.values()].map((f) => f.box);

  const layers = before?.layers ?? makeLayers();
  const drawn = [...parts.values()];
  layIn(
    layers.bodies,
    drawn.map((p) => p.face.body),
  );
  layIn(
    layers.leads,
    [...leads.values()].map((l) => l.drawing.root),
  );
  layers.leads.setAttribute('aria-label', leadsSay(leads.size));
  layIn(
    layers.lamps,
    drawn.flatMap((p) => p.face.over ?? []),
  );
  layIn(
    layers.levels,
    drawn.flatMap((p) => p.levels?.root ?? []),
  );

  const room = () => ({
    bodies: [...bodies, ...drawn.flatMap((p) => [...p.spots.values()].map((spot) => around([spot], 0.22)))],
    writing: drawn.flatMap((p) => p.face.writing ?? []),
    busy: [...leads.values()].flatMap((l) => l.spots),
    boards: boardBoxes,
  });
  let damage: ReadonlyMap<string, string> = new Map();
  let gone: ReadonlyMap<string, string> = new Map();
  let marked: string | undefined;
  let last: { readings: Readings; dark: boolean } | undefined;
  return {
    boards: before && boardsStay ? before.boards : el('g', {}, ...plan.boards.map(drawBoard)),
    layers,
    box: union([...boardBoxes, ...bodies]) ?? EMPTY,
    boxOf(id) {
      const [way, board] = [leads.get(id)?.spots, plan.boards.find((b) => b.id === id)];
      return faces.get(id)?.box ?? (way ? around(way, 0.3) : board && boardBox(board));
    },
    faces,
    legSpots: new Map([...parts].map(([id, p]) => [id, p.spots])),
    curves: new Map([...leads].map(([id, l]) => [id, l.spots])),
    pieces: new Map(
      [...parts].map(([id, { face, levels }]) => [id, [face.body, ...(face.over ? [face.over] : []), ...(levels ? [levels.root] : [])]]),
    ),
    leads: new Map([...leads].map(([id, l]) => [id, l.drawing])),
    kept: { boards: boardsAre, parts, leads },
    mark(plan) {
      const now = damageIn(plan);
      const as = [...now].join();
      if (as === marked) return;
      [damage, gone, marked] = [now, goneLamps(plan, standing.specimens), as];
      if (as === '' && layers.marks.childElementCount === 0) return;
      layers.marks.replaceChildren(
        ...standing.specimens.flatMap((s) => {
          const says = damage.get(s.part.id);
          const box = faces.get(s.part.id)?.box;
          // lamps say it themselves
          const spoken = s.lamps.length > 0 ? undefined : `${s.part.label ?? s.part.id}, ${says}`;
          if (!says || !box) return [];
          const burnt = plan.parts.find((p) => p.id === s.part.id)?.damaged?.pins;
          if (!burnt) return [drawDamage(box, spoken)];
          // the marks stand at the pins; the first of them speaks for all
          return s.legs
            .filter(({ pin }) => burnt.includes(pin.name))
            .map(({ pin }, i) => {
              const spot = parts.get(s.part.id)?.spots.get(pin.pin);
              return drawDamage(spot ? around([spot], PIN_MARK) : box, i === 0 ? spoken : undefined);
            });
        }),
      );
      layers.names.changed(wishes(standing, faces, damage), room);
    },
    name: (scale, near) => layers.names.all(wishes(standing, faces, damage), room(), scale, near),
    nameChanged: () => layers.names.changed(wishes(standing, faces, damage), room),
    show(readings, dark) {
      const dead = standing.specimens.flatMap((s) => s.lamps.filter((l) => gone.has(l.lamp)).map((l) => deadLamp(s, l.lamp)));
      const sight: Sight = {
        readings,
        dark,
        damage,
        gone,
        digits: digitsSay(readings),
        volts: standing.volts,
        lamps: new Map([...readings.lamps, ...dead].map((l) => [l.lamp, l])),
        chips: new Map(readings.chips.map((c) => [c.part, c])),
        supplies: new Map(readings.supplies.map((s) => [s.part, s])),
      };
      const again = last?.dark !== dark;
      for (const { net, drawing } of leads.values()) {
        const now = readings.nets[net];
        if (!now) continue;
        const was = again ? undefined : last?.readings.nets[net];
        const index = rampIndex(now.volts, standing.volts);
        if (was && was.held === now.held && rampIndex(was.volts, standing.volts) === index) continue;
        drawing.show(now.held, rampColour(index, dark));
      }
      for (const { face, levels } of drawn) {
        face.show?.(sight);
        levels?.show(sight);
      }
      last = { readings, dark };
    },
  };
}

/** A lamp that is gone is not read any more. */
const deadLamp = ({ part }: Specimen, lamp: string): LampReading => ({ lamp, part: part.id, amps: 0, volts: 0, glow: 'dark' });
