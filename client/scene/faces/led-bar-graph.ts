/** LEDs side by side in a row package: a field that lights between every anode and the cathode that faces it. */
import { U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { leg } from './bent-leg.ts';
import type { DrawFace } from './face.ts';
import { rowPackage } from './row-package.ts';
import { drawSegment } from './segment.ts';

/** A field 1.5 mm wide and 5 mm long on a body 10 mm deep (from memory), in pitches. */
const [WIDE, LONG, DEEP] = [0.6, 2, 3.9];

export const drawLedBar: DrawFace = (specimen, { legs, actions }) => {
  const { part, leds } = specimen;
  const spots = [...legs.values()];
  const { box: between } = rowPackage(legs);
  const cy = between.y + between.height / 2;
  const box = { ...between, y: cy - DEEP / 2, height: DEEP };
  const segments = leds.map((led) => {
    const [x] = legs.get(led.anode) ?? [0];
    const [left, top] = [short((x - WIDE / 2) * U), short((cy - LONG / 2) * U)];
    return drawSegment(specimen, led, `M${left} ${top}h${WIDE * U}v${LONG * U}h${-WIDE * U}z`, actions);
  });
  const [oneX, oneY] = legs.get('1') ?? [0, 0];
  const called = part.label ?? part.id;
  const over = el(
    'g',
    { class: 'digit', role: 'group', 'aria-label': called },
    el('rect', { x: box.x * U, y: box.y * U, width: box.width * U, height: box.height * U, rx: 3, class: 'digit-body' }),
    el('circle', { cx: oneX * U, cy: (cy + Math.sign(oneY - cy) * 1.5) * U, r: 2, class: 'pin-one' }),
    ...segments.map((s) => s.root),
  );
  let damage = '';
  return {
    body: el('g', { class: 'legs' }, ...spots.map((s) => leg(s, cy))),
    over,
    box,
    show(sight) {
      for (const s of segments) s.show(sight);
      const now = sight.damage.get(part.id) ?? '';
      if (now === damage) return;
      damage = now;
      over.setAttribute('aria-label', now ? `${called}, ${now}` : called);
    },
  };
};
