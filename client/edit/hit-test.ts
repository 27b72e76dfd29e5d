/** What a press on the bench is meant for: a part, a wire or one of its ends, an empty hole, a control that a hand works, or the ground. */
import { boardBox } from '../scene/board-drawing.ts';
import type { Drawing } from '../scene/drawing.ts';
import { type Box, holds, type Spot } from '../scene/geometry.ts';
import type { BenchModel } from '../state/bench-model.ts';

/** A hole with nothing in it, or a terminal. */
interface Start {
  readonly point: string;
  readonly spot: Spot;
}

export type Target =
  | { readonly on: 'part'; readonly id: string; readonly led?: string; readonly leg?: 'at' | 'to' }
  | { readonly on: 'wire'; readonly id: string; readonly end?: 'from' | 'to'; readonly over?: Start }
  /** where a wire can begin */
  | ({ readonly on: 'point' } & Start)
  | { readonly on: 'control'; readonly id: string }
  /** its rim, outside its holes */
  | { readonly on: 'board'; readonly id: string }
  | { readonly on: 'ground' };

/** A press so near to a wire's end takes that end [pitch]. */
const END = 0.75;
/** A press so near to a terminal is meant for it, whatever wire lies over it [pitch]. */
const TERMINAL = 0.5;
/** Of a part on two wires that are at least so far apart, a press so near to a hole bends that wire alone [pitch]. */
const [APART, LEG] = [3, 0.6];

export function targetOf(element: Element, spot: Spot, model: BenchModel, drawing: Drawing, hole: string | undefined): Target {
  const control = element.closest<SVGElement>('.tag-card, [role=switch], [role=button]:not([data-led], .chip-handle)');
  const marked = element.closest<SVGElement>('[data-wire], [data-part]');
  const free: Start | undefined =
    hole !== undefined && !model.layout.taken.has(hole) ? { point: hole, spot: [Math.round(spot[0]), Math.round(spot[1])] } : undefined;
  if (control) return { on: 'control', id: control.dataset.part ?? control.dataset.meter ?? '' };
  const { wire, part } = marked?.dataset ?? {};
  if (wire) {
    const path = drawing.paths.get(wire);
    const [from, to] = [path?.[0], path?.at(-1)];
    const [f, t] = [from, to].map((end) => (end ? Math.hypot(end[0] - spot[0], end[1] - spot[1]) : Number.POSITIVE_INFINITY)) as [
      number,
      number,
    ];
    const terminal = Math.min(f, t) > END ? terminalNear(spot, model, drawing) : undefined;
    if (terminal) return { on: 'point', ...terminal };
    if (Math.min(f, t) > END) return { on: 'wire', id: wire, ...(free ? { over: free } : {}) };
    return { on: 'wire', id: wire, end: f <= t ? 'from' : 'to' };
  }
  if (part) {
    const pin = element.closest<SVGElement>('[data-pin]')?.dataset.pin;
    const off = model.specimen.get(part)?.part.at === undefined;
    const terminal = pin === undefined ? undefined : drawing.legSpots.get(part)?.get(pin);
    if (off && pin !== undefined && terminal) return { on: 'point', point: `${part}.${pin}`, spot: terminal };
    const leg = legNear(drawing.legSpots.get(part), model.specimen.get(part)?.part.to !== undefined, spot);
    const led = element.closest<SVGElement>('[data-led]')?.dataset.led;
    return { on: 'part', id: part, ...(led === undefined ? {} : { led }), ...(leg ? { leg } : {}) };
  }
  if (free) return { on: 'point', ...free };
  const board = model.plan.boards.find((b) => onRim(boardBox(b), spot));
  return board ? { on: 'board', id: board.id } : { on: 'ground' };
}

/** Of the parts that stand beside the boards. */
function terminalNear([x, y]: Spot, model: BenchModel, drawing: Drawing): Start | undefined {
  for (const [id, spots] of drawing.legSpots) {
    if (model.specimen.get(id)?.part.at !== undefined) continue;
    for (const [pin, spot] of spots) if (Math.hypot(spot[0] - x, spot[1] - y) < TERMINAL) return { point: `${id}.${pin}`, spot };
  }
  return undefined;
}

/** A board is taken by its rim, so far inward [pitch]. */
const RIM = 0.9;

const onRim = (b: Box, spot: Spot): boolean => holds(b, spot) && !holds(b, spot, -RIM);

function legNear(legs: ReadonlyMap<string, Spot> | undefined, bends: boolean, [x, y]: Spot): 'at' | 'to' | undefined {
  const [a, b] = [...(legs?.values() ?? [])];
  if (!bends || !a || !b || Math.hypot(a[0] - b[0], a[1] - b[1]) < APART) return undefined;
  return Math.hypot(a[0] - x, a[1] - y) < LEG ? 'at' : Math.hypot(b[0] - x, b[1] - y) < LEG ? 'to' : undefined;
}
