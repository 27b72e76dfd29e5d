/** Building on the scene: pointer tools, the cursor that keys move, and the rings round what is chosen, tied to one drawing after the other. */
import { U } from '../scene/geometry.ts';
import { BenchCursor } from './bench-cursor.ts';
import type { ToolBench } from './placement-tool.ts';
import { attachPointerStates, pinAt } from './pointer-events.ts';
import { makePreview } from './preview.ts';
import { drawSelection } from './selection-layer.ts';

export interface EditLayer {
  /** true while a drag of ours is under way, so that nothing is picked out */
  readonly busy: boolean;
  /** the bench is about to be drawn again: what was lifted belongs to the old drawing */
  renew(): void;
  drawChosen(): void;
  /** Cancels what is under way; true if there was anything. */
  cancel(): boolean;
  /** Arrows move what is chosen. */
  nudge(e: KeyboardEvent): boolean;
  /** A key on the bench: arrows move what is chosen, or else the cursor. */
  key(e: KeyboardEvent): boolean;
}

export interface EditScene extends Omit<ToolBench, 'ghost' | 'pitch' | 'grab' | 'pinAt'> {
  readonly surface: SVGSVGElement;
  readonly ghostLayer: SVGGElement;
  readonly choosing: SVGGElement;
  readonly note: HTMLElement;
  readonly host: HTMLElement;
  scale(): number;
  /** the cursor has come to a hole: picks out its net and brings it into sight */
  cameTo(spot: readonly [number, number]): void;
}

const NUDGES: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const isPlain = (e: KeyboardEvent) => !e.ctrlKey && !e.metaKey && !e.altKey && !e.shiftKey;

export function makeEditLayer(scene: EditScene): EditLayer {
  const { builder } = scene;
  const tools = attachPointerStates(scene.surface, {
    ...scene,
    ghost: makePreview(scene.ghostLayer, scene.note),
    pitch: () => scene.scale() * U,
    grab: (on) => scene.surface.classList.toggle('grabbing', on),
    pinAt,
  });
  const ring = () => {
    const drawing = scene.drawing();
    // what has just been laid lies among the others, where the next one will
    if (drawing) drawSelection(scene.choosing, drawing, builder.selection, cursor.spot, builder.showing);
  };
  const cursor: BenchCursor = new BenchCursor({
    builder,
    model: () => scene.model(),
    moved: () => {
      ring();
      if (cursor.spot) scene.cameTo(cursor.spot);
    },
    say: scene.say,
  });
  builder.on(() => {
    scene.host.classList.toggle('carrying', builder.toPlace !== undefined || builder.wireFrom !== undefined);
    ring();
  });
  const nudge = (e: KeyboardEvent): boolean => {
    const by = NUDGES[e.key];
    if (!by || !isPlain(e) || builder.selection.size === 0) return false;
    e.preventDefault();
    const done = builder.move(builder.chosen, by);
    if (done.ok) scene.say(`${builder.chosenSays} moved.`);
    else builder.session.refuse(done.failure);
    return true;
  };
  return {
    get busy() {
      return tools.busy;
    },
    renew: () => tools.renew(),
    drawChosen: ring,
    cancel() {
      const shown = cursor.spot !== undefined;
      cursor.hide();
      const left = [tools.cancel(), builder.cancel(), shown].some(Boolean);
      ring();
      return left;
    },
    nudge,
    key(e) {
      if (e.defaultPrevented || !isPlain(e)) return false;
      const onBench = e.target === scene.surface;
      if ((!onBench || cursor.spot === undefined) && nudge(e)) return true;
      return onBench && cursor.key(e);
    },
  };
}
