/** A 6 mm push button: down while it is held. */
import { around, U } from '../geometry.ts';
import { holdable } from '../press-handlers.ts';
import { el } from '../svg.ts';
import { leg } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** 6 mm is 2.36 pitches. */
const SIDE = 2.36;

export const drawPushButton: DrawFace = ({ part, contacts }, { legs, actions }) => {
  const spots = [...legs.values()];
  const box = around(spots);
  const [cx, cy] = [box.x + box.width / 2, box.y + box.height / 2];
  const called = part.label ?? part.id;
  const cap = el('circle', { cx: cx * U, cy: cy * U, r: 0.72 * U, class: 'cap' });
  const button = el(
    'g',
    {
      class: 'push-button-top',
      role: 'button',
      'aria-pressed': 'false',
      'aria-label': called,
      'data-part': part.id,
      'data-pins': contacts[0] && `${contacts[0].a} ${contacts[0].b}`,
    },
    el('rect', { x: (cx - SIDE / 2) * U, y: (cy - SIDE / 2) * U, width: SIDE * U, height: SIDE * U, rx: 4, class: 'button-body' }),
    ...[-1, 1].flatMap((sx) =>
      [-1, 1].map((sy) => el('circle', { cx: (cx + sx * 0.92) * U, cy: (cy + sy * 0.92) * U, r: 2, class: 'rivet' })),
    ),
    el('circle', { cx: cx * U, cy: cy * U, r: 0.86 * U, class: 'cap-well' }),
    cap,
    el('rect', {
      x: (cx - SIDE / 2 - 0.15) * U,
      y: (cy - SIDE / 2 - 0.15) * U,
      width: (SIDE + 0.3) * U,
      height: (SIDE + 0.3) * U,
      rx: 6,
      class: 'focus-ring',
    }),
  );
  let pressed = false;
  const put = (to: boolean) => {
    pressed = to;
    button.setAttribute('aria-pressed', String(to));
    cap.setAttribute('r', String((to ? 0.64 : 0.72) * U));
  };
  holdable(button, {
    down() {
      put(true);
      actions.press(part.id);
    },
    up() {
      put(false);
      actions.release(part.id);
    },
  });
  return {
    body: el('g', { class: 'legs' }, ...spots.map((s) => leg(s, cy))),
    over: button,
    box: { x: cx - SIDE / 2, y: box.y - 0.2, width: SIDE, height: box.height + 0.4 },
    show({ readings }) {
      const now = readings.switches[part.id]?.[contacts[0]?.pole ?? 0] ?? false;
      if (now !== pressed) put(now);
    },
  };
};
