/** One picture of a stage: boards, what was there before in grey, what is new in strong lines with numbers at both ends, and the chips that come last as dashed outlines. */
import type { Plan, PlanWire } from '../../shared/plan.ts';
import { holeSpot, type Layout, layOut, partLookup, pathsOfPlan, readHole, type WirePath } from '../../sim-core/index.ts';
import { boardBox, drawBoard } from '../scene/board-drawing.ts';
import { around, type Box, type Spot, U } from '../scene/geometry.ts';
import { el, through } from '../scene/svg.ts';
import { drawPart } from './stage-parts.ts';

/** What a picture shows of the plan. */
export interface StageView {
  readonly plan: Plan;
  /** ids of parts and wires: those that are put down here, and those that are there already; chips that are in neither are dashed, all else is left out */
  readonly fresh: ReadonlySet<string>;
  readonly there: ReadonlySet<string>;
  /** by wire */
  readonly numbers: ReadonlyMap<string, number>;
  /** ids of chips */
  readonly chips: ReadonlySet<string>;
  /** round what is new, or round these spots [pitch]; margin: on every side [pitch] */
  readonly about?: readonly Spot[];
  readonly margin?: number;
  /** holes that are picked out */
  readonly rings?: readonly Spot[];
}

/** Wires' colours dark enough for white numbers, and for a printer without colours. Our choice. */
const INKS: Readonly<Record<string, string>> = {
  red: '#b3241c',
  black: '#1d1c20',
  blue: '#2b5a9e',
  green: '#1f7338',
  yellow: '#8a6a00',
  orange: '#b4540a',
  white: '#5c6470',
  grey: '#62666d',
  gray: '#62666d',
  brown: '#6f4423',
  violet: '#6638a6',
  purple: '#6638a6',
  pink: '#b22a72',
  turquoise: '#007173',
};

const stageInk = (colour: string): string => INKS[colour] ?? '#1d1c20';

/** Thickness of a new wire and of one of before, and a disc's radius [pitch]. */
const [FRESH, BEFORE, DISC] = [0.3, 0.15, 0.44];
const MARGIN = 2.5;
/** A terminal beside the boards is drawn so far left of the hole that its wire leads to [pitch]. */
const STUB = 2.2;

/** A drawing and the box that it shows [pitch]; undefined where the plan cannot be laid out. */
export function drawStage(view: StageView): { readonly svg: SVGSVGElement; readonly box: Box } | undefined {
  const { plan } = view;
  const layout = layOut(plan, partLookup.shapeOf);
  const paths = pathsOfPlan(plan);
  if (!layout.ok || !paths.ok) return undefined;
  const wires = plan.wires.flatMap((wire) => {
    const path = stubOf(wire, plan) ?? paths.value.get(wire.id);
    return path ? [{ wire, path }] : [];
  });
  const box = boxOf(view, layout.value, wires);
  const isFresh = (id: string) => view.fresh.has(id);
  const svg = el('svg', {
    viewBox: [box.x, box.y, box.width, box.height].map((p) => p * U).join(' '),
    class: 'stage-picture',
  });
  const parts = plan.parts.flatMap((part) => {
    const state = isFresh(part.id) ? 'fresh' : view.there.has(part.id) ? 'before' : view.chips.has(part.id) ? 'later' : undefined;
    const legs = layout.value.legs.filter((l) => l.part.id === part.id && l.hole);
    return state && legs.length > 0 ? [{ id: part.id, drawn: drawPart(part, legs, state) }] : [];
  });
  const shown = (id: string) => isFresh(id) || view.there.has(id);
  svg.append(
    ...plan.boards.map((b) => drawBoard(b)),
    ...parts.filter((p) => !isFresh(p.id)).map((p) => p.drawn),
    ...wires.filter((w) => shown(w.wire.id) && !isFresh(w.wire.id)).map(({ path }) => line(path, BEFORE, 'wire-before')),
    ...parts.filter((p) => isFresh(p.id)).map((p) => p.drawn),
    ...wires.filter((w) => isFresh(w.wire.id)).flatMap(({ wire, path }) => freshWire(wire, path)),
    ...wires.filter((w) => isFresh(w.wire.id)).flatMap(({ wire, path }) => discs(wire, path, view.numbers.get(wire.id))),
    ...plan.boards.filter((b) => seen(boardBox(b), box) > 2).map((b) => boardName(b.id, boardBox(b), box)),
    ...(view.rings ?? []).map(([x, y]) => el('circle', { cx: x * U, cy: y * U, r: 0.8 * U, class: 'hole-ring' })),
  );
  return { svg, box };
}

/** A wire from a terminal beside the boards to a hole: from the left, on the level of its hole. */
function stubOf(wire: PlanWire, { boards }: Plan): WirePath | undefined {
  if (!wire.from.includes('.') && !wire.to.includes('.')) return undefined;
  const ends = [wire.from, wire.to].map((point) => readHole(point, boards));
  const hole = ends.find((h) => h.ok);
  if (!hole?.ok) return undefined;
  const [x, y] = holeSpot(hole.value);
  const left: Spot = [Math.min(x, hole.value.board.spot[0]) - STUB, y];
  return ends[0]?.ok ? [[x, y], left] : [left, [x, y]];
}

interface LaidPath {
  readonly wire: PlanWire;
  readonly path: WirePath;
}

function boxOf(view: StageView, layout: Layout, wires: readonly LaidPath[]): Box {
  const legs = layout.legs.flatMap((l) => (l.hole && view.fresh.has(l.part.id) ? [holeSpot(l.hole)] : []));
  const spots = view.about ?? [...legs, ...wires.filter((w) => view.fresh.has(w.wire.id)).flatMap((w) => w.path)];
  if (spots.length > 0) return around(spots, view.margin ?? MARGIN);
  return around(
    view.plan.boards.flatMap((b) => cornersOf(boardBox(b))),
    1,
  );
}

const cornersOf = ({ x, y, width, height }: Box): Spot[] => [
  [x, y],
  [x + width, y + height],
];

const scaled = (path: WirePath) => path.map(([x, y]) => [x * U, y * U] as const);

const line = (path: WirePath, width: number, name: string, stroke?: string) =>
  el('path', { d: through(scaled(path)), 'stroke-width': width * U, class: name, ...(stroke ? { stroke } : {}) });

const freshWire = (wire: PlanWire, path: WirePath): SVGElement[] => [
  line(path, FRESH + 0.14, 'wire-edge'),
  line(path, FRESH, 'wire-fresh', stageInk(wire.colour)),
];

/** Its number on both end holes; the name of a terminal beside the boards instead of one of them. */
function discs(wire: PlanWire, path: WirePath, number: number | undefined): SVGElement[] {
  const ends = [
    { point: wire.from, at: path[0] },
    { point: wire.to, at: path.at(-1) },
  ];
  return ends.flatMap(({ point, at }) => {
    if (!at) return [];
    const [x, y] = [at[0] * U, at[1] * U];
    if (point.includes('.')) return [el('text', { x: x - 4, y, class: 'terminal-name' }, point.replace('.', ' ').replace('-', '−'))];
    return [
      el('circle', { cx: x, cy: y, r: DISC * U, class: 'number-disc', fill: stageInk(wire.colour) }),
      ...(number === undefined ? [] : [el('text', { x, y, class: 'disc-number' }, String(number))]),
    ];
  });
}

/** So much of a board's height is in the picture [pitch]. */
const seen = (board: Box, box: Box): number => Math.min(board.y + board.height, box.y + box.height) - Math.max(board.y, box.y);

/** Above its board, at the left end of what can be seen of it. */
const boardName = (id: string, board: Box, box: Box): SVGElement =>
  el('text', { x: (Math.max(board.x, box.x) + 0.6) * U, y: Math.max(board.y - 0.3, box.y + 1.1) * U, class: 'board-name' }, id);
