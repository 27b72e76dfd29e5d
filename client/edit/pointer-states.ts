/**
 * The hand on the bench, as named states: at rest, pressed, dragging. Every state has its way out: the press ends, Escape, the window loses the focus, the
 * pointer is lost, the bench is another one.
 */
import { type Drag, type DragStart, dragOf } from './drags.ts';
import { type Target, targetOf } from './hit-test.ts';
import { type At, makePlacementTool, type ToolBench } from './placement-tool.ts';

type State = { readonly is: 'rest' } | ({ readonly is: 'pressed' } & DragStart) | { readonly is: 'dragging'; readonly drag: Drag };

export interface PointerTools {
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

export function attachTools(bench: ToolBench): PointerTools {
  const { surface, builder, ghost } = bench;
  const hand = makePlacementTool(bench);
  let state: State = { is: 'rest' };
  let holding: ReturnType<typeof setTimeout> | undefined;
  let swallow = false;
  let last: { clientX: number; clientY: number } | undefined;
  /** puts back what was moved and waits for the bench to be drawn anew */
  let putBack: (() => void) | undefined;

  const at = ({ clientX: x, clientY: y }: { clientX: number; clientY: number }): At => ({ x, y, spot: bench.toBench(x, y) });
  const rest = () => {
    clearTimeout(holding);
    if (state.is === 'dragging') state.drag.leave();
    if (state.is !== 'rest') ghost.clear();
    state = { is: 'rest' };
  };
  const target = (e: { clientX: number; clientY: number; target: EventTarget | null }): Target => {
    const [standing, drawing] = [bench.standing(), bench.drawing()];
    const { spot } = at(e);
    if (!standing || !drawing || !(e.target instanceof Element)) return { on: 'ground' };
    return targetOf(e.target, spot, standing, drawing, bench.holeAt(spot));
  };
  const begin = (press: DragStart) => {
    const { ground } = builder;
    const drawing = bench.drawing();
    const staysLifted = (back: () => void) => {
      putBack = back;
    };
    const drag = ground && drawing && dragOf(press, { bench, hand, ground, drawing, staysLifted });
    if (!drag) return rest();
    state = { is: 'dragging', drag };
    swallow = true;
  };

  surface.addEventListener(
    'pointerdown',
    (e) => {
      swallow = false;
      ghost.say(undefined);
      if (e.button !== 0 || bench.away()) return;
      if (state.is !== 'rest') return rest();
      const t = target(e);
      if (builder.held || builder.wireFrom !== undefined) {
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
          if (t.on === 'part' || t.on === 'wire') builder.select([t.id], builder.showing && !builder.selection.has(t.id));
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
        (t.on === 'wire' && (t.end !== undefined || (t.over !== undefined && bench.pitch() >= LEAST_PITCH))) ||
        (t.on === 'point' && (t.point.includes('.') || bench.pitch() >= LEAST_PITCH));
      if (!claims || (t.on === 'control' && !add)) return;
      e.stopPropagation();
      state = { is: 'pressed', target: t, at: at(e), add };
    },
    { capture: true },
  );

  surface.addEventListener('pointermove', (e) => {
    last = { clientX: e.clientX, clientY: e.clientY };
    if (state.is === 'rest') {
      if (e.pointerType === 'touch') clearTimeout(holding);
      if (builder.held || builder.wireFrom !== undefined) hand.hover(at(e));
      return;
    }
    if (state.is === 'pressed') {
      if (Math.hypot(e.clientX - state.at.x, e.clientY - state.at.y) < DRAG) return;
      surface.setPointerCapture(e.pointerId);
      begin(state);
    }
    if (state.is === 'dragging') state.drag.follow(at(e));
  });
  surface.addEventListener('pointerup', (e) => {
    clearTimeout(holding);
    // what was dragged here from the shelf
    if (state.is === 'rest' && builder.held && carrying) {
      carrying = false;
      hand.setDown(at(e), false);
      return;
    }
    if (state.is === 'dragging') {
      const { drag } = state;
      state = { is: 'rest' };
      ghost.clear();
      drag.drop(at(e));
    } else state = { is: 'rest' };
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
        hand.setDown(at(e), e.shiftKey);
        return;
      }
      if (builder.wireFrom !== undefined) {
        e.stopImmediatePropagation();
        if (hand.endAt(at(e)) === builder.wireFrom) {
          builder.beginWire(undefined);
          ghost.clear();
        } else hand.endWire(builder.wireFrom, at(e));
        return;
      }
      const t = target(e);
      if (t.on === 'part' || t.on === 'wire' || t.on === 'board' || (t.on === 'control' && e.shiftKey)) {
        const { id } = t;
        const chooses = t.on !== 'part' || t.led === undefined || bench.building() || e.shiftKey;
        if (!chooses) return;
        if (t.on === 'part' && t.led !== undefined) e.stopImmediatePropagation();
        builder.select([id], e.shiftKey);
        if (t.on === 'part' && t.led !== undefined) bench.choseLed(t.led);
      } else if (t.on === 'point' && (bench.building() || builder.laying)) {
        builder.select([]);
        builder.beginWire(t.point);
        bench.say(`Wire from ${t.point}. Click its other end.`);
        hand.hover(at(e));
      } else if (t.on === 'ground' || t.on === 'point') builder.select([]);
    },
    { capture: true },
  );

  builder.on(() => {
    if (!builder.held && builder.wireFrom === undefined && state.is === 'rest') ghost.clear();
    else if (last && state.is === 'rest') hand.hover(at(last));
  });
  builder.session.on('refused', () => {
    putBack?.();
    putBack = undefined;
  });

  return {
    get busy() {
      return state.is === 'dragging';
    },
    renew() {
      putBack = undefined;
      if (state.is !== 'rest') rest();
      bench.air.replaceChildren();
    },
    cancel() {
      const was = state.is !== 'rest';
      rest();
      return was;
    },
  };
}
