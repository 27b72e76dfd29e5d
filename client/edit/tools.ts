/**
 * The hand on the bench, as named states: at rest, pressed, moving things, drawing a lead, re-ending one, drawing a frame. Every state has its way out: the
 * press ends, Escape, the window loses the focus, the pointer is lost, the bench is another one.
 */
import { type Change, type Ground, leadsOf, move, moveBoard, reLeg } from '../core.ts';
import { type Box, holds, type Spot } from '../scene/geometry.ts';
import { type At, makeInHand, type ToolBench } from './in-hand.ts';
import { type Lifted, lift } from './lift.ts';
import { type Target, targetOf } from './target.ts';

type State =
  | { readonly is: 'rest' }
  | { readonly is: 'pressed'; readonly target: Target; readonly at: At; readonly add: boolean }
  | {
      readonly is: 'moving';
      readonly ids: readonly string[];
      readonly from: Spot;
      by: Spot;
      readonly ground: Ground;
      readonly lifted: Lifted;
      readonly carried: readonly string[];
      fits: boolean;
    }
  | { readonly is: 'leading'; readonly from: string; readonly start: Spot }
  | { readonly is: 're-legging'; readonly id: string; readonly leg: 'at' | 'to'; readonly other: Spot }
  | { readonly is: 're-ending'; readonly lead: string; readonly end: 'from' | 'to'; readonly other: Spot; readonly colour: string }
  | { readonly is: 'shifting'; readonly board: string; readonly from: Spot; by: Spot }
  | { readonly is: 'framing'; readonly from: Spot; to: Spot };

export interface Tools {
  /** true while a drag of ours is under way, so that nothing is picked out */
  readonly busy: boolean;
  /** the bench has been drawn anew: what was lifted belongs to the old drawing */
  renew(): void;
  /** back to rest; true if there was anything to leave */
  cancel(): boolean;
}

/** A press that moves so far is a drag; one that stays so long under a finger chooses [px, ms]. */
const DRAG = 5;
const HOLD = 450;
/** Below this, holes are too small to be meant, and a drag pans; a terminal stands alone [px]. */
const LEAST_PITCH = 7;

export function attachTools(bench: ToolBench): Tools {
  const { surface, builder, ghost } = bench;
  const { at, refuse, hover, spotOf, endAt, drawLead, setDown, endLead } = makeInHand(bench);
  let state: State = { is: 'rest' };
  let holding: ReturnType<typeof setTimeout> | undefined;
  let swallow = false;
  let last: { x: number; y: number } | undefined;

  const rest = () => {
    clearTimeout(holding);
    if (state.is === 'moving') state.lifted.back();
    if (state.is !== 'rest') ghost.clear();
    state = { is: 'rest' };
    surface.classList.remove('grabbing');
  };
  const target = (e: { clientX: number; clientY: number; target: EventTarget | null }): Target => {
    const [standing, drawing] = [bench.standing(), bench.drawing()];
    const { spot } = at(e);
    if (!standing || !drawing || !(e.target instanceof Element)) return { on: 'ground' };
    return targetOf(e.target, spot, standing, drawing, bench.holeAt(spot));
  };
  const begin = (s: Extract<State, { is: 'pressed' }>) => {
    const { ground } = builder;
    const drawing = bench.drawing();
    if (!ground || !drawing) return rest();
    const t = s.target;
    const start = t.on === 'point' ? t : t.on === 'lead' && !t.end ? t.over : undefined;
    if (start) state = { is: 'leading', from: start.point, start: start.spot };
    else if (t.on === 'lead' && t.end) {
      const lead = ground.plan.leads.find((l) => l.id === t.id);
      const curve = drawing.curves.get(t.id);
      const other = t.end === 'from' ? curve?.at(-1) : curve?.[0];
      if (!lead || !other) return rest();
      drawing.leads.get(t.id)?.root.classList.add('under-way');
      state = { is: 're-ending', lead: t.id, end: t.end, other, colour: lead.colour };
    } else if (t.on === 'part' && t.leg) {
      const part = ground.plan.parts.find((p) => p.id === t.id);
      const other = spotOf((t.leg === 'at' ? part?.to : part?.at) ?? '');
      if (!other) return rest();
      state = { is: 're-legging', id: t.id, leg: t.leg, other };
    } else if (t.on === 'part' || t.on === 'control') {
      if (!builder.selection.has(t.id)) builder.select([t.id]);
      const ids = builder.chosen;
      const carried = [
        ...new Set([
          ...leadsOf(ground, new Set(ids)),
          ...ids,
          ...ground.plan.leads.filter((l) => [l.from, l.to].some((p) => ids.includes(p.split('.')[0] ?? ''))).map((l) => l.id),
        ]),
      ];
      const leads = new Map(
        carried.flatMap((id) => {
          const l = drawing.leads.get(id);
          return l ? [[id, l] as const] : [];
        }),
      );
      const pieces = ids.flatMap((id) => drawing.pieces.get(id) ?? []);
      state = {
        is: 'moving',
        ids,
        from: s.at.spot,
        by: [0, 0],
        ground,
        lifted: lift(bench.air, pieces, leads),
        carried: [...leads.keys()],
        fits: true,
      };
      surface.classList.add('grabbing');
    } else if (t.on === 'board') state = { is: 'shifting', board: t.id, from: s.at.spot, by: [0, 0] };
    else if (s.add) state = { is: 'framing', from: s.at.spot, to: s.at.spot };
    else return rest();
    swallow = true;
  };

  const follow = (e: PointerEvent) => {
    const { x, y, spot } = at(e);
    if (state.is === 'moving') {
      const by: Spot = [Math.round(spot[0] - state.from[0]), Math.round(spot[1] - state.from[1])];
      if (by[0] === state.by[0] && by[1] === state.by[1]) return;
      state.by = by;
      state.lifted.shift(by);
      const would = move(state.ground, state.ids, by);
      state.fits = would.ok;
      bench.air.classList.toggle('refused', !would.ok);
      refuse(would, x, y);
      if (would.ok) relay(state, would.value);
    } else if (state.is === 'leading' && builder.ground) drawLead(builder.ground, state.from, state.start, spot, x, y);
    else if (state.is === 're-ending' && builder.ground) {
      const lead = builder.ground.plan.leads.find((l) => l.id === (state.is === 're-ending' ? state.lead : ''));
      if (lead) drawLead(builder.ground, state.end === 'from' ? lead.to : lead.from, state.other, spot, x, y, lead.id);
    } else if (state.is === 're-legging' && builder.ground) {
      const to = endAt({ clientX: x, clientY: y });
      const would = to === undefined ? undefined : reLeg(builder.ground, state.id, state.leg, to);
      ghost.part([state.other, (to === undefined ? undefined : spotOf(to)) ?? spot], would?.ok === false);
      ghost.say(would?.ok === false ? would.failure.says : undefined, x, y);
    } else if (state.is === 'shifting') {
      state.by = [Math.round(spot[0] - state.from[0]), Math.round(spot[1] - state.from[1])];
      const box = bench.drawing()?.boxOf(state.board);
      const would = builder.ground && moveBoard(builder.ground, state.board, spotAfter(state));
      if (box) ghost.board({ ...box, x: box.x + state.by[0], y: box.y + state.by[1] }, would?.ok === false);
      ghost.say(would?.ok === false ? would.failure.says : undefined, x, y);
    } else if (state.is === 'framing') {
      state.to = spot;
      ghost.frame(state.from, spot);
    }
  };
  /** The leads concerned, to where they would go. */
  const relay = (s: Extract<State, { is: 'moving' }>, change: Change) => {
    const changes = change.op === 'all' ? change.changes : [change];
    const after = new Map(changes.flatMap((c) => (c.op === 'replace-lead' ? [[c.after.id, c.after] as const] : [])));
    for (const id of s.carried) {
      const lead = after.get(id) ?? s.ground.plan.leads.find((l) => l.id === id);
      if (!lead) continue;
      const spots = [lead.from, lead.to].map((p) => {
        const own = spotOf(p);
        return own && p.includes('.') && s.ids.includes(p.split('.')[0] ?? '') ? ([own[0] + s.by[0], own[1] + s.by[1]] as const) : own;
      });
      if (spots[0] && spots[1]) s.lifted.layLead(id, spots[0], spots[1]);
    }
  };

  const spotAfter = ({ board, by }: Extract<State, { is: 'shifting' }>): Spot => {
    const [x, y] = builder.ground?.plan.boards.find((b) => b.id === board)?.spot ?? [0, 0];
    return [x + by[0], y + by[1]];
  };

  const finish = (e: PointerEvent) => {
    if (state.is === 'moving') {
      const { ids, by, fits, lifted } = state;
      if (!fits || (by[0] === 0 && by[1] === 0)) return rest();
      const done = builder.move(ids, by);
      if (!done.ok) return rest();
      // what is lifted stays where it is until the bench is drawn anew
      bench.air.classList.remove('refused');
      state = { is: 'rest' };
      surface.classList.remove('grabbing');
      ghost.clear();
      putBack = () => lifted.back();
      bench.say(`${builder.chosenSays} moved.`);
    } else if (state.is === 'leading') {
      const { from } = state;
      rest();
      endLead(from, e);
    } else if (state.is === 're-ending') {
      const { lead, end } = state;
      rest();
      bench.drawing()?.leads.get(lead)?.root.classList.remove('under-way');
      const to = endAt(e);
      if (to === undefined) return;
      const done = builder.reEnd(lead, end, to);
      bench.say(done.ok ? `${lead} now ends at ${to}.` : done.failure.says);
      if (!done.ok) ghost.say(done.failure.says, e.clientX, e.clientY);
    } else if (state.is === 're-legging') {
      const { id, leg } = state;
      rest();
      const to = endAt(e);
      if (to === undefined) return;
      const done = builder.reLeg(id, leg, to);
      bench.say(done.ok ? `A leg of ${id} is now in ${to}.` : done.failure.says);
      if (!done.ok) ghost.say(done.failure.says, e.clientX, e.clientY);
    } else if (state.is === 'shifting') {
      const { board, by } = state;
      const to = spotAfter(state);
      rest();
      if (by[0] === 0 && by[1] === 0) return;
      const done = builder.do((g) => moveBoard(g, board, to));
      bench.say(done.ok ? `Board ${board} moved.` : done.failure.says);
      if (!done.ok) ghost.say(done.failure.says, e.clientX, e.clientY);
    } else if (state.is === 'framing') {
      const { from, to } = state;
      rest();
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
      const leads = [...(drawing?.curves ?? [])].filter(([, c]) => [c[0], c.at(-1)].every((s) => s && holds(box, s))).map(([id]) => id);
      builder.select([...parts, ...leads]);
      bench.say(`${builder.chosenSays} chosen.`);
    } else rest();
  };
  let putBack: (() => void) | undefined;

  surface.addEventListener(
    'pointerdown',
    (e) => {
      swallow = false;
      ghost.say(undefined);
      if (e.button !== 0 || bench.away()) return;
      if (state.is !== 'rest') return rest();
      const t = target(e);
      if (builder.held || builder.leadFrom !== undefined) {
        // the click that follows sets it down; a drag pans
        state = { is: 'rest' };
        return;
      }
      const add = e.shiftKey;
      if (e.pointerType === 'touch') {
        if (t.on === 'ground' || t.on === 'control') return;
        const place = at(e);
        holding = setTimeout(() => {
          bench.stopPanning();
          if (t.on === 'part' || t.on === 'lead') builder.select([t.id], builder.showing && !builder.selection.has(t.id));
          swallow = true;
          state = { is: 'pressed', target: t, at: place, add: false };
          surface.setPointerCapture(e.pointerId);
        }, HOLD);
        return;
      }
      const claims =
        add ||
        t.on === 'part' ||
        t.on === 'board' ||
        (t.on === 'lead' && (t.end !== undefined || (t.over !== undefined && bench.pitch() >= LEAST_PITCH))) ||
        (t.on === 'point' && (t.point.includes('.') || bench.pitch() >= LEAST_PITCH));
      if (!claims || (t.on === 'control' && !add)) return;
      e.stopPropagation();
      state = { is: 'pressed', target: t, at: at(e), add };
    },
    { capture: true },
  );

  surface.addEventListener('pointermove', (e) => {
    last = { x: e.clientX, y: e.clientY };
    if (state.is === 'rest') {
      if (e.pointerType === 'touch') clearTimeout(holding);
      if (builder.held || builder.leadFrom !== undefined) hover(e);
      return;
    }
    if (state.is === 'pressed') {
      if (Math.hypot(e.clientX - state.at.x, e.clientY - state.at.y) < DRAG) return;
      surface.setPointerCapture(e.pointerId);
      begin(state);
    }
    follow(e);
  });
  surface.addEventListener('pointerup', (e) => {
    clearTimeout(holding);
    // what was dragged here from the shelf
    if (state.is === 'rest' && builder.held && carrying) {
      carrying = false;
      setDown(e, false);
      return;
    }
    if (state.is === 'pressed') {
      state = { is: 'rest' };
      return;
    }
    finish(e);
  });
  let carrying = false;
  document.addEventListener('carry', () => {
    carrying = true;
  });
  addEventListener('pointerup', () =>
    setTimeout(() => {
      carrying = false;
    }),
  );
  for (const lost of ['pointercancel', 'lostpointercapture'] as const) surface.addEventListener(lost, () => state.is !== 'rest' && rest());
  addEventListener('blur', () => rest());
  surface.addEventListener('pointerleave', () => state.is === 'rest' && ghost.clear());

  surface.addEventListener(
    'click',
    (e) => {
      if (swallow) {
        swallow = false;
        e.stopImmediatePropagation();
        return;
      }
      if (bench.away()) return;
      if (builder.held) {
        e.stopImmediatePropagation();
        setDown(e, e.shiftKey);
        return;
      }
      if (builder.leadFrom !== undefined) {
        e.stopImmediatePropagation();
        if (endAt(e) === builder.leadFrom) {
          builder.beginLead(undefined);
          ghost.clear();
        } else endLead(builder.leadFrom, e);
        return;
      }
      const t = target(e);
      if (t.on === 'part' || t.on === 'lead' || t.on === 'board' || (t.on === 'control' && e.shiftKey)) {
        const { id } = t;
        const chooses = t.on !== 'part' || t.lamp === undefined || bench.building() || e.shiftKey;
        if (!chooses) return;
        if (t.on === 'part' && t.lamp !== undefined) e.stopImmediatePropagation();
        builder.select([id], e.shiftKey);
        if (t.on === 'part' && t.lamp !== undefined) bench.choseLamp(t.lamp);
      } else if (t.on === 'point' && (bench.building() || builder.laying)) {
        builder.select([]);
        builder.beginLead(t.point);
        bench.say(`A lead begins at ${t.point}. Click where it ends.`);
        hover(e);
      } else if (t.on === 'ground' || t.on === 'point') builder.select([]);
    },
    { capture: true },
  );

  builder.on(() => {
    if (!builder.held && builder.leadFrom === undefined && state.is === 'rest') ghost.clear();
    else if (last && state.is === 'rest') hover({ clientX: last.x, clientY: last.y });
  });
  builder.session.on('refused', () => {
    putBack?.();
    putBack = undefined;
  });

  return {
    get busy() {
      return state.is !== 'rest' && state.is !== 'pressed';
    },
    renew() {
      putBack = undefined;
      if (state.is === 'rest') bench.air.replaceChildren();
      else rest();
      bench.air.replaceChildren();
    },
    cancel() {
      const was = state.is !== 'rest';
      rest();
      return was;
    },
  };
}
