/** The bench supply: a case beside the boards with its volts, amps, switch, and two posts. */
import type { PlanPart } from '../../../shared/plan.ts';
import { currentText, siFormat, UNSEEN_AMPS } from '../../../sim-core/index.ts';
import { type Box, U } from '../geometry.ts';
import { tappable } from '../press-handlers.ts';
import { el } from '../svg.ts';
import type { DrawFace, FaceActions } from './face.ts';
import { Instrument, type Post, terminalsOf } from './instrument.ts';

const [WIDTH, HEIGHT] = [13, 4.4];

/** "36.4 mA 182 mW" */
const drawnSays = (volts: number, amps: number): string =>
  currentText(amps) + (Math.abs(amps) < UNSEEN_AMPS ? '' : ` ${siFormat(Math.abs(volts * amps), 'W')}`);

export const drawBenchSupply: DrawFace = ({ part, kind, supply, params }, { middle, actions }) => {
  const instrument = new Instrument(part, [WIDTH, HEIGHT], middle);
  const { x } = instrument.box;
  const posts: Post[] = [
    { pin: supply?.minus ?? '-', spot: [x + 10, instrument.postY], look: 'minus', print: '−' },
    { pin: supply?.plus ?? '+', spot: [x + 12, instrument.postY], look: 'plus', print: '+' },
  ];
  const name = part.label ?? kind.title.replace(/^[A-Z](?=[a-z])/, (first) => first.toLowerCase());
  const limit = siFormat(Number(params.amps), 'A');
  const set = supply ? `set to ${siFormat(supply.volts, 'V')}` : '';
  const volts = instrument.line(2.65, 'supply-volts', '0.00 V');
  const amps = instrument.line(3.8, 'supply-amps', '');
  const note = instrument.line(1.15, 'supply-name', `${name}, limit ${limit}`);
  const toggle = drawToggle(part, kind.title, instrument.box, actions);
  let says = '';
  return {
    body: el('g', { class: 'supply' }, instrument.drawCase(), note, volts, amps, ...instrument.drawPosts(posts, 'post-sign', 0.52)),
    over: toggle.root,
    box: instrument.box,
    terminals: terminalsOf(posts),
    show({ supplies }) {
      const reading = supplies.get(part.id);
      if (!reading) return;
      toggle.put(reading.on);
      const v = `${Math.abs(reading.volts).toFixed(2)} V`;
      const a = reading.on ? drawnSays(reading.volts, reading.amps) : set;
      const n = `${name}${reading.limiting ? ` at its limit of ${limit}` : `, limit ${limit}`}`;
      if (says === v + a + n) return;
      says = v + a + n;
      volts.textContent = v;
      amps.textContent = a;
      note.textContent = n;
      note.classList.toggle('limiting', reading.limiting);
    },
  };
};

/** The switch on its case, and where it stands. */
function drawToggle(part: PlanPart, title: string, { x, y }: Box, actions: FaceActions) {
  const word = el('text', { x: (x + 11.3) * U, y: (y + 2.2) * U, class: 'toggle-word', 'aria-hidden': 'true' }, 'off');
  const knob = el('circle', { cx: (x + 10.05) * U, cy: (y + 2.2) * U, r: 0.52 * U, class: 'toggle-knob' });
  const called = `${part.label ?? title} ${part.id}`;
  const root = el(
    'g',
    { class: 'toggle', role: 'switch', 'aria-checked': 'false', 'aria-label': `${called}, off`, 'data-part': part.id },
    el('rect', { x: (x + 8.9) * U, y: (y + 0.9) * U, width: 3.7 * U, height: 2.6 * U, class: 'hit' }),
    el('rect', { x: (x + 9.05) * U, y: (y + 1.2) * U, width: 3.4 * U, height: 2 * U, rx: U, class: 'focus-ring' }),
    el('rect', { x: (x + 9.3) * U, y: (y + 1.45) * U, width: 2.9 * U, height: 1.5 * U, rx: 0.75 * U, class: 'toggle-track' }),
    word,
    knob,
  );
  let on = false;
  const put = (to: boolean) => {
    if (on === to) return;
    on = to;
    root.setAttribute('aria-checked', String(to));
    root.setAttribute('aria-label', `${called}, ${to ? 'on' : 'off'}`);
    knob.setAttribute('transform', to ? `translate(${1.4 * U} 0)` : '');
    word.textContent = to ? 'on' : 'off';
    word.setAttribute('x', String((x + (to ? 10.15 : 11.3)) * U));
  };
  tappable(root, {
    act() {
      put(!on);
      actions.set(part.id, 0, on);
    },
  });
  return { root, put };
}
