/** Pan and zoom: by wheel, drag, pinch and keys, from the whole bench to one pin. */
import { presenting } from '../theme/presentation.ts';
import { type Box, type Spot, U } from './geometry.ts';

/** Pixels to a drawing unit. */
const [LEAST, MOST] = [0.12, 8];
/** From these scales on, more is drawn: below the first little, from the second pin and row numbers. */
export const DETAIL = { mid: 0.5, near: 1.15, pin: 2.6 } as const;
/** From these scales on pins' names can be read: upright, where a body has room for larger letters; lying, in the usual size. */
const NAMES = { upright: 0.55, flat: 0.83 } as const;
const MOVES: Readonly<Record<string, Spot>> = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] };

export interface View {
  /** shows a box whole, or as much of its start as fits at the least scale given */
  fit(box: Box, leastScale?: number): void;
  /** the same as a person's choice, which no change of size undoes */
  show(box: Box): void;
  zoomBy(factor: number): void;
  /** brings a spot into sight if it is not */
  reveal(box: Box): void;
  /** draws the same sight again */
  refresh(): void;
  toBench(clientX: number, clientY: number): Spot;
  /** from bench to pixels of the surface */
  toSurface(spot: Spot): Spot;
  /** the presses that pan are another's from now on */
  letGo(): void;
  key(e: KeyboardEvent): boolean;
  /** true once a person has chosen what to see, until the whole is shown again */
  readonly chosen: boolean;
  /** true while a drag moves the bench */
  readonly moving: boolean;
  /** pixels to a drawing unit */
  readonly scale: number;
}

export function attachView(
  surface: SVGSVGElement,
  worlds: readonly SVGGElement[],
  home: () => Box,
  inset: () => { top: number; bottom: number },
  /** after every move, with the part of the bench that is now in sight */
  moved: (sight: Box) => void,
): View {
  let [scale, x, y] = [1, 0, 0];
  let waiting = false;
  const touches = new Map<number, Spot>();
  let dragged = 0;
  let chosen = false;

  const put = () => {
    waiting = false;
    const transform = `translate(${x.toFixed(2)} ${y.toFixed(2)}) scale(${scale.toFixed(4)})`;
    for (const w of worlds) w.setAttribute('transform', transform);
    const detail = scale >= DETAIL.pin ? 'near pin' : scale >= DETAIL.near ? 'near' : scale >= DETAIL.mid ? 'mid' : 'far';
    const names = scale < NAMES.upright ? 'hidden' : scale < NAMES.flat || presenting() ? 'upright' : 'flat';
    for (const w of worlds) {
      if (w.dataset.detail !== detail) w.dataset.detail = detail;
      if (w.dataset.names !== names) w.dataset.names = names;
    }
    const { clientWidth, clientHeight } = surface;
    const unit = scale * U;
    moved({ x: -x / unit, y: -y / unit, width: clientWidth / unit, height: clientHeight / unit });
  };
  const later = () => {
    chosen = true;
    if (!waiting) requestAnimationFrame(put);
    waiting = true;
  };
  const zoomAt = (factor: number, cx: number, cy: number) => {
    const next = Math.min(MOST, Math.max(LEAST, scale * factor));
    x = cx - ((cx - x) * next) / scale;
    y = cy - ((cy - y) * next) / scale;
    scale = next;
    later();
  };
  const local = (e: { clientX: number; clientY: number }): Spot => {
    const r = surface.getBoundingClientRect();
    return [e.clientX - r.left, e.clientY - r.top];
  };

  surface.addEventListener(
    'wheel',
    (e) => {
      e.preventDefault();
      const [cx, cy] = local(e);
      zoomAt(Math.exp(-Math.max(-120, Math.min(120, e.deltaY * (e.deltaMode === 1 ? 30 : 1))) * (e.ctrlKey ? 0.008 : 0.0022)), cx, cy);
    },
    { passive: false },
  );
  surface.addEventListener('pointerdown', (e) => {
    if (e.button > 1) return;
    touches.set(e.pointerId, local(e));
    dragged = 0;
  });
  surface.addEventListener('pointermove', (e) => {
    const before = touches.get(e.pointerId);
    if (!before) return;
    const now = local(e);
    const others = [...touches.entries()].filter(([id]) => id !== e.pointerId).map(([, s]) => s);
    touches.set(e.pointerId, now);
    const other = others[0];
    if (other) {
      const gap = (s: Spot) => Math.hypot(s[0] - other[0], s[1] - other[1]) || 1;
      x += (now[0] - before[0]) / 2;
      y += (now[1] - before[1]) / 2;
      zoomAt(gap(now) / gap(before), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
      dragged = 99;
      return;
    }
    dragged += Math.hypot(now[0] - before[0], now[1] - before[1]);
    if (dragged < 5) return;
    if (!surface.hasPointerCapture(e.pointerId)) surface.setPointerCapture(e.pointerId);
    x += now[0] - before[0];
    y += now[1] - before[1];
    later();
  });
  for (const end of ['pointerup', 'pointercancel', 'lostpointercapture'] as const)
    surface.addEventListener(end, (e) => touches.delete(e.pointerId));
  // a drag is not a click
  surface.addEventListener(
    'click',
    (e) => {
      if (dragged >= 5) e.stopPropagation();
      dragged = 0;
    },
    { capture: true },
  );

  const view: View = {
    fit(box, leastScale = 0) {
      const { clientWidth: w, clientHeight: h } = surface;
      const { top, bottom } = inset();
      const margin = Math.min(36, w * 0.03);
      const room = h - top - bottom;
      const whole = Math.min((w - 2 * margin) / (box.width * U), (room - 2 * margin) / (box.height * U));
      scale = Math.min(MOST, Math.max(LEAST, whole, Math.min(leastScale, (room - 2 * margin) / (box.height * U))));
      x = box.width * U * scale > w - 2 * margin + 1 ? margin - box.x * U * scale : w / 2 - (box.x + box.width / 2) * U * scale;
      y = top + room / 2 - (box.y + box.height / 2) * U * scale;
      chosen = false;
      put();
    },
    show(box) {
      view.fit(box);
      later();
    },
    zoomBy: (factor) => zoomAt(factor, surface.clientWidth / 2, surface.clientHeight / 2),
    reveal(box) {
      const { clientWidth: w, clientHeight: h } = surface;
      const { top, bottom } = inset();
      const [l, t, r, b] = [
        box.x * U * scale + x,
        box.y * U * scale + y,
        (box.x + box.width) * U * scale + x,
        (box.y + box.height) * U * scale + y,
      ];
      const right = l < 8 ? 40 - l : r > w - 8 ? w - r - 40 : 0;
      const down = t < top + 8 ? top + 40 - t : b > h - bottom - 8 ? h - bottom - b - 40 : 0;
      // what is in sight already is no reason to keep this sight
      if (right === 0 && down === 0) return;
      x += right;
      y += down;
      later();
    },
    refresh: put,
    toBench(clientX, clientY) {
      const [lx, ly] = local({ clientX, clientY });
      return [(lx - x) / scale / U, (ly - y) / scale / U];
    },
    toSurface: ([bx, by]) => [bx * U * scale + x, by * U * scale + y],
    letGo: () => touches.clear(),
    key(e) {
      if (e.ctrlKey || e.metaKey || e.altKey) return false;
      const move = MOVES[e.key];
      if (move) {
        x += move[0];
        y += move[1];
        later();
      } else if (e.key === '+' || e.key === '=') view.zoomBy(1.25);
      else if (e.key === '-' || e.key === '−') view.zoomBy(0.8);
      else if (e.key === '0') view.fit(home());
      else return false;
      e.preventDefault();
      return true;
    },
    get chosen() {
      return chosen;
    },
    get scale() {
      return scale;
    },
    get moving() {
      return touches.size > 0 && dragged >= 5;
    },
  };
  return view;
}
