/** What a pointer finds at a place of a drawing in a document without a browser: the uppermost shape there that takes the pointer. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { U } from '../../client/scene/geometry.ts';

/** Classes that a style sheet of the page lets the pointer through. */
const through: ReadonlySet<string> = new Set(
  readdirSync('client', { recursive: true, encoding: 'utf8' })
    .filter((f) => f.endsWith('.css'))
    .flatMap((f) => readFileSync(join('client', f), 'utf8').match(/[^{}]+\{[^{}]*pointer-events: none[^{}]*\}/g) ?? [])
    .flatMap((rule) =>
      (rule.split('{')[0] ?? '').split(',').flatMap((s) => /^\s*\.([\w-]+)\s*$/.exec(s.replace(/\/\*.*?\*\//gs, ''))?.[1] ?? []),
    ),
);

const numbers = (text: string): number[] => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
const of = (e: Element, name: string) => Number(e.getAttribute(name) ?? 0);
/** Half of the width in which a wire is hit [drawing units]. */
const WIRE = 6;

function inPath(d: string, [x, y]: readonly [number, number], by: number): boolean {
  const xy = numbers(d);
  for (let i = 0; i + 3 < xy.length; i += 2) {
    const [ax = 0, ay = 0, bx = 0, by2 = 0] = xy.slice(i, i + 4);
    const size = (bx - ax) ** 2 + (by2 - ay) ** 2 || 1;
    const t = Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by2 - ay)) / size));
    if (Math.hypot(ax + t * (bx - ax) - x, ay + t * (by2 - ay) - y) <= by) return true;
  }
  return false;
}

/** Only moved, as all that is looked for here: a turned shape is round, or a child of what is not looked at. */
function moved(e: Element): readonly [number, number] {
  let [x, y] = [0, 0];
  for (let up: Element | null = e; up; up = up.parentElement) {
    const [dx = 0, dy = 0] = numbers(/translate\(([^)]*)\)/.exec(up.getAttribute('transform') ?? '')?.[1] ?? '');
    [x, y] = [x + dx, y + dy];
  }
  return [x, y];
}

function takesPointer(e: Element, root: Element): boolean {
  for (let up: Element | null = e; up && up !== root; up = up.parentElement)
    if (up.getAttribute('pointer-events') === 'none' || (up.getAttribute('class') ?? '').split(' ').some((c) => through.has(c)))
      return false;
  // nothing is painted inside them
  return !e.matches('.focus-ring, .mark-ring');
}

/** Does a place lie on it? */
function shapeOf(e: Element): (x: number, y: number) => boolean {
  const [dx, dy] = moved(e);
  if (e.tagName === 'rect') {
    const [x0, y0] = [of(e, 'x') + dx, of(e, 'y') + dy];
    const [x1, y1] = [x0 + of(e, 'width'), y0 + of(e, 'height')];
    return (x, y) => x >= x0 && x <= x1 && y >= y0 && y <= y1;
  }
  if (e.tagName === 'circle') {
    // a mark's target has its radius from a style sheet, and is as large here as it ever gets
    const [cx, cy, r] = [of(e, 'cx') + dx, of(e, 'cy') + dy, of(e, 'r') || 2 * U];
    return (x, y) => Math.hypot(x - cx, y - cy) <= r;
  }
  const d = e.classList.contains('wire-hit') ? (e.getAttribute('d') ?? '') : '';
  return (x, y) => d !== '' && inPath(d, [x - dx, y - dy], WIRE);
}

/** What is hit at a place [pitch], for the drawing as it is now. */
export function hitList(root: Element): (spot: readonly [number, number]) => Element | undefined {
  const shapes = [...root.querySelectorAll('rect, circle, path.wire-hit')]
    .reverse()
    .filter((e) => takesPointer(e, root))
    .map((e) => ({ e, covers: shapeOf(e) }));
  return ([x, y]) => shapes.find((s) => s.covers(x * U, y * U))?.e;
}

/** Where a control is pressed: the middle of what it shows to a hand [pitch]. */
export function pressedAt(control: Element): readonly [number, number] {
  const shape = control.querySelector('.hit, .cap, .led-glass');
  if (!shape) throw new Error(`${control.outerHTML.slice(0, 80)} shows nothing to a hand`);
  const [dx, dy] = moved(shape);
  const [x, y] =
    shape.tagName === 'rect'
      ? [of(shape, 'x') + of(shape, 'width') / 2, of(shape, 'y') + of(shape, 'height') / 2]
      : [of(shape, 'cx'), of(shape, 'cy')];
  return [(x + dx) / U, (y + dy) / U];
}
