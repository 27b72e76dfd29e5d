/** Small names beside parts that stand close: each can be read, keeps off words that stand already, and gives up its value before it is left out. */
import { expect, test } from 'vitest';
import { overlap } from '../../client/scene/geometry.ts';
import { type Label, type LabelRequest, placeLabels } from '../../client/scene/label-placement.ts';

const BOARD = { x: 0, y: 0, width: 65, height: 22 };
const resistors = (count: number, pitch: number): LabelRequest[] =>
  Array.from({ length: count }, (_, i) => ({
    id: `R${i + 1}`,
    text: `R${i + 1} 10 kΩ`,
    short: `R${i + 1}`,
    about: { x: 3 + i * pitch, y: 5, width: 0.9, height: 2.5 },
    look: 'part-name' as const,
    places: [
      [0, 1.6],
      [0, -1.6],
    ],
  }));
const place = (wishes: readonly LabelRequest[], writing: Label['box'][] = []) =>
  placeLabels(wishes, { bodies: wishes.map((w) => w.about), writing, busy: [], boards: [BOARD] }, 2);
const shared = (labels: readonly Label[], others: Label['box'][]): number =>
  labels.reduce((most, l, i) => Math.max(most, ...[...others, ...labels.slice(0, i).map((o) => o.box)].map((b) => overlap(l.box, b))), 0);

test('names with room have their values', () => {
  expect(place(resistors(5, 3)).map((l) => l.text)).toEqual(['R1 10 kΩ', 'R2 10 kΩ', 'R3 10 kΩ', 'R4 10 kΩ', 'R5 10 kΩ']);
});

test('names in a dense row lose values first, then go; none lies on another', () => {
  const labels = place(resistors(8, 1));
  const shown = labels.filter((l) => l.text !== '');
  expect(shown.length).toBeGreaterThan(3);
  expect(labels.some((l) => l.text === l.request.short)).toBe(true);
  expect(shared(shown, [])).toBeLessThan(0.06);
});

test('names keep off words beside the poles of a switch', () => {
  const poles = Array.from({ length: 8 }, (_, i) => ({ x: 3 + i, y: 7.6, width: 0.6, height: 2.4 }));
  const shown = place(resistors(8, 1), poles).filter((l) => l.text !== '');
  expect(shown.length).toBeGreaterThan(0);
  expect(shared(shown, poles)).toBeLessThan(0.06);
});
