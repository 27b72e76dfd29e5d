/** A DIP switch: one slider a pole, pushed towards the far row of legs when closed. */
import type { PlanPart } from '../../../shared/plan.ts';
import type { PlacedPart } from '../../state/bench-model.ts';
import { around, type Box, type Spot, U } from '../geometry.ts';
import { tappable, unlessAnswered } from '../press-handlers.ts';
import { el } from '../svg.ts';
import { leg } from './bent-leg.ts';
import type { DrawFace, FaceActions } from './face.ts';

/** A letter of a pole's name [pitch]. */
const LETTER = 0.55;

export const drawDipSwitch: DrawFace = ({ part, contacts }, { legs, actions }) => {
  const spots = [...legs.values()];
  const box = around(spots, 0.45);
  const poles = contacts.map((c) => drawPole(part, c, legs, actions));
  const first = legs.get(contacts[0]?.a ?? '1') ?? [0, 0];
  const far = legs.get(contacts[0]?.b ?? '2') ?? [0, 0];
  const wordY = (far[1] + (far[1] < first[1] ? 0.42 : -0.12)) * U;
  const names = contacts.flatMap((c) => poleName(c, legs, box) ?? []);
  return {
    body: el('g', { class: 'legs' }, ...spots.map((s) => leg(s, box.y + box.height / 2))),
    over: el(
      'g',
      { class: 'dip-switch', role: 'group', 'aria-label': part.label ?? part.id },
      el('rect', { x: box.x * U, y: box.y * U, width: box.width * U, height: box.height * U, rx: 3, class: 'switch-body' }),
      el('text', { x: (box.x + 0.22) * U, y: wordY, class: 'switch-word', 'aria-hidden': 'true' }, 'ON'),
      ...poles.map((p) => p.root),
      el('g', { 'aria-hidden': 'true' }, ...names.map((n) => n.text)),
    ),
    box,
    writing: names.map((n) => n.box),
    show: ({ readings }) => {
      for (const [i, { pole }] of contacts.entries()) poles[i]?.put(readings.switches[part.id]?.[pole] ?? false);
    },
  };
};

type Contact = PlacedPart['contacts'][number];
type Legs = ReadonlyMap<string, Spot>;

/** One slider in its slot, and where it stands. */
function drawPole(part: PlanPart, c: Contact, legs: Legs, actions: FaceActions) {
  const near = legs.get(c.a) ?? [0, 0];
  const far = legs.get(c.b) ?? [0, 0];
  const [x, y] = [near[0] * U, ((near[1] + far[1]) / 2) * U];
  const up = far[1] < near[1] ? -1 : 1;
  const slider = el('rect', { x: x - 4.6, y: y - 8, width: 9.2, height: 16, rx: 1.5, class: 'slider' });
  const ridge = el('path', { d: `M${x - 2.6} ${y - 2}h5.2M${x - 2.6} ${y + 2}h5.2`, class: 'slider-ridge' });
  const moving = el('g', { class: 'slider-move' }, slider, ridge);
  const called = `${part.label ?? part.id} pole ${c.pole + 1}${c.name ? ` ${c.name}` : ''}`;
  let closed: boolean | undefined;
  const root = el(
    'g',
    {
      class: 'pole',
      role: 'switch',
      'aria-checked': 'false',
      'aria-label': `${called}, open`,
      'data-part': part.id,
      'data-pins': `${c.a} ${c.b}`,
    },
    el('rect', { x: x - 10, y: y - 1.95 * U, width: 20, height: 3.9 * U, class: 'hit' }),
    el('rect', { x: x - 9, y: y - 1.3 * U, width: 18, height: 2.6 * U, rx: 3, class: 'focus-ring' }),
    el('rect', { x: x - 5.6, y: y - 18.5, width: 11.2, height: 37, rx: 2, class: 'slot' }),
    moving,
    el('text', { x, y: y - up * 1.62 * U + 3, class: 'pole-number' }, String(c.pole + 1)),
  );
  const put = (to: boolean) => {
    if (closed === to) return;
    closed = to;
    moving.setAttribute('transform', `translate(0 ${(to ? up : -up) * 9})`);
    root.setAttribute('aria-checked', String(to));
    root.setAttribute('aria-label', `${called}, ${to ? 'closed' : 'open'}`);
  };
  put(false);
  tappable(root, {
    act() {
      const to = !closed;
      actions.set(part.id, c.pole, to);
      unlessAnswered(
        () => closed === to,
        () => put(to),
      );
    },
  });
  return { root, put };
}

/** A pole's name, written away from the body, and where it stands. */
function poleName(c: Contact, legs: Legs, box: Box): { readonly text: SVGTextElement; readonly box: Box } | undefined {
  const spot = legs.get(c.b);
  if (!c.name || !spot) return undefined;
  const up = spot[1] < (legs.get(c.a)?.[1] ?? 0);
  const edge = up ? box.y - 0.22 : box.y + box.height + 0.22;
  const long = c.name.length * LETTER;
  const [x, y] = [spot[0] * U, edge * U];
  const text = el(
    'text',
    { x, y, class: 'pole-name', 'text-anchor': up ? 'start' : 'end', transform: `rotate(-90 ${x} ${y}) translate(0 3.6)` },
    c.name,
  );
  return { text, box: { x: spot[0] - 0.3, y: up ? edge - long : edge, width: 0.6, height: long } };
}
