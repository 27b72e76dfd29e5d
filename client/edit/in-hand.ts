/** What the hand holds over the bench, shown where it would go and set down there: a part from the shelf, or the loose end of a lead. */
import { type Ground, holeSpot, type Outcome, readHole, roomBeside, settleLead } from '../core.ts';
import type { Drawing } from '../scene/drawing.ts';
import type { Spot } from '../scene/geometry.ts';
import type { Standing } from '../standing.ts';
import type { Builder } from './builder.ts';
import type { Ghost } from './ghost.ts';
import { shadow } from './shadow.ts';

export interface ToolBench {
  readonly surface: SVGSVGElement;
  readonly builder: Builder;
  readonly ghost: Ghost;
  readonly air: SVGGElement;
  standing(): Standing | undefined;
  drawing(): Drawing | undefined;
  toBench(clientX: number, clientY: number): Spot;
  /** the name of the hole under a spot */
  holeAt(spot: Spot): string | undefined;
  /** true while something else has the hand: the meter */
  away(): boolean;
  /** pixels to a pitch */
  pitch(): number;
  /** is the shelf open? Then a click on a hole begins a lead, and a lamp is chosen rather than asked. */
  building(): boolean;
  stopPanning(): void;
  /** a lamp has been chosen, where it might have been asked */
  choseLamp(lamp: string): void;
  say(news: string): void;
}

/** Where a pointer is: in the window [px], and on the bench [pitch]. */
export interface At {
  readonly x: number;
  readonly y: number;
  readonly spot: Spot;
}

export type InHand = ReturnType<typeof makeInHand>;

export function makeInHand(bench: ToolBench) {
  const { builder, ghost } = bench;
  const refuse = (o: Outcome<unknown>, { x, y }: At) => ghost.say(o.ok ? undefined : o.failure.says, x, y);

  /** Shows what the hand holds where the pointer is. */
  const hover = (at: At) => {
    const { ground, held, leadFrom } = builder;
    if (!ground) return;
    if (held) {
      const { spots, refusal } = shadow(ground, held, at.spot);
      ghost.part(spots, refusal !== undefined);
      ghost.say(refusal, at.x, at.y);
    } else if (leadFrom !== undefined) {
      const start = spotOf(leadFrom);
      if (start) drawLead(ground, leadFrom, start, at);
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

  /** The point that a lead's end would go into: a hole, a terminal, or a free hole in the row of a leg. */
  const endAt = ({ x, y, spot }: At): string | undefined => {
    const under = document.elementFromPoint(x, y);
    const post = under?.closest<SVGElement>('[data-part][data-pin]')?.dataset;
    if (post && builder.ground?.plan.parts.find((p) => p.id === post.part)?.at === undefined) return `${post.part}.${post.pin}`;
    return bench.holeAt(spot);
  };
  /** but: the lead that is in the hand, where it is no new one */
  const drawLead = (ground: Ground, from: string, start: Spot, at: At, but?: string) => {
    const to = endAt(at);
    const colour = but ? (ground.plan.leads.find((l) => l.id === but)?.colour ?? 'green') : builder.leadColour;
    const would =
      to === undefined || to === from
        ? undefined
        : settleLead(roomBeside(ground, new Set(but ? [but] : [])), ground.plan.boards, { id: but ?? 'it', from, to, colour });
    ghost.lead(start, (to === undefined ? undefined : spotOf(to)) ?? at.spot, colour, would?.ok === false);
    if (would) refuse(would, at);
    else ghost.say(undefined);
  };

  /** again: the hand keeps one more of it */
  const setDown = (at: At, again: boolean) => {
    const { ground, held } = builder;
    if (!ground || !held) return;
    const { wish, refusal } = shadow(ground, held, at.spot);
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
  const endLead = (from: string, at: At) => {
    const to = endAt(at);
    if (to === undefined || to === from) return;
    const done = builder.lead(from, to);
    if (!done.ok) {
      bench.say(done.failure.says);
      ghost.say(done.failure.says, at.x, at.y);
      return;
    }
    ghost.clear();
    if (done.value.op === 'add-lead') bench.say(`${done.value.lead.id} joins ${done.value.lead.from} and ${done.value.lead.to}.`);
  };
  return { refuse, hover, spotOf, endAt, drawLead, setDown, endLead };
}
