/**
 * The hand on the bench, as named states: at rest, a finger held still, pressed, dragging. Every state has its way out: the press ends, Escape, the window
 * loses the focus, the pointer is lost, the bench is another one.
 */
import type { Clock } from '../worker/clock.ts';
import type { Drag } from './drag.ts';
import { type DragStart, dragOf } from './drags.ts';
import type { Target } from './hit-test.ts';
import { type At, PlacementTool, type ToolBench } from './placement-tool.ts';

/** A pointer on the bench. */
export interface PointerInput {
  readonly at: At;
  readonly button: number;
  /** it is a finger */
  readonly touch: boolean;
  /** it is on the mark of a finding, which is asked by a click and lets every drag through */
  readonly mark: boolean;
  /** Shift is held */
  readonly add: boolean;
  /** what is under it */
  target(): Target;
  /** From now on all of this pointer's events come to the bench. */
  capture(): void;
}

type State =
  | { readonly is: 'rest' }
  /** a finger that may yet be meant to pan; the answer of `stop` calls its choice off */
  | { readonly is: 'held still'; readonly stop: () => void }
  /** held: by a finger that was still for so long that it may move a thing, or ask for its menu */
  | { readonly is: 'pressed'; readonly press: DragStart; readonly held?: true }
  | { readonly is: 'dragging'; readonly drag: Drag };

const REST: State = { is: 'rest' };

/** A press that moves so far is a drag; one that stays so long under a finger chooses [px, ms]. */
const DRAG = 5;
const HOLD = 450;
/** Below this, holes are too small to be meant, and a drag pans; a terminal stands alone [px]. */
const LEAST_PITCH = 7;

export class PointerStates {
  private readonly tool: PlacementTool;
  private state: State = REST;
  /** the click that follows belongs to a press that was something else */
  private swallow = false;
  /** where a pointer was last; undefined: none has come yet */
  private last: At | undefined;
  /** puts back what was moved and waits for the bench to be drawn again */
  private putBack: (() => void) | undefined;
  /** a part is being dragged here from the list of parts */
  private carrying = false;

  constructor(
    private readonly bench: ToolBench,
    private readonly clock: Clock,
  ) {
    const { builder } = bench;
    this.tool = new PlacementTool(bench);
    builder.on(() => this.follow());
    builder.session.on('refused', () => {
      this.putBack?.();
      this.putBack = undefined;
    });
  }

  /** true while a drag of ours is under way, so that nothing is picked out */
  get busy(): boolean {
    return this.state.is === 'dragging';
  }

  /** True: the press is ours; else it pans. */
  down(p: PointerInput): boolean {
    const { bench } = this;
    this.swallow = false;
    bench.ghost.say(undefined);
    if (p.button !== 0 || bench.away()) return false;
    if (this.state.is === 'pressed' || this.state.is === 'dragging') {
      this.rest();
      return false;
    }
    this.rest();
    // the click that follows sets down what is held; a drag pans
    if (this.holds) return false;
    const target = p.target();
    if (p.touch) {
      if (target.on !== 'ground' && target.on !== 'control') this.holdStill(p, target);
      return false;
    }
    if (!this.claims(target, p.add)) return false;
    this.state = { is: 'pressed', press: { target, at: p.at, add: p.add } };
    return true;
  }

  move(p: PointerInput): void {
    this.last = p.at;
    if (this.state.is === 'held still') this.rest();
    if (this.state.is === 'rest') {
      if (this.holds) this.tool.hover(p.at);
      return;
    }
    if (this.state.is === 'pressed') {
      const { press } = this.state;
      if (Math.hypot(p.at.x - press.at.x, p.at.y - press.at.y) < DRAG) return;
      p.capture();
      this.begin(press);
    }
    if (this.state.is === 'dragging') this.state.drag.follow(p.at);
  }

  up(p: PointerInput): void {
    const { state, bench } = this;
    if (state.is === 'held still') state.stop();
    this.state = REST;
    if (state.is === 'dragging') {
      bench.ghost.clear();
      state.drag.drop(p.at);
    } else if (state.is === 'pressed' && state.held) bench.askMenu(state.press.target, p.at);
    else if (state.is !== 'pressed' && bench.builder.toPlace && this.carrying) {
      this.carrying = false;
      this.tool.setDown(p.at, false);
    }
  }

  /** True: the click is ours, and nothing else may act on it. */
  click(p: PointerInput): boolean {
    const { bench, tool } = this;
    const { builder } = bench;
    if (this.swallow) {
      this.swallow = false;
      return true;
    }
    if (bench.away()) return false;
    if (builder.toPlace) {
      tool.setDown(p.at, p.add);
      return true;
    }
    if (builder.wireFrom !== undefined) {
      if (tool.endAt(p.at) === builder.wireFrom) {
        builder.beginWire(undefined);
        bench.ghost.clear();
      } else tool.endWire(builder.wireFrom, p.at);
      return true;
    }
    return p.mark ? false : this.select(p);
  }

  /** The other button, or the key for menus. */
  menu(p: PointerInput): void {
    const { bench } = this;
    if (bench.away() || this.state.is === 'dragging') return;
    this.rest();
    const target = p.target();
    const { builder } = bench;
    if ((target.on === 'part' || target.on === 'wire') && !builder.selection.has(target.id)) builder.select([target.id], false, false);
    bench.askMenu(target, p.at);
  }

  /** A part is on its way here from the list of parts. */
  carry(): void {
    this.carrying = true;
  }
  /** It was let go of, here or elsewhere. */
  carryEnds(): void {
    this.carrying = false;
  }
  /** The pointer is lost, or the window has lost the focus. */
  lost(): void {
    this.rest();
  }
  /** The pointer has left the bench. */
  left(): void {
    if (this.state.is === 'rest') this.bench.ghost.clear();
  }
  /** The bench has been drawn again: what was lifted belongs to the old drawing. */
  renew(): void {
    this.putBack = undefined;
    this.rest();
    this.bench.overlay.replaceChildren();
  }
  /** Back to rest; true if there was anything to leave. */
  cancel(): boolean {
    const was = this.state.is === 'pressed' || this.state.is === 'dragging';
    this.rest();
    return was;
  }

  /** is there anything in the hand that the next click sets down? */
  private get holds(): boolean {
    const { toPlace, wireFrom } = this.bench.builder;
    return toPlace !== undefined || wireFrom !== undefined;
  }

  private rest(): void {
    const { state } = this;
    this.state = REST;
    if (state.is === 'held still') state.stop();
    if (state.is === 'dragging') state.drag.leave();
    if (state.is === 'pressed' || state.is === 'dragging') this.bench.ghost.clear();
  }

  /** Does a press on this thing become ours? */
  private claims(t: Target, add: boolean): boolean {
    if (add) return true;
    const large = this.bench.pitch() >= LEAST_PITCH;
    switch (t.on) {
      case 'part':
      case 'board':
        return true;
      case 'wire':
        return t.end !== undefined || (t.over !== undefined && large);
      case 'point':
        return t.point.includes('.') || large;
      default:
        return false;
    }
  }

  private holdStill(p: PointerInput, target: Target): void {
    const { bench } = this;
    const { builder } = bench;
    const stop = this.clock.after(HOLD, () => {
      bench.stopPanning();
      if (target.on === 'part' || target.on === 'wire') builder.select([target.id], builder.showing && !builder.selection.has(target.id));
      this.swallow = true;
      this.state = { is: 'pressed', press: { target, at: p.at, add: false }, held: true };
      p.capture();
    });
    this.state = { is: 'held still', stop };
  }

  private begin(press: DragStart): void {
    const { bench, tool } = this;
    const { context } = bench.builder;
    const drawing = bench.drawing();
    const staysLifted = (back: () => void) => {
      this.putBack = back;
    };
    const drag = context && drawing && dragOf(press, { bench, tool, context, drawing, staysLifted });
    if (!drag) {
      this.rest();
      return;
    }
    this.state = { is: 'dragging', drag };
    this.swallow = true;
  }

  /** A click that sets nothing down chooses, or begins a wire. */
  private select(p: PointerInput): boolean {
    const { bench, tool } = this;
    const { builder } = bench;
    const t = p.target();
    if (t.on === 'part' || t.on === 'wire' || t.on === 'board' || (t.on === 'control' && p.add)) {
      const led = t.on === 'part' ? t.led : undefined;
      if (led !== undefined && !bench.building() && !p.add) return false;
      builder.select([t.id], p.add);
      if (led !== undefined) bench.choseLed(led);
      return led !== undefined;
    }
    if (t.on === 'point' && (bench.building() || builder.laying)) {
      builder.select([]);
      builder.beginWire(t.point);
      bench.say(`Wire from ${t.point}. Click its other end.`);
      tool.hover(p.at);
    } else if (t.on !== 'control') builder.select([]);
    return false;
  }

  /** What is in the hand is another thing than before. */
  private follow(): void {
    if (this.state.is !== 'rest' && this.state.is !== 'held still') return;
    if (!this.holds) this.bench.ghost.clear();
    else if (this.last) this.tool.hover(this.last);
  }
}
