/** Diodes: a glass bead that shows its chip, with a dark band at the cathode, and a black body with a light band there. */
import { around, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { betweenHoles } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** What tells the two bodies apart. Sizes in pitches; w, h: the body's on the sheet. */
interface Body {
  readonly size: readonly [long: number, thick: number];
  readonly least: number;
  readonly margin: number;
  draw(w: number, h: number): readonly SVGElement[];
}

const drawBody =
  ({ size: [long, thick], least, margin, draw }: Body): DrawFace =>
  ({ part, kind }, { legs }) => {
    const anode = legs.get('1') ?? [0, 0];
    const cathode = legs.get('2') ?? [0, 0];
    const { middle, span, angle, wires } = betweenHoles(anode, cathode);
    const [w, h] = [Math.min(long, Math.max(least, span - 0.4)) * U, thick * U];
    return {
      body: el(
        'g',
        { class: 'diode' },
        ...wires,
        el('g', { transform: `translate(${short(middle[0] * U)} ${short(middle[1] * U)}) rotate(${short(angle)})` }, ...draw(w, h)),
        el('title', {}, `${part.label ?? part.id}, ${kind.title}, band at the cathode`),
      ),
      box: around([anode, cathode], margin),
    };
  };

/** Body 4.0 × 1.9 mm (from memory). */
export const drawDiode = drawBody({
  size: [1.58, 0.74],
  least: 0.8,
  margin: 0.4,
  draw: (w, h) => [
    el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: h / 2.2, class: 'bead' }),
    el('path', { d: `M${-w / 2 + 3} 0H-3M3 0H${w / 2 - 3}`, class: 'bead-post' }),
    el('rect', { x: -3, y: -2.6, width: 6, height: 5.2, class: 'bead-chip' }),
    el('rect', { x: w * 0.24, y: -h / 2, width: w * 0.15, height: h, class: 'bead-band' }),
    el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: h / 2.2, class: 'bead-edge' }),
    el('path', { d: `M${-w / 2 + 5} ${-h / 2 + 2.6}H${w * 0.16}`, class: 'bead-shine' }),
  ],
});

/** Body 5.2 × 2.7 mm (from memory). */
export const drawRectifierDiode = drawBody({
  size: [2.05, 1.06],
  least: 0.9,
  margin: 0.5,
  draw: (w, h) => [
    el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: 2.5, class: 'epoxy' }),
    el('rect', { x: w * 0.26, y: -h / 2, width: w * 0.12, height: h, class: 'rectifier-band' }),
    el('path', { d: `M${-w / 2 + 4} ${-h / 2 + 3.4}H${w * 0.2}`, class: 'epoxy-edge' }),
  ],
});
