/** A small motor beside the boards: its can from the end, a shaft whose mark stands where the motor turns, its current and its speed. */
import { currentText, siFormat } from '../../../sim-core/index.ts';
import { U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import type { DrawFace } from './face.ts';
import { Instrument, type Post, terminalsOf } from './instrument.ts';

const [WIDTH, HEIGHT] = [11.8, 4.4];
/** The can's middle from the case's corner, its radius and its shaft's [pitch]. */
const [CAN_X, CAN_Y, CAN, SHAFT] = [9.8, 2.2, 1.55, 0.45];

/** "8,900 rpm", and a sign where it turns backwards. */
const turns = (rpm: number): string =>
  Math.abs(rpm) < 1 ? 'stands still' : `${rpm < 0 ? '−' : ''}${Math.round(Math.abs(rpm)).toLocaleString('en')} rpm`;

export const drawDcMotor: DrawFace = ({ part, kind, params }, { middle }) => {
  const instrument = new Instrument(part, [WIDTH, HEIGHT], middle);
  const { x, y } = instrument.box;
  const posts: Post[] = [
    { pin: '-', spot: [x + 4.8, instrument.postY], look: 'minus', print: '−' },
    { pin: '+', spot: [x + 6.8, instrument.postY], look: 'plus', print: '+' },
  ];
  const speed = instrument.line(2.5, 'supply-amps', '');
  const amps = instrument.line(3.6, 'supply-amps', '');
  const mark = el('path', { d: `M0 0V${short(-CAN * 0.8 * U)}`, class: 'rotor-slot shaft-mark' });
  let says = '';
  return {
    body: el(
      'g',
      { class: 'dc-motor' },
      instrument.drawCase(),
      instrument.line(1.3, 'supply-name', `${part.label ?? 'motor'}, ${siFormat(Number(params.volts), 'V')}`),
      speed,
      amps,
      el(
        'g',
        { transform: `translate(${short((x + CAN_X) * U)} ${short((y + CAN_Y) * U)})` },
        el('circle', { r: CAN * U, class: 'lid' }),
        mark,
        el('circle', { r: SHAFT * U, class: 'rotor' }),
      ),
      ...instrument.drawPosts(posts, 'post-sign', 0.52),
      el('title', {}, `${part.label ?? part.id}, ${kind.title}`),
    ),
    box: instrument.box,
    terminals: terminalsOf(posts),
    show({ coils, damage }) {
      const reading = coils.get(part.id);
      const now: readonly string[] = damage.has(part.id)
        ? ['damaged', '']
        : reading
          ? [turns(reading.rpm ?? 0), currentText(reading.amps)]
          : ['', ''];
      if (now.join() === says) return;
      says = now.join();
      speed.textContent = now[0] ?? '';
      amps.textContent = now[1] ?? '';
    },
  };
};
