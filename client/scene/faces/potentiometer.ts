/** A trimming potentiometer from above: a square body, a scale, and a slotted rotor that stands where its wiper does. */
import { siFormat } from '../../../sim-core/index.ts';
import { around, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { leg } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** 7 mm a side (from memory): 2.76 pitches. */
const SIDE = 2.76;
/** The rotor turns through so many degrees, and its ends are as far from straight down. */
const SWEEP = 270;

export const drawPotentiometer: DrawFace = ({ part, params, kind }, { legs }) => {
  const spots = [...legs.values()];
  const row = around(spots);
  const [cx, cy] = [row.x + row.width / 2, row.y - SIDE / 2 + 0.25];
  const box = { x: cx - SIDE / 2, y: cy - SIDE / 2, width: SIDE, height: SIDE };
  const wiper = Number(params.wiper);
  const turned = -SWEEP / 2 + SWEEP * wiper;
  const r = 0.82 * U;
  const ticks = Array.from({ length: 11 }, (_, i) => {
    const a = ((-90 - SWEEP / 2 + (SWEEP * i) / 10) * Math.PI) / 180;
    const [from, to] = [r + 2, r + (i % 5 === 0 ? 5.5 : 4)];
    return `M${short(Math.cos(a) * from)} ${short(Math.sin(a) * from)}L${short(Math.cos(a) * to)} ${short(Math.sin(a) * to)}`;
  });
  return {
    body: el(
      'g',
      { class: 'potentiometer' },
      ...spots.map((s) => leg(s, cy)),
      el('rect', { x: short(box.x * U), y: short(box.y * U), width: SIDE * U, height: SIDE * U, rx: 3, class: 'trimmer' }),
      el(
        'g',
        { transform: `translate(${short(cx * U)} ${short(cy * U)})` },
        el('path', { d: ticks.join(''), class: 'trimmer-scale' }),
        el('circle', { r, class: 'rotor' }),
        el(
          'g',
          { transform: `rotate(${short(turned)})` },
          el('path', {
            d: `M-2.2 ${short(r * 0.62)}V${short(-r * 0.5)}L0 ${short(-r * 0.86)}L2.2 ${short(-r * 0.5)}V${short(r * 0.62)}Z`,
            class: 'rotor-slot',
          }),
        ),
      ),
      el(
        'title',
        {},
        `${part.label ?? part.id}, ${kind.title}, ${siFormat(Number(params.ohms), 'Ω')}, set to ${Math.round(wiper * 100)} %`,
      ),
    ),
    box: { ...box, height: row.y + 0.2 - box.y },
  };
};
