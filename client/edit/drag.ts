/** What every drag on the bench is: it follows the pointer, and ends by being dropped or given up. */
import type { EditContext } from '../../sim-core/index.ts';
import type { Drawing } from '../scene/drawing.ts';
import type { Spot } from '../scene/geometry.ts';
import type { At, PlacementTool, ToolBench } from './placement-tool.ts';

export interface Drag {
  follow(at: At): void;
  /** the press ends here */
  drop(at: At): void;
  /** given up: everything is where it was */
  leave(): void;
}

/** What every drag works with. */
export interface DragContext {
  readonly bench: ToolBench;
  readonly tool: PlacementTool;
  /** the bench as it was when the drag began */
  readonly context: EditContext;
  readonly drawing: Drawing;
  /** things have been moved, and stay lifted until the bench is drawn again; `back` is for when that is refused */
  staysLifted(back: () => void): void;
}

/** In whole pitches. */
export const pitchesBetween = (from: Spot, to: Spot): Spot => [Math.round(to[0] - from[0]), Math.round(to[1] - from[1])];
