/** A crystal oscillator in its metal can: a lid with a rim, one square corner at pin 1, and its frequency. */
import { siFormat } from '../../../sim-core/index.ts';
import { around, U } from '../geometry.ts';
import { el, short } from '../svg.ts';
import type { DrawFace } from './face.ts';

/** The can reaches past its legs by a pitch along and across (20.8 × 13.2 mm, from memory). */
const PAST = 1;

export const drawCrystalCan: DrawFace = ({ part, params, kind, legs: pins }, { legs }) => {
  const box = around([...legs.values()], PAST);
  const one = legs.get(pins[0]?.pin.pin ?? '') ?? [0, 0];
  const [x, y, w, h] = [box.x * U, box.y * U, box.width * U, box.height * U];
  const [cx, cy] = [x + w / 2, y + h / 2];
  const [left, low] = [one[0] * U < cx, one[1] * U > cy];
  const lid = (by: number, round: number) => {
    const at = (isLeft: boolean, isLow: boolean) => (isLeft === left && isLow === low ? 1.5 : round);
    const [l, t, r, b] = [x + by, y + by, x + w - by, y + h - by];
    const [lt, rt, rb, lb] = [at(true, false), at(false, false), at(false, true), at(true, true)].map((c) => Math.max(1, c - by));
    return `M${short(l + (lt ?? 1))} ${short(t)}H${short(r - (rt ?? 1))}q${rt} 0 ${rt} ${rt}V${short(b - (rb ?? 1))}q0 ${rb} -${rb} ${rb}H${short(l + (lb ?? 1))}q-${lb} 0 -${lb} -${lb}V${short(t + (lt ?? 1))}q0 -${lt} ${lt} -${lt}z`;
  };
  const doing = el('text', { x: cx, y: cy + 17, class: 'can-doing' }, '');
  return {
    body: el(
      'g',
      { class: 'crystal' },
      ...[...legs.values()].map(([lx, ly]) => el('circle', { cx: lx * U, cy: ly * U, r: 3.4, class: 'can-foot' })),
      el('path', { d: lid(0, 13), class: 'lid' }),
      el('path', { d: lid(4, 13), class: 'lid-rim' }),
      el('circle', { cx: short(x + (left ? 11 : w - 11)), cy: short(y + (low ? h - 11 : 11)), r: 2.2, class: 'lid-dot' }),
      el('text', { x: cx, y: cy - 2, class: 'can-title' }, siFormat(Number(params.hertz), 'Hz')),
      doing,
      el('text', { x: cx, y: cy - 24, class: 'can-id' }, part.label ?? part.id),
      ...pins.map(({ pin }) => {
        const [px, py] = legs.get(pin.pin) ?? [0, 0];
        return el('text', { x: px * U, y: py * U + (py * U < cy ? 17 : -10), class: 'can-pin' }, pin.name);
      }),
      el('title', {}, kind.title),
    ),
    box,
    show({ chips, damage }) {
      const state = chips.get(part.id)?.state.doing;
      const says = damage.has(part.id) ? 'damaged' : state === 'working' ? 'swinging' : (state ?? '');
      if (doing.textContent !== says) doing.textContent = says;
    },
  };
};
