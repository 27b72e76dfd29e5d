/** A bench or a part drawn small, for a list or in the hand: the bench's own drawing without what is read, touched or spoken in it. */
import type { Plan } from '../../shared/plan.ts';
import { makeBenchModel, type PlacedPart } from '../state/bench-model.ts';
import { Drawing } from './drawing.ts';
import { faceFor } from './faces/catalogue.ts';
import type { FaceActions } from './faces/face.ts';
import { type Box, type Spot, U } from './geometry.ts';
import { el } from './svg.ts';

/** Margin round the drawing [pitch]. */
const MARGIN = 0.6;
const NOT_DRAWN = '.wire-hit, .hit, title';
const SPOKEN = [
  'tabindex',
  'role',
  'aria-label',
  'aria-checked',
  'aria-pressed',
  'aria-hidden',
  'data-part',
  'data-pin',
  'data-led',
  'data-wire',
  'data-net',
];
const UNTOUCHED: FaceActions = { set() {}, press() {}, release() {}, open() {}, ask() {} };

/** The whole bench, with its supply off. */
export function drawSmall(plan: Plan): SVGSVGElement {
  const { boards, layers, box } = new Drawing(makeBenchModel(plan), UNTOUCHED);
  return small([boards, layers.bodies, layers.wires, layers.tops], box);
}

/** One part of a plan, alone; undefined: there is none of that name. */
export function drawSmallPart(plan: Plan, id: string): SVGSVGElement | undefined {
  const drawing = new Drawing(makeBenchModel(plan), UNTOUCHED);
  const face = drawing.faces.get(id);
  return face && small([face.body, ...(face.over ? [face.over] : [])], face.box);
}

/** A part as it would be drawn with its legs in these spots, by pin; one beside the boards, with its corner there. */
export function sketchPart(part: PlacedPart, legs: ReadonlyMap<string, Spot>, corner: Spot, middle: Spot): SVGGElement {
  const placed = legs.size > 0 ? part : { ...part, part: { ...part.part, spot: [corner[0], corner[1]] as [number, number] } };
  const face = faceFor(placed)(placed, { legs, middle, actions: UNTOUCHED });
  return still(el('g', {}, face.body, ...(face.over ? [face.over] : [])));
}

function small(layers: readonly SVGElement[], { x, y, width, height }: Box): SVGSVGElement {
  const view = [x - MARGIN, y - MARGIN, width + 2 * MARGIN, height + 2 * MARGIN].map((p) => p * U);
  const looks = { class: 'small-drawing', viewBox: view.join(' '), 'aria-hidden': 'true', 'data-detail': 'far', 'data-names': 'hidden' };
  const svg = el('svg', looks);
  svg.append(still(el('g', {}, ...layers)));
  return svg;
}

/** A copy that listens to nothing and says nothing. */
function still(drawn: SVGGElement): SVGGElement {
  for (const e of drawn.querySelectorAll(NOT_DRAWN)) e.remove();
  for (const e of drawn.querySelectorAll('*')) for (const name of SPOKEN) e.removeAttribute(name);
  const copy = drawn.cloneNode(true);
  return copy instanceof SVGGElement ? copy : drawn;
}
