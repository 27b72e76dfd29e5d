/** A 7-segment display, 0.56 inch: seven bars and a point, each an LED of its own. */
import { around, U } from '../geometry.ts';
import { el, through } from '../svg.ts';
import { leg } from './bent-leg.ts';
import type { DrawFace } from './face.ts';
import { drawSegment } from './segment.ts';

/** Body 12.6 × 19 mm (from memory): 5 × 7.5 pitches. Figure 0.56 inch tall, leaning. */
const [WIDTH, HEIGHT] = [4.96, 7.5];
const [HALF_W, HALF_H, THICK] = [1.42, 2.6, 0.58];
const lean = ([x, y]: readonly [number, number]): readonly [number, number] => [(x - y * 0.13) * U, y * U];

/** Corners of a bar from one joint to another, pointed at the ends. */
function bar(x1: number, y1: number, x2: number, y2: number): string {
  const [w, gap] = [THICK / 2, 0.07];
  const across = y1 === y2;
  const corners: ReadonlyArray<readonly [number, number]> = across
    ? [
        [x1 + gap, y1],
        [x1 + w + gap, y1 - w],
        [x2 - w - gap, y1 - w],
        [x2 - gap, y1],
        [x2 - w - gap, y1 + w],
        [x1 + w + gap, y1 + w],
      ]
    : [
        [x1, y1 + gap],
        [x1 + w, y1 + w + gap],
        [x1 + w, y2 - w - gap],
        [x1, y2 - gap],
        [x1 - w, y2 - w - gap],
        [x1 - w, y1 + w + gap],
      ];
  return `${through(corners.map(lean))}Z`;
}

const BARS: Readonly<Record<string, string>> = {
  a: bar(-HALF_W, -HALF_H, HALF_W, -HALF_H),
  b: bar(HALF_W, -HALF_H, HALF_W, 0),
  c: bar(HALF_W, 0, HALF_W, HALF_H),
  d: bar(-HALF_W, HALF_H, HALF_W, HALF_H),
  e: bar(-HALF_W, 0, -HALF_W, HALF_H),
  f: bar(-HALF_W, -HALF_H, -HALF_W, 0),
  g: bar(-HALF_W, 0, HALF_W, 0),
};
const [dotX, dotY] = lean([HALF_W + 0.62, HALF_H]);
const DOT = `M${dotX - 5.6} ${dotY}a5.6 5.6 0 1 0 11.2 0a5.6 5.6 0 1 0 -11.2 0`;

export const drawDigit: DrawFace = (specimen, { legs, actions }) => {
  const { part, leds } = specimen;
  const spots = [...legs.values()];
  const rows = around(spots);
  const [cx, cy] = [rows.x + rows.width / 2, rows.y + rows.height / 2];
  const box = { x: cx - WIDTH / 2, y: cy - HEIGHT / 2, width: WIDTH, height: HEIGHT };
  const turned = (legs.get('1')?.[1] ?? 0) < cy;
  const segments = leds.map((led) => drawSegment(specimen, led, BARS[led.led.slice(part.id.length + 1)] ?? DOT, actions));
  const called = part.label ?? part.id;
  let shown = '';
  const over = el(
    'g',
    { class: 'digit', role: 'group', 'aria-label': called },
    el('rect', { x: box.x * U, y: box.y * U, width: box.width * U, height: box.height * U, rx: 3, class: 'digit-body' }),
    el('g', { transform: `translate(${(cx - 0.2) * U} ${cy * U})${turned ? ' rotate(180)' : ''}` }, ...segments.map((s) => s.root)),
  );
  return {
    body: el('g', { class: 'legs' }, ...spots.map((s) => leg(s, cy))),
    over,
    box,
    show(sight) {
      for (const s of segments) s.show(sight);
      const damage = sight.damage.get(part.id);
      const digit = sight.digits.get(part.id);
      const says = `${digit || !damage ? ` ${digit ?? ''}` : ''}${damage ? `, ${damage}` : ''}`;
      if (says === shown) return;
      shown = says;
      over.setAttribute('aria-label', `${called}${says}`);
    },
  };
};
