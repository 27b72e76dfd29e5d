/** Diodes: a glass bead that shows its chip, with a dark band at the cathode, and a black body with a light band there. */
import { around, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { betweenHoles } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** Body 4.0 × 1.9 mm (from memory), in pitches. */
const [LONG, THICK] = [1.58, 0.74];

export const drawDiode: DrawFace = ({ part, kind }, { legs }) => {
  const anode = legs.get('1') ?? [0, 0];
  const cathode = legs.get('2') ?? [0, 0];
  const { middle, span, angle, wires } = betweenHoles(anode, cathode);
  const [w, h] = [Math.min(LONG, Math.max(0.8, span - 0.4)) * U, THICK * U];
  return {
    body: el(
      'g',
      { class: 'diode' },
      ...wires,
      el(
        'g',
        { transform: `translate(${short(middle[0] * U)} ${short(middle[1] * U)}) rotate(${short(angle)})` },
        el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: h / 2.2, class: 'bead' }),
        el('path', { d: `M${-w / 2 + 3} 0H-3M3 0H${w / 2 - 3}`, class: 'bead-post' }),
        el('rect', { x: -3, y: -2.6, width: 6, height: 5.2, class: 'bead-chip' }),
        el('rect', { x: w * 0.24, y: -h / 2, width: w * 0.15, height: h, class: 'bead-band' }),
        el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: h / 2.2, class: 'bead-edge' }),
        el('path', { d: `M${-w / 2 + 5} ${-h / 2 + 2.6}H${w * 0.16}`, class: 'bead-shine' }),
      ),
      el('title', {}, `${part.label ?? part.id}, ${kind.title}, band at the cathode`),
    ),
    box: around([anode, cathode], 0.4),
  };
};

/** Body 5.2 × 2.7 mm (from memory), in pitches. */
const [RECTIFIER_LONG, RECTIFIER_THICK] = [2.05, 1.06];

export const drawRectifierDiode: DrawFace = ({ part, kind }, { legs }) => {
  const anode = legs.get('1') ?? [0, 0];
  const cathode = legs.get('2') ?? [0, 0];
  const { middle, span, angle, wires } = betweenHoles(anode, cathode);
  const [w, h] = [Math.min(RECTIFIER_LONG, Math.max(0.9, span - 0.4)) * U, RECTIFIER_THICK * U];
  return {
    body: el(
      'g',
      { class: 'diode' },
      ...wires,
      el(
        'g',
        { transform: `translate(${short(middle[0] * U)} ${short(middle[1] * U)}) rotate(${short(angle)})` },
        el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: 2.5, class: 'epoxy' }),
        el('rect', { x: w * 0.26, y: -h / 2, width: w * 0.12, height: h, class: 'rectifier-band' }),
        el('path', { d: `M${-w / 2 + 4} ${-h / 2 + 3.4}H${w * 0.2}`, class: 'epoxy-edge' }),
      ),
      el('title', {}, `${part.label ?? part.id}, ${kind.title}, band at the cathode`),
    ),
    box: around([anode, cathode], 0.5),
  };
};
