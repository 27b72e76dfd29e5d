/** An electrolytic capacitor seen from above: a can with a scored top, a light stripe at minus, and what is printed on it. */
import { siFormat } from '../../../sim-core/index.ts';
import { around, type Spot, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import { betweenHoles } from './bent-leg.ts';
import type { DrawFace } from './face.ts';

/** Diameter of the can [pitch] by what it stores at its voltage: 5 to 10 mm, from memory. */
const acrossOf = (farads: number, volts: number) => {
  const joules = farads * volts * volts;
  return joules < 5e-3 ? 1.97 : joules < 50e-3 ? 2.48 : joules < 0.2 ? 3.15 : 3.94;
};

export const drawElectrolytic: DrawFace = ({ part, params, kind }, { legs }) => {
  const plus = legs.get(kind.polar?.plus ?? '1') ?? [0, 0];
  const minus = legs.get(kind.polar?.minus ?? '2') ?? [0, 0];
  const { middle, angle, wires } = betweenHoles(plus, minus);
  const [farads, volts] = [Number(params.farads), Number(params.volts)];
  const r = (acrossOf(farads, volts) / 2) * U;
  // the stripe is a segment of the circle on the side of minus
  const cut = 0.62 * r;
  const half = Math.sqrt(r * r - cut * cut);
  const inner = 0.72 * r;
  const size = Math.min(9, 0.4 * r);
  return {
    body: el(
      'g',
      { class: 'electrolytic' },
      ...wires,
      el(
        'g',
        { transform: `translate(${short(middle[0] * U)} ${short(middle[1] * U)})` },
        el('circle', { r: short(r), class: 'can-side' }),
        el(
          'g',
          { transform: `rotate(${short(angle)})` },
          el('path', {
            d: `M${short(cut)} ${short(-half)}A${short(r)} ${short(r)} 0 0 1 ${short(cut)} ${short(half)}Z`,
            class: 'can-stripe',
          }),
          el('path', { d: `M${short((cut + r) / 2)} -3v6`, class: 'can-minus' }),
        ),
        el('circle', { r: short(inner), class: 'can-top' }),
        el('path', {
          d: `M${short(-inner * 0.62)} 0H${short(inner * 0.62)}M0 ${short(-inner * 0.62)}V${short(inner * 0.62)}`,
          class: 'can-score',
        }),
        el('circle', { r: short(r), class: 'can-edge' }),
      ),
      el('path', { d: plusAt(plus, minus), class: 'can-plus' }),
      el('title', {}, `${part.label ?? part.id}, ${siFormat(farads, 'F')}, ${siFormat(volts, 'V')}`),
    ),
    over: el(
      'g',
      { class: 'can-print', 'aria-hidden': 'true', transform: `translate(${short(middle[0] * U)} ${short(middle[1] * U)})` },
      el('text', { y: short(-0.12 * r), style: `font-size:${short(size)}px` }, siFormat(farads, 'F').replace('F', '').replace(/\s+$/, '')),
      el('text', { y: short(0.12 * r + size * 0.72), style: `font-size:${short(size)}px` }, siFormat(volts, 'V').replace(' ', '')),
    ),
    box: around([middle], r / U),
  };
};

/** A small + beyond the plus leg, away from the can. */
function plusAt(plus: Spot, minus: Spot): string {
  const long = Math.hypot(plus[0] - minus[0], plus[1] - minus[1]) || 1;
  const [x, y] = [plus[0] + (0.62 * (plus[0] - minus[0])) / long, plus[1] + (0.62 * (plus[1] - minus[1])) / long];
  return `M${short(x * U - 4)} ${short(y * U)}h8M${short(x * U)} ${short(y * U - 4)}v8`;
}
