/** A live bench that is drawn, with a hand on it, in a document without a browser: presses are made at holes and on things by their names. */

import { Builder } from '../../client/edit/builder.ts';
import { type Target, targetOf } from '../../client/edit/hit-test.ts';
import type { At, ToolBench } from '../../client/edit/placement-tool.ts';
import { type PointerInput, PointerStates } from '../../client/edit/pointer-states.ts';
import type { Preview } from '../../client/edit/preview.ts';
import { Drawing, inOrder } from '../../client/scene/drawing.ts';
import type { FaceActions } from '../../client/scene/faces/face.ts';
import type { Spot } from '../../client/scene/geometry.ts';
import { indexHoles } from '../../client/scene/hole-index.ts';
import { el } from '../../client/scene/svg.ts';
import type { Plan } from '../../shared/plan.ts';
import { holeSpot, readHole } from '../../sim-core/index.ts';
import { type LiveBench, liveBench } from './live-bench.ts';

/** Pixels to a pitch. */
const PITCH = 20;

/** What is shown of what is about to be. */
class ShownPreview implements Preview {
  /** undefined: nothing is shown */
  shows: 'part' | 'wire' | 'frame' | 'board' | undefined;
  refused = false;
  note: string | undefined;

  part(_: readonly Spot[], refused: boolean): void {
    [this.shows, this.refused] = ['part', refused];
  }
  wire(_: Spot, __: Spot, ___: string, refused: boolean): void {
    [this.shows, this.refused] = ['wire', refused];
  }
  frame(): void {
    [this.shows, this.refused] = ['frame', false];
  }
  board(_: unknown, refused: boolean): void {
    [this.shows, this.refused] = ['board', refused];
  }
  say(text: string | undefined): void {
    this.note = text;
  }
  clear(): void {
    [this.shows, this.refused, this.note] = [undefined, false, undefined];
  }
}

/** On what a pointer is: a hole or a terminal by its name, or a thing there. */
export interface Pointed {
  readonly touch?: boolean;
  readonly mark?: boolean;
  readonly add?: boolean;
  readonly button?: number;
  /** CSS selector of what is drawn under the pointer; without one it is the surface itself */
  readonly on?: string;
}

const quiet: FaceActions = { set() {}, press() {}, release() {}, ask() {}, open() {} };

export class DrawnBench {
  readonly builder: Builder;
  readonly ghost = new ShownPreview();
  readonly overlay = el('g');
  readonly surface = el('svg');
  readonly states: PointerStates;
  /** what was said, oldest first */
  readonly said: string[] = [];
  /** LEDs that were selected rather than asked */
  readonly leds: string[] = [];
  /** for what a menu was asked */
  readonly menus: Target[] = [];
  drawing: Drawing;
  grabbing = false;
  building = false;
  away = false;
  /** false: the page has not come to drawing what has changed */
  redraws = true;
  captured = 0;
  panningStopped = 0;
  pitch = PITCH;

  private constructor(readonly live: LiveBench) {
    const { session, clock } = live;
    this.builder = new Builder(session);
    this.drawing = new Drawing(session.model!, quiet);
    this.surface.append(...inOrder(this.drawing.layers), this.overlay);
    const bench: ToolBench = {
      builder: this.builder,
      ghost: this.ghost,
      overlay: this.overlay,
      model: () => session.model,
      drawing: () => this.drawing,
      toBench: (x, y) => [x / PITCH, y / PITCH],
      holeAt: (spot) => indexHoles(session.model!.plan.boards)(spot)?.name,
      pinAt: (at) => this.pinNear(at),
      away: () => this.away,
      pitch: () => this.pitch,
      building: () => this.building,
      stopPanning: () => {
        this.panningStopped += 1;
      },
      grab: (on) => {
        this.grabbing = on;
      },
      choseLed: (led) => this.leds.push(led),
      say: (news) => this.said.push(news),
      askMenu: (target) => this.menus.push(target),
    };
    this.states = new PointerStates(bench, clock);
    session.on('model', (model) => {
      if (!this.redraws) return;
      this.drawing = new Drawing(model, quiet, this.drawing);
      this.states.renew();
    });
  }

  static async of(plan: Plan): Promise<DrawnBench> {
    const live = liveBench();
    if (!(await live.open(plan))) throw new Error('The plan cannot stand.');
    return new DrawnBench(live);
  }

  get plan(): Plan {
    return this.live.session.plan!;
  }
  part(id: string) {
    return this.plan.parts.find((p) => p.id === id);
  }
  wire(id: string) {
    return this.plan.wires.find((w) => w.id === id);
  }

  /** Where a hole or a terminal is. */
  spotOf(point: string): Spot {
    const [part = '', pin] = point.split('.');
    if (pin !== undefined) return this.drawing.legSpots.get(part)!.get(pin)!;
    const hole = readHole(point, this.plan.boards);
    if (!hole.ok) throw new Error(hole.failure.says);
    return holeSpot(hole.value);
  }

  private pinNear({ spot }: At) {
    for (const [part, spots] of this.drawing.legSpots)
      for (const [pin, [x, y]] of spots) if (Math.hypot(x - spot[0], y - spot[1]) < 0.4) return { part, pin };
    return undefined;
  }

  /** A pointer at a hole, at a terminal, or at a spot of the bench. */
  at(place: string | Spot, { touch = false, mark = false, add = false, button = 0, on }: Pointed = {}): PointerInput {
    const spot = typeof place === 'string' ? this.spotOf(place) : place;
    const element = on === undefined ? this.surface : this.surface.querySelector(on);
    if (!element) throw new Error(`nothing is drawn as ${on}`);
    const { model } = this.live.session;
    return {
      at: { x: spot[0] * PITCH, y: spot[1] * PITCH, spot },
      button,
      touch,
      mark,
      add,
      target: () => targetOf(element, spot, model!, this.drawing, indexHoles(this.plan.boards)(spot)?.name),
      capture: () => {
        this.captured += 1;
      },
    };
  }

  /** Press at one place and move to the others, without an end yet. */
  drag(from: string | Spot, to: ReadonlyArray<string | Spot>, pointed: Pointed = {}): void {
    this.states.down(this.at(from, pointed));
    for (const place of to) this.states.move(this.at(place, pointed));
  }
  /** Ends a press, with the click that a browser makes of it. */
  release(place: string | Spot, pointed: Pointed = {}): void {
    this.states.up(this.at(place, pointed));
    this.states.click(this.at(place, pointed));
  }
  click(place: string | Spot, pointed: Pointed = {}): void {
    this.states.down(this.at(place, pointed));
    this.release(place, pointed);
  }

  /** Everything drawn is in its place, and nothing is lifted or shown ahead. */
  get atRest(): boolean {
    const { pieces, wires, layers } = this.drawing;
    const inPlace = (e: SVGElement, layer: Element) => layer.contains(e) && !this.overlay.contains(e);
    const bodies = [...pieces.values()].every((all) => all.every((e) => !this.overlay.contains(e)));
    return (
      bodies &&
      [...wires.values()].every((w) => inPlace(w.root, layers.wires)) &&
      this.overlay.childElementCount === 0 &&
      !this.states.busy &&
      !this.grabbing &&
      this.ghost.shows === undefined
    );
  }
}
