/** The level letter at every pin of a chip that has one, on the ramp's colour, and the pin's number and voltage beside it. */
import { siFormat } from '../../sim-core/index.ts';
import type { PlacedPart } from '../state/bench-model.ts';
import type { Face, Sight } from './faces/face.ts';
import { type Spot, U } from './geometry.ts';
import { el } from './svg.ts';
import { letterOn, voltageColour, voltageStep } from './voltage-colour.ts';

export interface PinLevels {
  readonly root: SVGGElement;
  show(sight: Sight): void;
  /** the numbers of its pins' nets, which other edits change */
  join(now: PlacedPart): void;
}

export function drawPinLevels({ part, legs: pins }: PlacedPart, legs: ReadonlyMap<string, Spot>, face: Face): PinLevels {
  const middle = face.box.y + face.box.height / 2;
  const marks = pins.map(({ pin, net }) => {
    const [x, y] = legs.get(pin.pin) ?? [0, 0];
    const disc = el('circle', { cx: x * U, cy: y * U, r: 7.8, class: 'level-disc' });
    const letter = el('text', { x: x * U, y: y * U + 3.9, class: 'level-letter' }, '');
    const number = el('text', { x: x * U, y: (y + (y < middle ? -0.5 : 0.76)) * U, class: 'pin-number near' }, pin.pin);
    const figure = el('text', { x: x * U, y: (y + (y < middle ? -0.86 : 1.1)) * U, class: 'pin-volts' }, '');
    const root = el('g', { class: 'level', 'data-net': net, 'data-part': part.id, 'data-pin': pin.pin }, disc, letter, number, figure);
    let before = '';
    let read = '';
    return {
      root,
      put(volts: number, level: string | null, sight: Sight) {
        const says = Math.abs(volts) < 5e-3 ? '0 V' : siFormat(volts, 'V');
        if (says !== read) {
          read = says;
          figure.textContent = says;
        }
        const index = voltageStep(volts, sight.volts);
        const now = `${level}${index}${sight.dark}`;
        if (now === before) return;
        before = now;
        const colour = voltageColour(index, sight.dark);
        disc.style.fill = level === 'Z' || level === null ? '' : colour;
        disc.style.stroke = level === 'Z' ? colour : '';
        letter.style.fill = level === 'Z' ? '' : letterOn(index, sight.dark);
        letter.textContent = level ?? '';
        root.dataset.level = level ?? 'none';
      },
    };
  });
  return {
    root: el('g', { class: 'levels' }, ...marks.map((m) => m.root)),
    join(now) {
      for (const [i, mark] of marks.entries()) {
        const net = String(now.legs[i]?.net ?? -1);
        if (mark.root.dataset.net !== net) mark.root.dataset.net = net;
      }
    },
    show(sight) {
      const chip = sight.chips.get(part.id);
      // a damaged chip reads nothing any more
      for (const [i, mark] of marks.entries()) mark.put(chip?.pins[i]?.volts ?? 0, chip?.pins[i]?.level ?? null, sight);
    },
  };
}
