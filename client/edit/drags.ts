/** Drags on the bench, one function each: things moved, a wire drawn, a wire's end or a part's leg put elsewhere, a board shifted, a frame drawn. */
import { type Change, type EditContext, move, moveBoard, type Outcome, reLeg, wiresOf } from '../core.ts';
import type { Drawing } from '../scene/drawing.ts';
import { type Box, holds, type Spot } from '../scene/geometry.ts';
import { liftToDragLayer } from './drag-layer.ts';
import type { Target } from './hit-test.ts';
import type { At, PlacementTool, ToolBench } from './placement-tool.ts';

/** A press on the bench. add: with Shift, it adds to what is chosen. */
export interface DragStart {
  readonly target: Target;
  readonly at: At;
  readonly add: boolean;
}

/** A press that has become a drag: it follows the pointer, and ends by `drop` or by `leave`. */
export interface Drag {
  follow(at: At): void;
  /** the press ends here */
  drop(at: At): void;
  /** given up: everything is where it was */
  leave(): void;
}

/** What every drag works with. */
interface Reach {
  readonly bench: ToolBench;
  readonly hand: PlacementTool;
  readonly ground: EditContext;
  readonly drawing: Drawing;
  /** things have been moved, and stay lifted until the bench is drawn anew; `back` is for when that is refused */
  staysLifted(back: () => void): void;
}

/** undefined: a press on this thing becomes no drag of ours. */
export function dragOf({ target, at, add }: DragStart, reach: Reach): Drag | undefined {
  const { bench } = reach;
  if (target.on === 'point') return leading(target.point, target.spot, reach);
  if (target.on === 'wire') {
    if (target.end) return reEnding(target.id, target.end, reach);
    if (target.over) return leading(target.over.point, target.over.spot, reach);
  }
  if (target.on === 'part' && target.leg) return reLegging(target.id, target.leg, reach);
  if (target.on === 'part' || target.on === 'control') {
    if (!bench.builder.selection.has(target.id)) bench.builder.select([target.id]);
    return moving(bench.builder.chosen, at.spot, reach);
  }
  if (target.on === 'board') return shifting(target.id, at.spot, reach);
  return add ? framing(at.spot, reach) : undefined;
}

/** In whole pitches. */
const between = (from: Spot, to: Spot): Spot => [Math.round(to[0] - from[0]), Math.round(to[1] - from[1])];

/** Says what was done; what could not be done stands beside the pointer as well. */
function tell({ say, ghost }: ToolBench, done: Outcome<unknown>, says: string, { x, y }: At): void {
  say(done.ok ? says : done.failure.says);
  if (!done.ok) ghost.say(done.failure.says, x, y);
}

function moving(ids: readonly string[], from: Spot, { bench, hand, ground, drawing, staysLifted }: Reach): Drag {
  const { surface, builder, air } = bench;
  const { wires } = ground.plan;
  const isMoved = (point: string) => ids.includes(point.split('.')[0] ?? '');
  const onThem = wires.filter((l) => isMoved(l.from) || isMoved(l.to)).map((l) => l.id);
  const carried = new Map(
    [...new Set([...wiresOf(ground, new Set(ids)), ...ids, ...onThem])].flatMap((id) => {
      const drawn = drawing.wires.get(id);
      return drawn ? [[id, drawn] as const] : [];
    }),
  );
  const lifted = liftToDragLayer(
    air,
    ids.flatMap((id) => drawing.pieces.get(id) ?? []),
    carried,
  );
  surface.classList.add('grabbing');
  let by: Spot = [0, 0];
  let fits = true;

  /** The wires concerned, to where they would go. */
  const relay = (change: Change) => {
    const changes = change.op === 'all' ? change.changes : [change];
    const after = new Map(changes.flatMap((c) => (c.op === 'replace-wire' ? [[c.after.id, c.after] as const] : [])));
    for (const id of carried.keys()) {
      const wire = after.get(id) ?? wires.find((l) => l.id === id);
      if (!wire) continue;
      const [start, end] = [wire.from, wire.to].map((p) => {
        const own = hand.spotOf(p);
        return own && p.includes('.') && isMoved(p) ? ([own[0] + by[0], own[1] + by[1]] as const) : own;
      });
      if (start && end) lifted.layWire(id, start, end);
    }
  };
  const letGo = () => {
    surface.classList.remove('grabbing');
    air.classList.remove('refused');
  };
  const leave = () => {
    letGo();
    lifted.back();
  };
  return {
    follow(at) {
      const now = between(from, at.spot);
      if (now[0] === by[0] && now[1] === by[1]) return;
      by = now;
      lifted.shift(by);
      const would = move(ground, ids, by);
      fits = would.ok;
      air.classList.toggle('refused', !would.ok);
      hand.refuse(would, at);
      if (would.ok) relay(would.value);
    },
    drop() {
      if (!fits || (by[0] === 0 && by[1] === 0) || !builder.move(ids, by).ok) return leave();
      letGo();
      staysLifted(() => lifted.back());
      bench.say(`${builder.chosenSays} moved.`);
    },
    leave,
  };
}

function leading(from: string, start: Spot, { bench, hand }: Reach): Drag {
  return {
    follow(at) {
      const { ground } = bench.builder;
      if (ground) hand.drawWire(ground, from, start, at);
    },
    drop: (at) => hand.endWire(from, at),
    leave() {},
  };
}

function reEnding(id: string, end: 'from' | 'to', { bench, hand, drawing }: Reach): Drag | undefined {
  const { builder } = bench;
  const curve = drawing.curves.get(id);
  const other = end === 'from' ? curve?.at(-1) : curve?.[0];
  const wireNow = () => builder.ground?.plan.wires.find((l) => l.id === id);
  if (!wireNow() || !other) return undefined;
  drawing.wires.get(id)?.root.classList.add('under-way');
  const leave = () => bench.drawing()?.wires.get(id)?.root.classList.remove('under-way');
  return {
    follow(at) {
      const { ground } = builder;
      const wire = wireNow();
      if (ground && wire) hand.drawWire(ground, end === 'from' ? wire.to : wire.from, other, at, id);
    },
    drop(at) {
      leave();
      const to = hand.endAt(at);
      if (to !== undefined) tell(bench, builder.reEnd(id, end, to), `${id} now ends at ${to}.`, at);
    },
    leave,
  };
}

function reLegging(id: string, leg: 'at' | 'to', { bench, hand, ground }: Reach): Drag | undefined {
  const { builder, ghost } = bench;
  const part = ground.plan.parts.find((p) => p.id === id);
  const other = hand.spotOf((leg === 'at' ? part?.to : part?.at) ?? '');
  if (!other) return undefined;
  return {
    follow(at) {
      if (!builder.ground) return;
      const to = hand.endAt(at);
      const would = to === undefined ? undefined : reLeg(builder.ground, id, leg, to);
      ghost.part([other, (to === undefined ? undefined : hand.spotOf(to)) ?? at.spot], would?.ok === false);
      ghost.say(would?.ok === false ? would.failure.says : undefined, at.x, at.y);
    },
    drop(at) {
      const to = hand.endAt(at);
      if (to !== undefined) tell(bench, builder.reLeg(id, leg, to), `${id} is now in ${to}.`, at);
    },
    leave() {},
  };
}

function shifting(id: string, from: Spot, { bench }: Reach): Drag {
  const { builder, ghost } = bench;
  let by: Spot = [0, 0];
  const spotAfter = (): Spot => {
    const [x, y] = builder.ground?.plan.boards.find((b) => b.id === id)?.spot ?? [0, 0];
    return [x + by[0], y + by[1]];
  };
  return {
    follow({ x, y, spot }) {
      by = between(from, spot);
      const box = bench.drawing()?.boxOf(id);
      const would = builder.ground && moveBoard(builder.ground, id, spotAfter());
      if (box) ghost.board({ ...box, x: box.x + by[0], y: box.y + by[1] }, would?.ok === false);
      ghost.say(would?.ok === false ? would.failure.says : undefined, x, y);
    },
    drop(at) {
      if (by[0] === 0 && by[1] === 0) return;
      const to = spotAfter();
      const done = builder.do((g) => moveBoard(g, id, to));
      tell(bench, done, `Board ${id} moved.`, at);
    },
    leave() {},
  };
}

/** Chooses the parts whose middle, and the wires whose both ends, are within the frame. */
function framing(from: Spot, { bench }: Reach): Drag {
  let to = from;
  return {
    follow({ spot }) {
      to = spot;
      bench.ghost.frame(from, to);
    },
    drop() {
      const box: Box = {
        x: Math.min(from[0], to[0]),
        y: Math.min(from[1], to[1]),
        width: Math.abs(from[0] - to[0]),
        height: Math.abs(from[1] - to[1]),
      };
      const drawing = bench.drawing();
      const parts = [...(drawing?.faces ?? [])]
        .filter(([, f]) => holds(box, [f.box.x + f.box.width / 2, f.box.y + f.box.height / 2]))
        .map(([id]) => id);
      const wires = [...(drawing?.curves ?? [])].filter(([, c]) => [c[0], c.at(-1)].every((s) => s && holds(box, s))).map(([id]) => id);
      bench.builder.select([...parts, ...wires]);
      bench.say(`Selected: ${bench.builder.chosenSays}.`);
    },
    leave() {},
  };
}
