/** The face of any part that has none of its own: drawn from its footprint, with its title and pins' names. */
import { around, U } from '../geometry.ts';
import { el } from '../svg.ts';
import { bentLeg } from './bent-leg.ts';
import type { DrawFace } from './face.ts';
import { pinName, rowPackage } from './row-package.ts';

export const drawPlain: DrawFace = ({ part, kind, params, legs: pins }, { legs }) => {
  const spots = [...legs.values()];
  if (spots.length > 2 && kind.footprint(params).shape !== 'in-line') {
    const { box, parts } = rowPackage(legs);
    const [cx, cy] = [(box.x + box.width / 2) * U, (box.y + box.height / 2) * U];
    return {
      body: el(
        'g',
        { class: 'chip' },
        ...parts,
        ...pins.map(({ pin }) => pinName(pin.name, legs.get(pin.pin) ?? [0, 0], box)),
        el('text', { x: cx, y: cy + 4, class: 'chip-id' }, part.label ?? part.id),
        el('title', {}, kind.title),
      ),
      box,
    };
  }
  const [x, y] = part.spot ?? [0, 0];
  const box = spots.length > 0 ? around(spots, 0.5) : { x, y, width: 6, height: 3 };
  const [a, b] = spots;
  return {
    body: el(
      'g',
      { class: 'plain' },
      ...(a && b ? [bentLeg(a, b), bentLeg(b, a)] : []),
      el('rect', { x: box.x * U, y: box.y * U, width: box.width * U, height: box.height * U, rx: 5, class: 'plain-body' }),
      el('text', { x: (box.x + box.width / 2) * U, y: (box.y + box.height / 2) * U + 4, class: 'plain-name' }, part.label ?? part.id),
      el('title', {}, kind.title),
    ),
    box,
    ...(spots.length === 0
      ? { terminals: new Map(pins.map(({ pin }, i) => [pin.pin, [box.x + 1 + i, box.y + box.height] as const])) }
      : {}),
  };
};
