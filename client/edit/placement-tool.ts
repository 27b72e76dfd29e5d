/** What the hand holds over the bench, shown where it would go and set down there: a part from the shelf, or the loose end of a wire. */
import { type EditContext, holeSpot, type Outcome, readHole, roomBeside, settleWire } from '../core.ts';
import type { Drawing } from '../scene/drawing.ts';
import type { Spot } from '../scene/geometry.ts';
import type { BenchModel } from '../state/bench-model.ts';
import type { Builder } from './builder.ts';
import { placementPreview } from './placement-preview.ts';
import type { Preview } from './preview.ts';

export interface ToolBench {
  readonly surface: SVGSVGElement;
  readonly builder: Builder;
  readonly ghost: Preview;
  readonly air: SVGGElement;
  standing(): BenchModel | undefined;
  drawing(): Drawing | undefined;
  toBench(clientX: number, clientY: number): Spot;
  /** the name of the hole under a spot */
  holeAt(spot: Spot): string | undefined;
  /** true while something else has the hand: the meter */
  away(): boolean;
  /** pixels to a pitch */
  pitch(): number;
  /** is the shelf open? Then a click on a hole begins a wire, and an LED is chosen rather than asked. */
  building(): boolean;
  stopPanning(): void;
  /** an LED has been chosen, where it might have been asked */
  choseLed(led: string): void;
  say(news: string): void;
}

/** Where a pointer is: in the window [px], and on the bench [pitch]. */
export interface At {
  readonly x: number;
  readonly y: number;
  readonly spot: Spot;
}

export type PlacementTool = ReturnType<typeof makePlacementTool>;

export function makePlacementTool(bench: ToolBench) {
  const { builder, ghost } = bench;
  const refuse = (o: Outcome<unknown>, { x, y }: At) => ghost.say(o.ok ? undefined : o.failure.says, x, y);

  /** Shows what the hand holds where the pointer is. */
  const hover = (at: At) => {
    const { ground, held, wireFrom } = builder;
    if (!ground) return;
    if (held) {
      const { spots, refusal } = placementPreview(ground, held, at.spot);
      ghost.part(spots, refusal !== undefined);
      ghost.say(refusal, at.x, at.y);
    } else if (wireFrom !== undefined) {
      const start = spotOf(wireFrom);
      if (start) drawWire(ground, wireFrom, start, at);
    }
  };
  const spotOf = (point: string): Spot | undefined => {
    const [part = '', pin] = point.split('.');
    return pin === undefined ? pointSpot(point) : bench.drawing()?.legSpots.get(part)?.get(pin);
  };
  const pointSpot = (point: string): Spot | undefined => {
    const hole = readHole(point, builder.ground?.plan.boards ?? []);
    return 'problem' in hole ? undefined : holeSpot(hole);
  };

  /** The point that a wire's end would go into: a hole, a terminal, or a free hole in the row of a leg. */
  const endAt = ({ x, y, spot }: At): string | undefined => {
    const under = document.elementFromPoint(x, y);
    const post = under?.closest<SVGElement>('[data-part][data-pin]')?.dataset;
    if (post && builder.ground?.plan.parts.find((p) => p.id === post.part)?.at === undefined) return `${post.part}.${post.pin}`;
    return bench.holeAt(spot);
  };
  /** but: the wire that is in the hand, where it is no new one */
  const drawWire = (ground: EditContext, from: string, start: Spot, at: At, but?: string) => {
    const to = endAt(at);
    const colour = but
      ? (ground.plan.wires.find((l) => l.id === but)?.colour ?? 'green')
      : builder.colourOf(from, ...(to === undefined ? [] : [to]));
    const would =
      to === undefined || to === from
        ? undefined
        : settleWire(roomBeside(ground, new Set(but ? [but] : [])), ground.plan.boards, { id: but ?? 'it', from, to, colour });
    ghost.wire(start, (to === undefined ? undefined : spotOf(to)) ?? at.spot, colour, would?.ok === false);
    if (would) refuse(would, at);
    else ghost.say(undefined);
  };

  /** again: the hand keeps one more of it */
  const setDown = (at: At, again: boolean) => {
    const { ground, held } = builder;
    if (!ground || !held) return;
    const { wish, refusal } = placementPreview(ground, held, at.spot);
    const done = refusal === undefined ? builder.place(wish) : undefined;
    if (!done?.ok) {
      const says = refusal ?? (done?.ok === false ? done.failure.says : '');
      ghost.say(says, at.x, at.y);
      bench.say(says);
      return;
    }
    ghost.clear();
    if (done.value.op === 'add-part') bench.say(`${done.value.part.id} placed${done.value.part.at ? ` at ${done.value.part.at}` : ''}.`);
    if (!again) builder.hold(undefined);
  };
  const endWire = (from: string, at: At) => {
    const to = endAt(at);
    if (to === undefined || to === from) return;
    const done = builder.wire(from, to);
    if (!done.ok) {
      bench.say(done.failure.says);
      ghost.say(done.failure.says, at.x, at.y);
      return;
    }
    ghost.clear();
    if (done.value.op === 'add-wire') bench.say(`${done.value.wire.id} connects ${done.value.wire.from} to ${done.value.wire.to}.`);
  };
  return { refuse, hover, spotOf, endAt, drawWire, setDown, endWire };
}
