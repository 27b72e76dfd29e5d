/** The pulse source: an instrument beside the boards, with its rate, its wave drawn to its duty, and three terminals. */
import { siFormat } from '../../../sim-core/index.ts';
import { U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import type { DrawFace } from './face.ts';
import { Instrument, type Post, terminalsOf } from './instrument.ts';

const [WIDTH, HEIGHT] = [11, 4.4];
/** The window with the wave [pitch], from the case's corner. */
const [SCREEN_X, SCREEN_Y, SCREEN_W, SCREEN_H] = [5.6, 0.7, 4.8, 2.1];
const PERIODS = 2;

export const drawPulseSource: DrawFace = ({ part, params, legs: pins }, { middle }) => {
  const instrument = new Instrument(part, [WIDTH, HEIGHT], middle);
  const { x, y } = instrument.box;
  const posts = pins.map(
    ({ pin }, i): Post => ({
      pin: pin.pin,
      spot: [x + WIDTH - 2 - 2 * (pins.length - 1 - i), instrument.postY],
      look: pin.role === 'ground' ? 'minus' : pin.role === 'supply' ? 'plus' : 'out',
      print: pin.name,
    }),
  );
  const duty = Number(params.duty);
  const period = ((SCREEN_W - 0.8) * U) / PERIODS;
  const swing = 1.1 * U;
  const wave = Array.from({ length: PERIODS }, () => `v${-swing}h${short(period * duty)}v${swing}h${short(period * (1 - duty))}`).join('');
  const level = instrument.line(3.7, 'supply-amps', '');
  let says = '';
  return {
    body: el(
      'g',
      { class: 'clock-generator' },
      instrument.drawCase(),
      instrument.line(1.15, 'supply-name', part.label ?? 'clock generator'),
      instrument.line(2.6, 'supply-volts', siFormat(Number(params.hertz), 'Hz')),
      level,
      el('rect', { x: (x + SCREEN_X) * U, y: (y + SCREEN_Y) * U, width: SCREEN_W * U, height: SCREEN_H * U, rx: 4, class: 'screen' }),
      el('path', { d: `M${(x + SCREEN_X + 0.4) * U} ${(y + SCREEN_Y) * U + (SCREEN_H * U + swing) / 2}${wave}`, class: 'screen-wave' }),
      ...instrument.drawPosts(posts, 'post-name', 0.62),
      el('title', {}, `${part.label ?? part.id}, high for ${Math.round(duty * 100)} % of a period`),
    ),
    box: instrument.box,
    terminals: terminalsOf(posts),
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
