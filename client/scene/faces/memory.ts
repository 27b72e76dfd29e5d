/** A memory chip: its pins by name, what it is, and what it is doing. */
import { addressHex, type ChipState, partlyHex } from '../../core.ts';
import { U } from '../geometry.ts';
import { el } from '../svg.ts';
import type { DrawFace } from './face.ts';
import { pinName, rowPackage } from './row-package.ts';

/** "reading 0x00B → 55" */
function doingSays(state: ChipState): string {
  const at = state.address ? ` 0x${addressHex(state.address)}` : '';
  if (state.doing === 'reading') return `reading${at}${state.data ? ` → ${partlyHex(state.data, 2)}` : ''}`;
  if (state.doing === 'storing' || state.doing === 'ready to write') return `${state.doing}${at}`;
  return state.doing;
}

export const drawMemory: DrawFace = ({ part, kind, legs: pins }, { legs }) => {
  const { box, parts } = rowPackage(legs);
  const [cx, cy] = [(box.x + box.width / 2) * U, (box.y + box.height / 2) * U];
  const doing = el('text', { x: cx, y: cy + 17, class: 'chip-doing' }, 'no supply');
  const [title = kind.title] = kind.title.split(',');
  let says = '';
  return {
    body: el(
      'g',
      { class: 'chip' },
      ...parts,
      ...pins.map(({ pin }) => pinName(pin.name, legs.get(pin.pin) ?? [0, 0], box)),
      el('text', { x: cx, y: cy - 2, class: 'chip-title' }, title),
      doing,
      el('text', { x: cx, y: cy - 21, class: 'chip-id' }, part.label ?? part.id),
    ),
    box,
    show({ chips, damage }) {
      const chip = chips.get(part.id);
      const next = damage.has(part.id) ? 'damaged' : chip ? doingSays(chip.state) : '';
      if (next === says) return;
      says = next;
      doing.textContent = next;
    },
  };
};
