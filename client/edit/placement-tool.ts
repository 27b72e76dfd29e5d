/** What the hand holds over the bench, shown where it would go and set down there: a part from the list of parts, or the loose end of a wire. */
import {
  type EditContext,
  freeBesideLeg,
  holeSpot,
  type Outcome,
  type Placing,
  readHole,
  roomBeside,
  settleWire,
} from '../../sim-core/index.ts';
import type { Drawing } from '../scene/drawing.ts';
import type { Spot } from '../scene/geometry.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { Builder } from './builder.ts';
import type { Target } from './hit-test.ts';
import { insertText } from './insert-text.ts';
import { partInHand } from './part-picture.ts';
import { placementPreview } from './placement-preview.ts';
import type { Preview } from './preview.ts';

export interface ToolBench {
  readonly builder: Builder;
  readonly ghost: Preview;
  /** the layer of what is lifted off the drawing */
  readonly overlay: SVGGElement;
  model(): BenchModel | undefined;
  drawing(): Drawing | undefined;
  toBench(clientX: number, clientY: number): Spot;
  /** the name of the hole under a spot */
  holeAt(spot: Spot): string | undefined;
  /** the pin that is drawn at a place in the window */
  pinAt(at: At): { readonly part: string; readonly pin: string } | undefined;
  /** true while something else has the hand: the meter */
  away(): boolean;
  /** pixels to a pitch */
  pitch(): number;
  /** is the list of parts open? Then a click on a hole begins a wire, and an LED is selected rather than asked. */
  building(): boolean;
  stopPanning(): void;
  /** the pointer shows that things are being moved */
  grab(on: boolean): void;
  /** an LED has been selected, where it might have been asked */
  choseLed(led: string): void;
  say(news: string): void;
  /** a menu is asked for, at a place in the window */
  askMenu(target: Target, at: At): void;
}

/** Where a pointer is: in the window [px], and on the bench [pitch]. */
export interface At {
  readonly x: number;
  readonly y: number;
  readonly spot: Spot;
}

export class PlacementTool {
  constructor(private readonly bench: ToolBench) {}

  /** Says beside the pointer why something cannot be, if it cannot. */
  refuse(would: Outcome<unknown>, { x, y }: At): void {
    this.bench.ghost.say(would.ok ? undefined : would.failure.says, x, y);
  }

  /** Says what was done; what could not be done stands beside the pointer as well. */
  tell(done: Outcome<unknown>, says: string, at: At): void {
    this.bench.say(done.ok ? says : done.failure.says);
    if (!done.ok) this.refuse(done, at);
  }

  /** Shows what the hand holds where the pointer is. */
  hover(at: At): void {
    const { ghost, builder } = this.bench;
    const { context, toPlace, wireFrom } = builder;
    if (!context) return;
    if (toPlace) {
      const { placing, spots, refusal } = placementPreview(context, toPlace, at.spot, builder.lies);
      ghost.part(spots, refusal !== undefined, refusal === undefined ? this.drawn(placing, spots) : undefined);
      ghost.say(refusal, at.x, at.y);
    } else if (wireFrom !== undefined) {
      const start = this.spotOf(wireFrom);
      if (start) this.drawWire(context, wireFrom, start, at);
    }
  }

  /** The part as it would be drawn there. */
  private drawn(placing: Placing, spots: readonly Spot[]) {
    const box = this.bench.drawing()?.box;
    const root = box && partInHand(placing, spots, [box.x + box.width / 2, box.y + box.height / 2]);
    return root && { root, onBoard: placing.at !== undefined };
  }

  /** Where a hole or a terminal is; undefined: there is no such thing on the bench. */
  spotOf(point: string): Spot | undefined {
    const [part = '', pin] = point.split('.');
    if (pin !== undefined) return this.bench.drawing()?.legSpots.get(part)?.get(pin);
    const hole = readHole(point, this.bench.builder.context?.plan.boards ?? []);
    return hole.ok ? holeSpot(hole.value) : undefined;
  }

  /** The point that a wire's end would go into: a hole, or a terminal of what stands beside the boards. other: its other end; on a part's leg, the free hole of its strip nearest to that. */
  endAt(at: At, other?: Spot): string | undefined {
    const { builder } = this.bench;
    const post = this.bench.pinAt(at);
    if (post && builder.context?.plan.parts.find((p) => p.id === post.part)?.at === undefined) return `${post.part}.${post.pin}`;
    const hole = this.bench.holeAt(at.spot);
    return hole !== undefined && other && builder.context ? freeBesideLeg(builder.context, hole, other) : hole;
  }

  /** but: the wire that is in the hand, where it is no new one */
  drawWire(context: EditContext, from: string, start: Spot, at: At, but?: string): void {
    const { ghost, builder } = this.bench;
    const to = this.endAt(at, start);
    const colour = but
      ? (context.plan.wires.find((l) => l.id === but)?.colour ?? 'green')
      : builder.colourOf(from, ...(to === undefined ? [] : [to]));
    const would =
      to === undefined || to === from
        ? undefined
        : settleWire(roomBeside(context, new Set(but ? [but] : [])), context.plan.boards, { id: but ?? 'it', from, to, colour });
    ghost.wire(start, (to === undefined ? undefined : this.spotOf(to)) ?? at.spot, colour, would?.ok === false);
    if (would) this.refuse(would, at);
    else ghost.say(undefined);
  }

  /** Puts a part down; again: the hand keeps one more of it. */
  setDown(at: At, again: boolean): void {
    const { ghost, builder, say } = this.bench;
    const { context, toPlace } = builder;
    if (!context || !toPlace) return;
    const { placing, refusal } = placementPreview(context, toPlace, at.spot, builder.lies);
    const done = refusal === undefined ? builder.place(placing) : undefined;
    if (!done?.ok) {
      const says = refusal ?? (done?.ok === false ? done.failure.says : '');
      ghost.say(says, at.x, at.y);
      say(says);
      return;
    }
    ghost.clear();
    say(insertText(done.value));
    if (!again && !builder.several) builder.hold(undefined);
  }

  /** Puts a wire's loose end in, if there is anything for it here. */
  endWire(from: string, at: At): void {
    const { ghost, builder, say } = this.bench;
    const to = this.endAt(at, this.spotOf(from));
    if (to === undefined || to === from) return;
    const done = builder.wire(from, to);
    if (!done.ok) {
      this.tell(done, '', at);
      return;
    }
    ghost.clear();
    say(insertText(done.value));
  }
}
