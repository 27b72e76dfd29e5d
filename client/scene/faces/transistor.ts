/** A small transistor from above: a half-round body with its flat face towards the reader, and the first letters of its legs. */
import { around, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { bentLeg } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** Body 4.6 mm across, 3.6 mm deep (from memory): 1.8 × 1.4 pitches; drawn a little larger so that three letters fit on it. */
const [ACROSS, DEEP] = [2.5, 1.55];

export const drawTransistor: DrawFace = ({ part, kind, legs: pins }, { legs }) => {
  const spots = [...legs.values()];
  const row = around(spots);
  const [cx, y] = [row.x + row.width / 2, row.y];
  // the body leans back behind its row of holes
  const box = { x: cx - ACROSS / 2, y: y - DEEP - 0.1, width: ACROSS, height: DEEP };
  const [left, right, flat] = [box.x * U, (box.x + box.width) * U, (box.y + box.height) * U];
  const d = `M${short(left + 3)} ${short(flat)}H${short(right - 3)}q3 0 3 -3C${short(right)} ${short(box.y * U - 5)} ${short(left)} ${short(box.y * U - 5)} ${short(left)} ${short(flat - 3)}q0 3 3 3z`;
  return {
    body: el(
      'g',
      { class: 'transistor' },
      ...spots.map((s) => bentLeg(s, [cx + (s[0] - cx) * 0.72, box.y + box.height - 0.2])),
      el('path', { d, class: 'epoxy' }),
      el('path', { d: `M${short(left + 2)} ${short(flat - 3.4)}H${short(right - 2)}`, class: 'epoxy-edge' }),
      ...pins.map(({ pin }) => {
        const [x] = legs.get(pin.pin) ?? [0, 0];
        return el(
          'text',
          { x: short((cx + (x - cx) * 0.72) * U), y: short(flat - 7), class: 'leg-letter' },
          (pin.name[0] ?? '').toUpperCase(),
        );
      }),
      el('title', {}, `${part.label ?? part.id}, ${kind.title}: ${pins.map(({ pin }) => pin.name).join(', ')}`),
    ),
    box: { ...box, height: DEEP + 0.4 },
  };
};
