/** Drags on the bench, one class each: a wire drawn, a wire's end or a part's leg put elsewhere, a board shifted, a frame drawn; and which press becomes which. */
import { moveBoard, reLeg } from '../../sim-core/index.ts';
import { type Box, holds, type Spot } from '../scene/geometry.ts';
import { type Drag, type DragContext, pitchesBetween } from './drag.ts';
import type { Target } from './hit-test.ts';
import { MoveDrag } from './move-drag.ts';
import type { At } from './placement-tool.ts';

/** A press on the bench. add: with Shift, it adds to what is selected. */
export interface DragStart {
  readonly target: Target;
  readonly at: At;
  readonly add: boolean;
}

/** undefined: a press on this thing becomes no drag of ours. */
export function dragOf({ target, at, add }: DragStart, reach: DragContext): Drag | undefined {
  const { builder } = reach.bench;
  switch (target.on) {
    case 'point':
      return new WireDrag(target.point, target.spot, reach);
    case 'wire':
      if (target.end) return endDrag(target.id, target.end, reach);
      if (target.over) return new WireDrag(target.over.point, target.over.spot, reach);
      return add ? new FrameDrag(at.spot, reach) : undefined;
    case 'part':
      if (target.leg) return legDrag(target.id, target.leg, reach);
      break;
    case 'board':
      return new BoardDrag(target.id, at.spot, reach);
    case 'ground':
      return add ? new FrameDrag(at.spot, reach) : undefined;
  }
  if (!builder.selection.has(target.id)) builder.select([target.id]);
  return new MoveDrag(builder.chosen, at.spot, reach);
}

/** A new wire, from a hole or a terminal to where the pointer is. */
class WireDrag implements Drag {
  constructor(
    private readonly from: string,
    private readonly start: Spot,
    private readonly reach: DragContext,
  ) {}

  follow(at: At): void {
    const { context } = this.reach.bench.builder;
    if (context) this.reach.tool.drawWire(context, this.from, this.start, at);
  }
  drop(at: At): void {
    this.reach.tool.endWire(this.from, at);
  }
  leave(): void {}
}

/** undefined: there is no such wire any more. */
function endDrag(id: string, end: 'from' | 'to', reach: DragContext): Drag | undefined {
  const path = reach.drawing.paths.get(id);
  const other = end === 'from' ? path?.at(-1) : path?.[0];
  const there = reach.bench.builder.context?.plan.wires.some((w) => w.id === id);
  return there && other ? new EndDrag(id, end, other, reach) : undefined;
}

/** One end of a wire, out of its hole and to where the pointer is; other: where its other end is. */
class EndDrag implements Drag {
  constructor(
    private readonly id: string,
    private readonly end: 'from' | 'to',
    private readonly other: Spot,
    private readonly reach: DragContext,
  ) {
    reach.drawing.wires.get(id)?.root.classList.add('under-way');
  }

  follow(at: At): void {
    const { bench, tool } = this.reach;
    const { context } = bench.builder;
    const wire = context?.plan.wires.find((w) => w.id === this.id);
    if (context && wire) tool.drawWire(context, this.end === 'from' ? wire.to : wire.from, this.other, at, this.id);
  }
  drop(at: At): void {
    const { bench, tool } = this.reach;
    this.leave();
    const to = tool.endAt(at, this.other);
    if (to !== undefined) tool.tell(bench.builder.reEnd(this.id, this.end, to), `${this.id} now ends at ${to}.`, at);
  }
  leave(): void {
    this.reach.bench.drawing()?.wires.get(this.id)?.root.classList.remove('under-way');
  }
}

/** undefined: the part has no second leg in a hole. */
function legDrag(id: string, leg: 'at' | 'to', reach: DragContext): Drag | undefined {
  const part = reach.context.plan.parts.find((p) => p.id === id);
  const other = reach.tool.spotOf((leg === 'at' ? part?.to : part?.at) ?? '');
  return other && new LegDrag(id, leg, other, reach);
}

/** One leg of a part on two legs; other: where its other leg is. */
class LegDrag implements Drag {
  constructor(
    private readonly id: string,
    private readonly leg: 'at' | 'to',
    private readonly other: Spot,
    private readonly reach: DragContext,
  ) {}

  follow(at: At): void {
    const { bench, tool } = this.reach;
    const { context } = bench.builder;
    if (!context) return;
    const to = tool.endAt(at);
    const would = to === undefined ? undefined : reLeg(context, this.id, this.leg, to);
    bench.ghost.part([this.other, (to === undefined ? undefined : tool.spotOf(to)) ?? at.spot], would?.ok === false);
    bench.ghost.say(would?.ok === false ? would.failure.says : undefined, at.x, at.y);
  }
  drop(at: At): void {
    const { bench, tool } = this.reach;
    const to = tool.endAt(at);
    if (to !== undefined) tool.tell(bench.builder.reLeg(this.id, this.leg, to), `${this.id} is now in ${to}.`, at);
  }
  leave(): void {}
}

/** A board, by its rim. */
class BoardDrag implements Drag {
  /** how far it has come [pitch] */
  private by: Spot = [0, 0];

  constructor(
    private readonly id: string,
    private readonly from: Spot,
    private readonly reach: DragContext,
  ) {}

  follow({ x, y, spot }: At): void {
    const { ghost, builder, drawing } = this.reach.bench;
    this.by = pitchesBetween(this.from, spot);
    const box = drawing()?.boxOf(this.id);
    const would = builder.context && moveBoard(builder.context, this.id, this.spotAfter());
    if (box) ghost.board({ ...box, x: box.x + this.by[0], y: box.y + this.by[1] }, would?.ok === false);
    ghost.say(would?.ok === false ? would.failure.says : undefined, x, y);
  }
  drop(at: At): void {
    if (this.by[0] === 0 && this.by[1] === 0) return;
    const to = this.spotAfter();
    const done = this.reach.bench.builder.do((g) => moveBoard(g, this.id, to));
    this.reach.tool.tell(done, `Board ${this.id} moved.`, at);
  }
  leave(): void {}

  private spotAfter(): Spot {
    const [x, y] = this.reach.bench.builder.context?.plan.boards.find((b) => b.id === this.id)?.spot ?? [0, 0];
    return [x + this.by[0], y + this.by[1]];
  }
}

/** A frame that selects the parts whose middle, and the wires whose both ends, are within it. */
class FrameDrag implements Drag {
  private to: Spot;

  constructor(
    private readonly from: Spot,
    private readonly reach: DragContext,
  ) {
    this.to = from;
  }

  follow({ spot }: At): void {
    this.to = spot;
    this.reach.bench.ghost.frame(this.from, spot);
  }
  drop(): void {
    const { bench } = this.reach;
    const [[ax, ay], [bx, by]] = [this.from, this.to];
    const frame: Box = { x: Math.min(ax, bx), y: Math.min(ay, by), width: Math.abs(ax - bx), height: Math.abs(ay - by) };
    const drawing = bench.drawing();
    const parts = [...(drawing?.faces ?? [])]
      .filter(([, { box }]) => holds(frame, [box.x + box.width / 2, box.y + box.height / 2]))
      .map(([id]) => id);
    const wires = [...(drawing?.paths ?? [])].filter(([, c]) => [c[0], c.at(-1)].every((s) => s && holds(frame, s))).map(([id]) => id);
    bench.builder.select([...parts, ...wires]);
    bench.say(`Selected: ${bench.builder.chosenSays}.`);
  }
  leave(): void {}
}
