/** The whole drawing of a standing bench: layers in their order of paint, and the one call that shows a reading. An edit redraws what it is about. */

import type { Plan, PlanBoard } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import type { LedReading, Readings } from '../../sim-core/index.ts';
import type { BenchModel, PlacedPart } from '../state/bench-model.ts';
import { damageIn, goneLeds } from '../state/damage-text.ts';
import { digitsSay } from '../state/display-text.ts';
import { boardBox, drawBoard } from './board-drawing.ts';
import { drawDamage } from './damage-mark.ts';
import type { Face, FaceActions, Sight } from './faces/face.ts';
import { around, type Box, type Spot, union } from './geometry.ts';
import type { Drawn } from './highlights.ts';
import { type LabelLayer, makeLabelLayer, requests } from './label-layer.ts';
import type { LabelRequest, LabelRoom } from './label-placement.ts';
import type { MarkRoom } from './mark-placement.ts';
import { type DrawnPart, drawParts } from './part-layer.ts';
import { wiresSay } from './reading-order.ts';
import { el, layIn } from './svg.ts';
import { voltageColour, voltageStep } from './voltage-colour.ts';
import type { WireDrawing } from './wire-drawing.ts';
import { type DrawnWire, drawWires } from './wire-layer.ts';

interface Layers {
  readonly bodies: SVGGElement;
  readonly wires: SVGGElement;
  /** what is over the wires: controls, displays, LEDs */
  readonly tops: SVGGElement;
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
/** Half of a level's width at a pin [pitch]. */
const LEVEL = 0.5;
const EMPTY: Box = { x: 0, y: 0, width: 65, height: 20 };

const makeLayers = (): Layers => ({
  bodies: el('g', { class: 'bodies' }),
  // read as one: each wire has its row in the list
  wires: el('g', { class: 'wires', role: 'img' }),
  tops: el('g', { class: 'tops' }),
  levels: el('g', { class: 'all-levels', 'aria-hidden': 'true' }),
  marks: el('g', { class: 'marks' }),
  names: makeLabelLayer(),
});

/** From the lowest to the uppermost. */
export const inOrder = ({ bodies, wires, tops, levels, marks, names }: Layers): readonly SVGGElement[] => [
  bodies,
  wires,
  tops,
  levels,
  marks,
  names.root,
];

/** A bench as drawn; an edit makes another one, which takes over from the one before what the edit is not about. */
export class Drawing implements Drawn {
  readonly boards: SVGGElement;
  /** bodies, wires, what is over them, levels, labels: the same elements after every edit */
  readonly layers: Layers;
  readonly box: Box;
  readonly faces: ReadonlyMap<string, Face>;
  readonly legSpots: ReadonlyMap<string, ReadonlyMap<string, Spot>>;
  readonly paths: ReadonlyMap<string, readonly Spot[]>;
  /** all that is drawn of a part, by id: body, what is over the wires, levels at its pins */
  readonly pieces: ReadonlyMap<string, readonly SVGElement[]>;
  readonly wires: ReadonlyMap<string, WireDrawing>;
  /** what the next drawing may take over */
  private readonly kept: Kept;
  private readonly boardBoxes: readonly Box[];
  private damage: ReadonlyMap<string, string> = new Map();
  private gone: ReadonlyMap<string, string> = new Map();
  /** the damage that is marked, in one word */
  private marked: string | undefined;
  private last: { readonly readings: Readings; readonly dark: boolean } | undefined;

  constructor(
    private readonly model: BenchModel,
    actions: FaceActions,
    before?: Drawing,
  ) {
    const { boards } = model.plan;
    this.boardBoxes = boards.map(boardBox);
    const stay = sameValue(before?.kept.boards, boards) ? before : undefined;
    const parts = drawParts(model, actions, union(this.boardBoxes) ?? EMPTY, before?.kept.parts);
    const wires = drawWires(model, parts, before?.kept.wires);
    this.kept = { boards, parts, wires };
    this.boards = stay?.boards ?? el('g', {}, ...boards.map(drawBoard));
    this.layers = before?.layers ?? makeLayers();
    this.faces = valuesOf(parts, (p) => p.face);
    this.legSpots = valuesOf(parts, (p) => p.spots);
    this.pieces = valuesOf(parts, ({ face, levels }) => [face.body, ...(face.over ? [face.over] : []), ...(levels ? [levels.root] : [])]);
    this.paths = valuesOf(wires, (w) => w.spots);
    this.wires = valuesOf(wires, (w) => w.drawing);
    this.box = union([...this.boardBoxes, ...[...this.faces.values()].map((f) => f.box)]) ?? EMPTY;
    this.layOut();
  }

  /** Where a part, a wire or a board is, by id. */
  boxOf(id: string): Box | undefined {
    const [way, board] = [this.paths.get(id), this.model.plan.boards.find((b) => b.id === id)];
    return this.faces.get(id)?.box ?? (way ? around(way, 0.3) : board && boardBox(board));
  }

  /** Marks the parts that this plan says are damaged, and no others; shown with the next reading. */
  mark(plan: Plan): void {
    const now = damageIn(plan);
    const as = [...now].join();
    if (as === this.marked) return;
    [this.damage, this.gone, this.marked] = [now, goneLeds(plan, this.model.specimens), as];
    const { marks, names } = this.layers;
    if (as === '' && marks.childElementCount === 0) return;
    marks.replaceChildren(...this.model.specimens.flatMap((s) => this.damageMarks(s, plan)));
    names.changed(this.labelRequests(), () => this.room());
  }

  /** Places the names for a view of so many pixels to the drawing unit; small names only if `near`. */
  name(scale: number, near: boolean): void {
    this.layers.names.all(this.labelRequests(), this.room(), scale, near);
  }

  /** After an edit: places the names of what is new among the others. */
  nameChanged(): void {
    this.layers.names.changed(this.labelRequests(), () => this.room());
  }

  show(readings: Readings, dark: boolean): void {
    this.showWires(readings, dark);
    const sight = this.sightOf(readings, dark);
    for (const { face, levels } of this.kept.parts.values()) {
      face.show?.(sight);
      levels?.show(sight);
    }
    this.last = { readings, dark };
  }

  private layOut(): void {
    const { bodies, wires, tops, levels } = this.layers;
    const drawn = [...this.kept.parts.values()];
    layIn(
      bodies,
      drawn.map((p) => p.face.body),
    );
    layIn(
      wires,
      [...this.wires.values()].map((w) => w.root),
    );
    wires.setAttribute('aria-label', wiresSay(this.wires.size));
    // an LED's light falls on what is beside it
    const isLight = (p: DrawnPart) => Number(p.face.over?.classList.contains('led') ?? false);
    layIn(
      tops,
      [...drawn].sort((a, b) => isLight(a) - isLight(b)).flatMap((p) => p.face.over ?? []),
    );
    layIn(
      levels,
      drawn.flatMap((p) => p.levels?.root ?? []),
    );
  }

  private labelRequests(): LabelRequest[] {
    return requests(this.model, this.faces, this.damage);
  }

  /** What names keep off. */
  private room(): LabelRoom {
    const faces = [...this.faces.values()];
    const legs = [...this.legSpots.values()].flatMap((spots) => [...spots.values()]);
    return {
      bodies: [...faces.map((f) => f.box), ...legs.map((spot) => around([spot], 0.22))],
      writing: faces.flatMap((f) => f.writing ?? []),
      busy: [...this.paths.values()].flat(),
      boards: this.boardBoxes,
    };
  }

  /** What marks keep off: what a hand works or a person reads, and rather all metal and wires. */
  markRoom(): MarkRoom {
    const drawn = [...this.kept.parts.values()];
    const legs = (p: DrawnPart, by: number) => [...p.spots.values()].map((spot) => around([spot], by));
    return {
      never: [
        ...drawn.flatMap((p) => [...(p.face.over ? [p.face.box] : []), ...(p.face.writing ?? []), ...(p.levels ? legs(p, LEVEL) : [])]),
        ...this.layers.names.boxes(),
      ],
      rather: drawn.flatMap((p) => [...(p.face.over ? [] : [p.face.box]), ...legs(p, PIN_MARK)]),
      wires: [...this.paths.values()].flat(),
    };
  }

  private damageMarks(s: PlacedPart, plan: Plan): readonly SVGGElement[] {
    const says = this.damage.get(s.part.id);
    const box = this.faces.get(s.part.id)?.box;
    if (!says || !box) return [];
    // LEDs say it themselves
    const spoken = s.leds.length > 0 ? undefined : `${s.part.label ?? s.part.id}, ${says}`;
    const burnt = plan.parts.find((p) => p.id === s.part.id)?.damaged?.pins;
    if (!burnt) return [drawDamage(box, spoken)];
    // the marks stand at the pins; the first of them speaks for all
    return s.legs
      .filter(({ pin }) => burnt.includes(pin.name))
      .map(({ pin }, i) => {
        const spot = this.legSpots.get(s.part.id)?.get(pin.pin);
        return drawDamage(spot ? around([spot], PIN_MARK) : box, i === 0 ? spoken : undefined);
      });
  }

  private sightOf(readings: Readings, dark: boolean): Sight {
    const { damage, gone, model } = this;
    const damaged = model.specimens.flatMap((s) => s.leds.filter((l) => gone.has(l.led)).map((l) => damagedLed(s, l.led)));
    return {
      readings,
      dark,
      damage,
      gone,
      digits: digitsSay(readings),
      volts: model.volts,
      leds: new Map([...readings.leds, ...damaged].map((l) => [l.led, l])),
      chips: new Map(readings.chips.map((c) => [c.part, c])),
      coils: new Map(readings.coils.map((c) => [c.part, c])),
      supplies: new Map(readings.supplies.map((s) => [s.part, s])),
    };
  }

  /** Only those whose net is driven otherwise, or has come to another step of colour. */
  private showWires(readings: Readings, dark: boolean): void {
    const { volts } = this.model;
    const before = this.last?.dark === dark ? this.last.readings : undefined;
    for (const { net, drawing } of this.kept.wires.values()) {
      const now = readings.nets[net];
      if (!now) continue;
      const was = before?.nets[net];
      const step = voltageStep(now.volts, volts);
      if (was && was.drive === now.drive && voltageStep(was.volts, volts) === step) continue;
      drawing.show(now.drive, voltageColour(step, dark));
    }
  }
}

const valuesOf = <T, U>(map: ReadonlyMap<string, T>, of: (value: T) => U): ReadonlyMap<string, U> =>
  new Map([...map].map(([id, value]) => [id, of(value)]));

/** An LED that is gone is not read any more. */
const damagedLed = ({ part }: PlacedPart, led: string): LedReading => ({ led, part: part.id, amps: 0, volts: 0, brightness: 'dark' });
