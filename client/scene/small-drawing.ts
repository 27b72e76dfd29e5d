/** A bench or a part drawn small, for a list: the bench's own drawing without what is read, touched or spoken in it. */
import type { Plan } from '../../shared/plan.ts';
import { makeBenchModel } from '../state/bench-model.ts';
import { Drawing } from './drawing.ts';
import type { FaceActions } from './faces/face.ts';
import { type Box, U } from './geometry.ts';
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

function small(layers: readonly SVGElement[], { x, y, width, height }: Box): SVGSVGElement {
  const view = [x - MARGIN, y - MARGIN, width + 2 * MARGIN, height + 2 * MARGIN].map((p) => p * U);
  const svg = el(
    'svg',
    { class: 'small-drawing', viewBox: view.join(' '), 'aria-hidden': 'true', 'data-detail': 'far', 'data-names': 'hidden' },
    ...layers,
  );
  for (const e of svg.querySelectorAll(NOT_DRAWN)) e.remove();
  for (const e of svg.querySelectorAll('*')) for (const name of SPOKEN) e.removeAttribute(name);
  // a copy listens to nothing
  const copy = svg.cloneNode(true);
  return copy instanceof SVGSVGElement ? copy : svg;
}
