/** The whole drawing of a standing bench: layers in their order of paint, and the one call that shows a reading. An edit redraws what it is about. */

import type { Plan, PlanBoard } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import type { LedReading, Readings } from '../../sim-core/index.ts';
import type { BenchModel, PlacedPart } from '../state/bench-model.ts';
import { damageIn, goneLeds } from '../state/damage-text.ts';
import { digitsSay } from '../state/display-text.ts';
import { boardBox, drawBoard } from './board-drawing.ts';
import { drawDamage } from './damage-mark.ts';
import type { Hand, Sight } from './faces/face.ts';
import { around, type Box, union } from './geometry.ts';
import type { Drawn } from './highlights.ts';
import { type LabelLayer, makeLabelLayer, wishes } from './label-layer.ts';
import { type DrawnPart, drawParts } from './part-layer.ts';
import { wiresSay } from './reading-order.ts';
import { el, layIn } from './svg.ts';
import { voltageColour, voltageStep } from './voltage-colour.ts';
import type { WireDrawing } from './wire-drawing.ts';
import { type DrawnWire, drawWires } from './wire-layer.ts';

export interface Drawing extends Drawn {
  readonly boards: SVGGElement;
  /** bodies, wires, LEDs, levels, labels: the same elements after every edit */
  readonly layers: Layers;
  readonly box: Box;
  /** where a part, a wire or a board is, by id */
  boxOf(id: string): Box | undefined;
  /** all that is drawn of a part, by id: body, what is over the wires, levels at its pins */
  readonly pieces: ReadonlyMap<string, readonly SVGElement[]>;
  readonly wires: ReadonlyMap<string, WireDrawing>;
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
  readonly wires: SVGGElement;
  readonly leds: SVGGElement;
  readonly levels: SVGGElement;
  readonly marks: SVGGElement;
  readonly names: LabelLayer;
}

interface Kept {
  readonly boards: readonly PlanBoard[];
  readonly parts: ReadonlyMap<string, DrawnPart>;
  readonly wires: ReadonlyMap<string, DrawnWire>;
}

/** Half of the place that a mark at one pin takes [pitch]. */
const PIN_MARK = 0.4;
const EMPTY: Box = { x: 0, y: 0, width: 65, height: 20 };

const makeLayers = (): Layers => ({
  bodies: el('g', { class: 'bodies' }),
  // read as one: each wire has its row in the list
  wires: el('g', { class: 'wires', role: 'img' }),
  leds: el('g', { class: 'leds' }),
  levels: el('g', { class: 'all-levels', 'aria-hidden': 'true' }),
  marks: el('g', { class: 'marks' }),
  names: makeLabelLayer(),
});

/** From the lowest to the uppermost. */
export const inOrder = ({ bodies, wires, leds, levels, marks, names }: Layers): readonly SVGGElement[] => [
  bodies,
  wires,
  leds,
  levels,
  marks,
  names.root,
];

export function drawBench(standing: BenchModel, hand: Hand, before?: Drawing): Drawing {
  const { plan } = standing;
  const boardBoxes = plan.boards.map(boardBox);
  const boardsStay = sameValue(before?.kept.boards, plan.boards);
  const parts = drawParts(standing, hand, union(boardBoxes) ?? EMPTY, before?.kept.parts);
  const wires = drawWires(standing, parts, boardBoxes, boardsStay ? before?.kept : undefined);
  const faces = new Map([...parts].map(([id, p]) => [id, p.face]));
  const bodies = [...faces.values()].map((f) => f.box);

  const layers = before?.layers ?? makeLayers();
  const drawn = [...parts.values()];
  layIn(
    layers.bodies,
    drawn.map((p) => p.face.body),
  );
  layIn(
    layers.wires,
    [...wires.values()].map((l) => l.drawing.root),
  );
  layers.wires.setAttribute('aria-label', wiresSay(wires.size));
  layIn(
    layers.leds,
    drawn.flatMap((p) => p.face.over ?? []),
  );
  layIn(
    layers.levels,
    drawn.flatMap((p) => p.levels?.root ?? []),
  );

  const room = () => ({
    bodies: [...bodies, ...drawn.flatMap((p) => [...p.spots.values()].map((spot) => around([spot], 0.22)))],
    writing: drawn.flatMap((p) => p.face.writing ?? []),
    busy: [...wires.values()].flatMap((l) => l.spots),
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
      const [way, board] = [wires.get(id)?.spots, plan.boards.find((b) => b.id === id)];
      return faces.get(id)?.box ?? (way ? around(way, 0.3) : board && boardBox(board));
    },
    faces,
    legSpots: new Map([...parts].map(([id, p]) => [id, p.spots])),
    paths: new Map([...wires].map(([id, l]) => [id, l.spots])),
    pieces: new Map(
      [...parts].map(([id, { face, levels }]) => [id, [face.body, ...(face.over ? [face.over] : []), ...(levels ? [levels.root] : [])]]),
    ),
    wires: new Map([...wires].map(([id, l]) => [id, l.drawing])),
    kept: { boards: plan.boards, parts, wires },
    mark(plan) {
      const now = damageIn(plan);
      const as = [...now].join();
      if (as === marked) return;
      [damage, gone, marked] = [now, goneLeds(plan, standing.specimens), as];
      if (as === '' && layers.marks.childElementCount === 0) return;
      layers.marks.replaceChildren(
        ...standing.specimens.flatMap((s) => {
          const says = damage.get(s.part.id);
          const box = faces.get(s.part.id)?.box;
          // LEDs say it themselves
          const spoken = s.leds.length > 0 ? undefined : `${s.part.label ?? s.part.id}, ${says}`;
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
      const dead = standing.specimens.flatMap((s) => s.leds.filter((l) => gone.has(l.led)).map((l) => deadLed(s, l.led)));
      const sight: Sight = {
        readings,
        dark,
        damage,
        gone,
        digits: digitsSay(readings),
        volts: standing.volts,
        leds: new Map([...readings.leds, ...dead].map((l) => [l.led, l])),
        chips: new Map(readings.chips.map((c) => [c.part, c])),
        supplies: new Map(readings.supplies.map((s) => [s.part, s])),
      };
      const again = last?.dark !== dark;
      for (const { net, drawing } of wires.values()) {
        const now = readings.nets[net];
        if (!now) continue;
        const was = again ? undefined : last?.readings.nets[net];
        const index = voltageStep(now.volts, standing.volts);
        if (was && was.drive === now.drive && voltageStep(was.volts, standing.volts) === index) continue;
        drawing.show(now.drive, voltageColour(index, dark));
      }
      for (const { face, levels } of drawn) {
        face.show?.(sight);
        levels?.show(sight);
      }
      last = { readings, dark };
    },
  };
}

/** An LED that is gone is not read any more. */
const deadLed = ({ part }: PlacedPart, led: string): LedReading => ({ led, part: part.id, amps: 0, volts: 0, brightness: 'dark' });
