/** The bench supply: a case beside the boards with its volts, amps, switch, and two posts. */
import { siFormat } from '../../../sim-core/index.ts';
import type { Spot } from '../geometry.ts';
import { U } from '../geometry.ts';
import { tappable } from '../press-handlers.ts';
import { el } from '../svg.ts';
import type { DrawFace } from './face.ts';

const [WIDTH, HEIGHT] = [13, 4.4];

/** "36.4 mA 182 mW" */
const drawnSays = (volts: number, amps: number): string =>
  Math.abs(amps) < 1e-6 ? '0 mA' : `${siFormat(amps, 'A')} ${siFormat(Math.abs(volts * amps), 'W')}`;

export const drawBenchSupply: DrawFace = ({ part, supply, params }, { middle, hand }) => {
  const [x, y] = part.spot ?? [0, 0];
  const above = y + HEIGHT / 2 < middle[1];
  const postY = above ? y + HEIGHT : y;
  const posts = new Map<string, Spot>([
    [supply?.minus ?? '-', [x + 9.4, postY]],
    [supply?.plus ?? '+', [x + 11.4, postY]],
  ]);
  const limit = siFormat(Number(params.amps), 'A');
  const set = supply ? `set to ${siFormat(supply.volts, 'V')}` : '';
  const volts = el('text', { x: (x + 0.7) * U, y: (y + 2.65) * U, class: 'supply-volts' }, '0.00 V');
  const amps = el('text', { x: (x + 0.7) * U, y: (y + 3.8) * U, class: 'supply-amps' }, '');
  const note = el('text', { x: (x + 0.7) * U, y: (y + 1.15) * U, class: 'supply-name' }, `${part.label ?? 'bench supply'}, limit ${limit}`);
  const word = el('text', { x: (x + 11.3) * U, y: (y + 2.2) * U, class: 'toggle-word', 'aria-hidden': 'true' }, 'off');
  const knob = el('circle', { cx: (x + 10.05) * U, cy: (y + 2.2) * U, r: 0.52 * U, class: 'toggle-knob' });
  const called = `${part.label ?? 'Bench supply'} ${part.id}`;
  const toggle = el(
    'g',
    { class: 'toggle', role: 'switch', 'aria-checked': 'false', 'aria-label': `${called}, off`, 'data-part': part.id },
    el('rect', { x: (x + 8.9) * U, y: (y + 0.9) * U, width: 3.7 * U, height: 2.6 * U, class: 'hit' }),
    el('rect', { x: (x + 9.05) * U, y: (y + 1.2) * U, width: 3.4 * U, height: 2 * U, rx: U, class: 'focus-ring' }),
    el('rect', { x: (x + 9.3) * U, y: (y + 1.45) * U, width: 2.9 * U, height: 1.5 * U, rx: 0.75 * U, class: 'toggle-track' }),
    word,
    knob,
  );
  let on = false;
  let says = '';
  const put = (to: boolean) => {
    on = to;
    toggle.setAttribute('aria-checked', String(to));
    toggle.setAttribute('aria-label', `${called}, ${to ? 'on' : 'off'}`);
    knob.setAttribute('transform', to ? `translate(${1.4 * U} 0)` : '');
    word.textContent = to ? 'on' : 'off';
    word.setAttribute('x', String((x + (to ? 10.15 : 11.3)) * U));
  };
  tappable(toggle, {
    act() {
      put(!on);
      hand.set(part.id, 0, on);
    },
  });
  return {
    body: el(
      'g',
      { class: 'supply' },
      el('rect', { x: x * U, y: y * U, width: WIDTH * U, height: HEIGHT * U, rx: 9, class: 'supply-case' }),
      note,
      volts,
      amps,
      toggle,
      ...[...posts].map(([pin, [px, py]]) =>
        el(
          'g',
          { class: pin === supply?.plus ? 'post post-plus' : 'post post-minus', 'data-part': part.id, 'data-pin': pin },
          el('circle', { cx: px * U, cy: py * U, r: 8 }),
          el('circle', { cx: px * U, cy: py * U, r: 3.2, class: 'post-hole' }),
          el(
            'text',
            { x: px * U, y: (py + (above ? -0.52 : 1)) * U, class: 'post-sign', 'aria-hidden': 'true' },
            pin === supply?.plus ? '+' : '−',
          ),
        ),
      ),
    ),
    box: { x, y, width: WIDTH, height: HEIGHT },
    terminals: posts,
    show({ supplies }) {
      const reading = supplies.get(part.id);
      if (!reading) return;
      if (reading.on !== on) put(reading.on);
      const v = `${Math.abs(reading.volts).toFixed(2)} V`;
      const a = reading.on ? drawnSays(reading.volts, reading.amps) : set;
      const n = `${part.label ?? 'bench supply'}${reading.limiting ? ` at its limit of ${limit}` : `, limit ${limit}`}`;
      if (says === v + a + n) return;
      says = v + a + n;
      volts.textContent = v;
      amps.textContent = a;
      note.textContent = n;
      note.classList.toggle('limiting', reading.limiting);
    },
  };
};
