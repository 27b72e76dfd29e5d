/** A logic chip: its pins by name, the mark of what it does, its short name, and what it is doing. */
import { U } from '../geometry.ts';
import { openable } from '../press-handlers.ts';
import { el, short } from '../svg.ts';
import type { DrawFace } from './face.ts';
import { FUNCTION_MARKS } from './function-marks.ts';
import { chipHandle, pinName, rowPackage } from './row-package.ts';

/** Largest letters of the name, from near and where no pin's name stands beside it, and of the line below it [drawing units]; a letter's width as a part of its size. */
const [NAME, NAME_ALONE, LINE] = [11.6, 16, 7.6];
const [SANS, MONO] = [0.57, 0.6];
const MARK = 22;

export const drawLogicChip: DrawFace = ({ part, kind, params, legs: pins }, { legs, actions }) => {
  const { box, parts, notchAtLeft } = rowPackage(legs);
  const mark = FUNCTION_MARKS[kind.id];
  const name = mark?.name ?? kind.title.split(',')[0] ?? kind.title;
  const [left, right] = [box.x * U + (notchAtLeft ? 15 : 6), (box.x + box.width) * U - (notchAtLeft ? 6 : 15)];
  const cy = (box.y + box.height / 2) * U;
  const from = left + (mark ? MARK + 4 : 0);
  const room = right - from;
  const [near, alone] = [NAME, NAME_ALONE].map((most) => Math.min(most, room / (name.length * SANS)));
  const family = typeof params.family === 'string' ? params.family : undefined;
  const line = el('text', { x: short(from + room / 2), y: short(cy + 8.2), class: 'chip-line', style: `font-size:${LINE}px` }, '');
  let says: string | undefined;
  const called = `${part.label ? `${part.label} ` : ''}${part.id}, ${kind.title}`;
  const body = el(
    'g',
    { class: 'chip logic-chip' },
    ...parts,
    ...pins.map(({ pin }) => pinName(pin.name, legs.get(pin.pin) ?? [0, 0], box)),
    ...(mark ? [el('path', { d: mark.d, class: 'function-mark', transform: `translate(${short(left + MARK / 2)} ${short(cy)})` })] : []),
    el(
      'text',
      {
        x: short(from + room / 2),
        y: short(cy - 1.2),
        class: 'chip-name',
        style: `--near:${short(near ?? 0)}px;--alone:${short(alone ?? 0)}px`,
      },
      name,
    ),
    line,
    el('title', {}, `${part.label ?? part.id}, ${kind.title}`),
  );
  const over = chipHandle(box, called);
  openable(body, over, () => actions.open(part.id));
  return {
    body,
    over,
    box,
    title: name,
    show({ chips, damage }) {
      const doing = damage.has(part.id) ? 'damaged' : (chips.get(part.id)?.state.doing ?? '');
      if (doing === says) return;
      says = doing;
      over.setAttribute('aria-label', `${called}${doing ? `, ${doing}` : ''}`);
      const id = part.label ?? part.id;
      const lines = [[id, family, doing], [id, doing], [id]].map((l) => l.filter(Boolean).join(' · '));
      line.textContent = lines.find((l) => l.length * MONO * LINE <= room) ?? id;
    },
  };
};
