/** The pulse source: an instrument beside the boards, with its rate, its wave drawn to its duty, and three terminals. */
import { siFormat } from '../../../sim-core/index.ts';
import type { Spot } from '../geometry.ts';
import { U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import type { DrawFace } from './face.ts';

const [WIDTH, HEIGHT] = [11, 4.4];
/** The window with the wave [pitch], from the case's corner. */
const [SCREEN_X, SCREEN_Y, SCREEN_W, SCREEN_H] = [5.6, 0.7, 4.8, 2.1];
const PERIODS = 2;

export const drawPulseSource: DrawFace = ({ part, params, legs: pins }, { middle }) => {
  const [x, y] = part.spot ?? [0, 0];
  const above = y + HEIGHT / 2 < middle[1];
  const postY = above ? y + HEIGHT : y;
  const posts = new Map<string, Spot>(pins.map(({ pin }, i) => [pin.pin, [x + WIDTH - 2 - 2 * (pins.length - 1 - i), postY]]));
  const duty = Number(params.duty);
  const period = ((SCREEN_W - 0.8) * U) / PERIODS;
  const swing = 1.1 * U;
  const wave = Array.from({ length: PERIODS }, () => `v${-swing}h${short(period * duty)}v${swing}h${short(period * (1 - duty))}`).join('');
  const level = el('text', { x: (x + 0.7) * U, y: (y + 3.7) * U, class: 'supply-amps' }, '');
  let says = '';
  return {
    body: el(
      'g',
      { class: 'clock-generator' },
      el('rect', { x: x * U, y: y * U, width: WIDTH * U, height: HEIGHT * U, rx: 9, class: 'supply-case' }),
      el('text', { x: (x + 0.7) * U, y: (y + 1.15) * U, class: 'supply-name' }, part.label ?? 'clock generator'),
      el('text', { x: (x + 0.7) * U, y: (y + 2.6) * U, class: 'supply-volts' }, siFormat(Number(params.hertz), 'Hz')),
      level,
      el('rect', { x: (x + SCREEN_X) * U, y: (y + SCREEN_Y) * U, width: SCREEN_W * U, height: SCREEN_H * U, rx: 4, class: 'screen' }),
      el('path', { d: `M${(x + SCREEN_X + 0.4) * U} ${(y + SCREEN_Y) * U + (SCREEN_H * U + swing) / 2}${wave}`, class: 'screen-wave' }),
      ...[...posts].map(([pin, [px, py]], i) =>
        el(
          'g',
          {
            class: pins[i]?.pin.role === 'ground' ? 'post post-minus' : pins[i]?.pin.role === 'supply' ? 'post post-plus' : 'post post-out',
            'data-part': part.id,
            'data-pin': pin,
          },
          el('circle', { cx: px * U, cy: py * U, r: 8 }),
          el('circle', { cx: px * U, cy: py * U, r: 3.2, class: 'post-hole' }),
          el('text', { x: px * U, y: (py + (above ? -0.62 : 1)) * U, class: 'post-name', 'aria-hidden': 'true' }, pins[i]?.pin.name ?? pin),
        ),
      ),
      el('title', {}, `${part.label ?? part.id}, high for ${Math.round(duty * 100)} % of a period`),
    ),
    box: { x, y, width: WIDTH, height: HEIGHT },
    terminals: posts,
    show({ chips, damage }) {
      const chip = chips.get(part.id);
      const out = chip?.pins.find((p) => p.pin === pins.at(-1)?.pin.pin);
      const now = damage.has(part.id)
        ? 'damaged'
        : chip?.state.doing === 'working' && out
          ? `${Math.abs(out.volts) < 5e-3 ? '0' : out.volts.toFixed(2)} V`
          : (chip?.state.doing ?? '');
      if (now === says) return;
      says = now;
      level.textContent = now;
    },
  };
};
