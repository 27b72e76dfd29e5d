/** An inductor: an axial body with the turns of its winding under the lacquer, and its value in short. */
import { siFormat } from '../../../sim-core/index.ts';
import { around, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { betweenHoles, readable } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** Body 7 × 3 mm (from memory), in pitches. */
const [LONG, THICK] = [2.75, 1.2];
const TURNS = 9;

export const drawInductor: DrawFace = ({ part, params }, { legs }) => {
  const a = legs.get('1') ?? [0, 0];
  const b = legs.get('2') ?? [0, 0];
  const { middle, span, angle, wires } = betweenHoles(a, b);
  const [w, h] = [Math.min(LONG, Math.max(1.6, span - 0.2)) * U, THICK * U];
  const pitch = (w - 8) / TURNS;
  const turns = Array.from(
    { length: TURNS },
    (_, i) => `M${short(-w / 2 + 4 + (i + 0.3) * pitch)} ${-h / 2}q${short(pitch * 0.8)} ${h / 2} 0 ${h}`,
  );
  const value = siFormat(Number(params.henries), 'H');
  return {
    body: el(
      'g',
      { class: 'inductor' },
      ...wires,
      el(
        'g',
        { transform: `translate(${short(middle[0] * U)} ${short(middle[1] * U)}) rotate(${readable(angle)})` },
        el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: 5, class: 'winding-body' }),
        el('path', { d: turns.join(''), class: 'winding-turns' }),
        el('text', { y: 3.2, class: 'winding-value' }, value),
      ),
      el('title', {}, `${part.label ?? part.id}, ${value}`),
    ),
    box: around([a, b], 0.6),
  };
};
