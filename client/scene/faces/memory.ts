/** A memory chip: its pins by name, what it is, how it keeps what it holds, and what it is doing. */
import { type ChipState, partlyHex, partlyHexAddress } from '../../../sim-core/index.ts';
import { type Box, U } from '../geometry.ts';
import { openable } from '../press-handlers.ts';
import { el, short } from '../svg.ts';
import type { DrawFace } from './face.ts';
import { KEEPING_MARKS, WINDOWED } from './function-marks.ts';
import { chipHandle, pinName, rowPackage } from './row-package.ts';

/** 'reading' and '0x00B → 55' */
function doingSays(state: ChipState): readonly [doing: string, at: string] {
  const at = state.address ? partlyHexAddress(state.address) : '';
  if (state.doing === 'reading') return ['reading', `${at}${state.data ? ` → ${partlyHex(state.data, 2)}` : ''}`];
  if (state.doing === 'storing' || state.doing === 'ready to write') return [state.doing, at];
  return [state.doing, ''];
}

/** Of the window 8 mm across (from memory): its rim, the quartz, and the chip behind it. */
function quartzWindow(cx: number, cy: number): SVGGElement {
  const grid = Array.from({ length: 5 }, (_, i) => `M-8.4 ${short(-5 + 2.5 * i)}h16.8`).join('');
  return el(
    'g',
    { class: 'quartz', transform: `translate(${cx} ${cy})` },
    el('circle', { r: 27, class: 'quartz-rim' }),
    el('circle', { r: 23, class: 'quartz-glass' }),
    el('path', { d: `M-10 -7h20v14h-20z${grid}M0 -7v14`, class: 'quartz-chip' }),
    el('path', { d: 'M-19 -8A21 21 0 0 1 -6 -20', class: 'quartz-shine' }),
  );
}

/** Where the lines of print stand: across the middle, or left and right of a window. */
function printOn(box: Box, windowed: boolean) {
  const [cx, cy] = [(box.x + box.width / 2) * U, (box.y + box.height / 2) * U];
  if (!windowed) return { id: [cx, cy - 21], title: [[cx, cy - 2]], doing: [[cx, cy + 17]] } as const;
  const [left, right] = [cx - (box.width * U) / 4 - 9, cx + (box.width * U) / 4 + 12];
  return {
    id: [left, cy - 19],
    title: [
      [left, cy - 1],
      [left, cy + 18],
    ],
    doing: [
      [right, cy - 2],
      [right, cy + 14],
    ],
  } as const;
}

export const drawMemory: DrawFace = ({ part, kind, legs: pins }, { legs, actions }) => {
  const { box, parts, notchAtLeft } = rowPackage(legs);
  const windowed = WINDOWED.has(kind.id);
  const print = printOn(box, windowed);
  const text = (at: readonly number[] | undefined, name: string, says = '') => el('text', { x: at?.[0], y: at?.[1], class: name }, says);
  const [whole = kind.title] = kind.title.split(',');
  const [, keeps = whole, size = ''] = /^(.*?)\s+(\d+K × 8)$/.exec(whole) ?? [];
  const lines = windowed ? [keeps, size] : [whole];
  const doing = print.doing.map((at) => text(at, windowed ? 'chip-doing beside' : 'chip-doing'));
  const mark = KEEPING_MARKS[kind.id];
  const [cx, cy] = [(box.x + box.width / 2) * U, (box.y + box.height / 2) * U];
  const markX = notchAtLeft ? (box.x + 1.42) * U : (box.x + box.width - 1.42) * U;
  let says = '';
  const called = `${part.label ? `${part.label} ` : ''}${part.id}, ${kind.title}`;
  const body = el(
    'g',
    { class: 'chip memory-chip' },
    ...parts,
    ...pins.map(({ pin }) => pinName(pin.name, legs.get(pin.pin) ?? [0, 0], box)),
    ...(windowed ? [quartzWindow(cx, cy)] : []),
    ...(mark ? [el('path', { d: mark, class: 'function-mark keeping', transform: `translate(${short(markX)} ${short(cy - 6)})` })] : []),
    ...lines.map((line, i) => text(print.title[i], windowed ? 'chip-title beside' : 'chip-title', line)),
    ...doing,
    text(print.id, 'chip-id', part.label ?? part.id),
    el('title', {}, kind.title),
  );
  const over = chipHandle(box, called);
  openable(body, over, () => actions.open(part.id));
  return {
    body,
    over,
    box,
    show({ chips, damage }) {
      const chip = chips.get(part.id);
      // one with a burnt pin goes on, one that is gone has no reading
      const next = chip ? doingSays(chip.state) : ([damage.has(part.id) ? 'damaged' : '', ''] as const);
      if (next.join() === says) return;
      says = next.join();
      over.setAttribute('aria-label', `${called}${next[0] ? `, ${next.filter(Boolean).join(' ')}` : ''}`);
      if (windowed) for (const [i, line] of doing.entries()) line.textContent = next[i] ?? '';
      else if (doing[0]) doing[0].textContent = next.filter(Boolean).join(' ');
    },
  };
};
