/** A ceramic capacitor: a flat pill, marked with two figures and a power of ten in picofarads. */
import { siFormat } from '../../../sim-core/index.ts';
import { around, U } from '../geometry.ts';
import { el } from '../svg.ts';
import { betweenHoles, readable } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** 100 nF is 10 × 10⁴ pF: "104". Below 10 pF the figure itself. Common practice, no source. */
function capacitorCode(farads: number): string {
  const picofarads = Number((farads * 1e12).toPrecision(2));
  if (picofarads < 10) return String(picofarads);
  const power = Math.floor(Math.log10(picofarads) + 1e-9) - 1;
  return `${Math.round(picofarads / 10 ** power)}${power}`;
}

export const drawCapacitor: DrawFace = ({ part, params }, { legs }) => {
  const a = legs.get('1') ?? [0, 0];
  const b = legs.get('2') ?? [0, 0];
  const { middle, span, angle, wires } = betweenHoles(a, b);
  const [w, h] = [Math.max(1.5, Math.min(2, span + 0.5)) * U, 0.95 * U];
  return {
    body: el(
      'g',
      { class: 'capacitor' },
      ...wires,
      el(
        'g',
        { transform: `translate(${middle[0] * U} ${middle[1] * U}) rotate(${readable(angle)})` },
        el('rect', { x: -w / 2, y: -h / 2, width: w, height: h, rx: h / 2, class: 'capacitor-body' }),
        el('text', { y: 3, class: 'capacitor-code' }, capacitorCode(Number(params.farads))),
      ),
      el('title', {}, `${part.label ?? part.id}, ${siFormat(Number(params.farads), 'F')}`),
    ),
    box: around([a, b], 0.5),
  };
};
