/** An axial resistor with its value in IEC 60062 colour bands. */
import { colourBands, siFormat } from '../../../sim-core/index.ts';
import { around, U } from '../geometry.ts';
import { el } from '../svg.ts';
import { betweenHoles, readable } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** The standard's colours as inks of this drawing. */
const INKS: Readonly<Record<string, string>> = {
  black: '#26242b',
  brown: '#7a4a2b',
  red: '#b5382c',
  orange: '#e0842a',
  yellow: '#e5c13a',
  green: '#3f8a56',
  blue: '#3565a8',
  violet: '#77509c',
  grey: '#8b8a8c',
  white: '#f7f5ef',
  gold: '#b88a2c',
  silver: '#b7b9bd',
  pink: '#e79aa5',
};

/** A quarter-watt film body is 6.3 × 2.3 mm: 2.5 × 0.9 pitches (from memory). A short span bends the body's ends in. */
export const drawResistor: DrawFace = ({ part, params }, { legs }) => {
  const a = legs.get('1') ?? [0, 0];
  const b = legs.get('2') ?? [0, 0];
  const { middle, span, angle, wires } = betweenHoles(a, b);
  const length = Math.min(2.5, Math.max(0.9, span - 0.7));
  const w = length * U;
  const end = Math.min(0.52 * U, w / 4);
  const [thick, thin] = [0.42 * U, 0.34 * U];
  const outline = `M${-w / 2} ${-thick + 3}q0 -3 3 -3h${end - 5}q2 0 4 ${thick - thin}h${w - 2 * end - 4}q2 ${thin - thick} 4 ${thin - thick}h${end - 5}q3 0 3 3v${2 * thick - 6}q0 3 -3 3h${5 - end}q-2 0 -4 ${thin - thick}h${-(w - 2 * end - 4)}q-2 ${thick - thin} -4 ${thick - thin}h${5 - end}q-3 0 -3 -3z`;
  const bands = colourBands(Number(params.ohms), 5);
  // the tolerance band stands apart from the rest, so that the reading end is known
  const first = -w / 2 + end * 0.55;
  const step = Math.min(0.36 * U, (w * 0.55) / Math.max(1, bands.length - 2));
  const drawn = bands.map((colour, i) => {
    const last = i === bands.length - 1;
    const x = last ? w / 2 - end * 0.55 : first + i * step;
    const tall = i === 0 || last ? thick : thin;
    return el('rect', { x: x - 1.9, y: -tall, width: 3.8, height: 2 * tall, fill: INKS[colour] ?? colour });
  });
  return {
    body: el(
      'g',
      { class: 'resistor' },
      ...wires,
      el(
        'g',
        { transform: `translate(${middle[0] * U} ${middle[1] * U}) rotate(${readable(angle)})` },
        el('path', { d: outline, class: 'resistor-body' }),
        ...drawn,
        el('path', { d: outline, class: 'resistor-edge' }),
      ),
      el('title', {}, `${part.label ?? part.id}, ${siFormat(Number(params.ohms), 'Ω')}: ${bands.join(' ')}`),
    ),
    box: around([a, b], 0.45),
  };
};
