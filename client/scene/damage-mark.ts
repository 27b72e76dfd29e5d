/** The mark of a damaged part, laid over whatever face it wears: a scorch, and a crack through it. */
import { type Box, U } from './geometry.ts';
import { el, short, through } from './svg.ts';

/** Half of the scorch's width and height at least and at most [pitch]. */
const [LEAST, MOST] = [0.62, 1.7];
/** A body wider than this has its name in its middle, so a smaller mark goes near its end [pitch]. */
const [WIDE, MOST_ON_WIDE, FROM_END] = [6, 1.2, 1.5];

/** Radii of the scorch's rim in equal steps of angle, parts of its half width. */
const RIM = [1, 0.86, 1.08, 0.92, 1.12, 0.84, 1.02, 0.94, 1.14, 0.88, 1.06, 0.82];
/** The crack from side to side, and two splits from it, parts of the scorch's half width and height. */
const CRACK = [
  [-0.98, -0.3],
  [-0.55, 0.12],
  [-0.3, -0.16],
  [0.08, 0.22],
  [0.3, -0.08],
  [0.62, 0.3],
  [1, 0.1],
] as const;
const SPLITS = [
  [
    [-0.3, -0.16],
    [-0.1, -0.52],
    [-0.2, -0.82],
  ],
  [
    [0.08, 0.22],
    [0.02, 0.56],
    [0.22, 0.86],
  ],
] as const;

/** A closed curve that rounds off every second corner of a polygon. */
function rounded(points: ReadonlyArray<readonly [number, number]>): string {
  const at = (i: number) => points[(i + points.length) % points.length] ?? [0, 0];
  const between = (i: number) => [(at(i)[0] + at(i + 1)[0]) / 2, (at(i)[1] + at(i + 1)[1]) / 2].map(short).join(' ');
  return `M${between(-1)}${points.map(([x, y], i) => `Q${short(x)} ${short(y)} ${between(i)}`).join('')}Z`;
}

/** says: the sentence for those who do not see it; none where the face says it itself. */
export function drawDamage(box: Box, says: string | undefined): SVGGElement {
  const wide = box.width > WIDE && box.height > 2;
  const half = (size: number) => Math.min(wide ? MOST_ON_WIDE : MOST, Math.max(LEAST, size * 0.54)) * U;
  const [w, h] = [half(box.width), half(box.height)];
  const x = box.x + (wide ? FROM_END : box.width / 2);
  const y = box.y + box.height / 2;
  const rim = (size: number) =>
    rounded(
      RIM.map((r, i) => {
        const angle = (2 * Math.PI * i) / RIM.length;
        return [Math.cos(angle) * r * size * w, Math.sin(angle) * r * size * h] as const;
      }),
    );
  const inBody = (line: ReadonlyArray<readonly [number, number]>) => through(line.map(([px, py]) => [px * w, py * h] as const));
  const crack = [CRACK, ...SPLITS].map(inBody).join('');
  return el(
    'g',
    {
      class: 'damage',
      transform: `translate(${short(x * U)} ${short(y * U)})`,
      ...(says === undefined ? { 'aria-hidden': 'true' } : { role: 'img', 'aria-label': says }),
    },
    el('path', { d: rim(1), class: 'scorch' }),
    el('path', { d: rim(0.55), class: 'scorch scorch-heart' }),
    el('path', { d: crack, class: 'crack crack-edge' }),
    el('path', { d: crack, class: 'crack' }),
  );
}
