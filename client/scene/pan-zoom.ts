/** Pan and zoom: by wheel, drag, pinch and keys, from the whole bench to one pin. */
import { presenting } from '../theme/presentation.ts';
import { type Box, type Spot, U } from './geometry.ts';

/** Pixels to a drawing unit. */
const [LEAST, MOST] = [0.12, 8];
/** From these scales on, more is drawn: below the first little, from the second pin and row numbers. */
export const DETAIL = { mid: 0.5, near: 1.15, pin: 2.6 } as const;
/** From these scales on pins' names can be read: upright, where a body has room for larger letters; lying, in the usual size. */
const NAMES = { upright: 0.6, flat: 1.18 } as const;
const MOVES: Readonly<Record<string, Spot>> = { ArrowLeft: [60, 0], ArrowRight: [-60, 0], ArrowUp: [0, 60], ArrowDown: [0, -60] };

/** What a view moves, and what it stands in. */
interface Shown {
  readonly surface: SVGSVGElement;
  readonly worlds: readonly SVGGElement[];
  /** the whole bench */
  home(): Box;
  /** room at the surface's head and foot that something covers, and above that what may come to be covered later [px] */
  inset(): { readonly top: number; readonly bottom: number; readonly spare: number };
  /** after every move, with the part of the bench that is now in sight */
  moved(sight: Box): void;
}

/** A drag is no click from here on [px]. */
const DRAG = 5;

/** A sight of the bench: a scale and a place, moved by wheel, pointers and keys. */
export class View {
  private zoom = 1;
  private x = 0;
  private y = 0;
  private waiting = false;
  private byHand = false;
  /** pointers that are down, and where */
  private readonly touches = new Map<number, Spot>();
  /** how far they have moved since the last one came down [px] */
  private dragged = 0;

  constructor(private readonly shown: Shown) {
    const { surface } = shown;
    surface.addEventListener('wheel', (e) => this.wheel(e), { passive: false });
    surface.addEventListener('pointerdown', (e) => this.press(e));
    surface.addEventListener('pointermove', (e) => this.drag(e));
    for (const end of ['pointerup', 'pointercancel', 'lostpointercapture'] as const)
      surface.addEventListener(end, (e) => this.touches.delete(e.pointerId));
    surface.addEventListener('click', (e) => this.click(e), { capture: true });
  }

  /** true once a person has chosen what to see, until the whole is shown again */
  get chosen(): boolean {
    return this.byHand;
  }

  /** true while a drag moves the bench */
  get moving(): boolean {
    return this.touches.size > 0 && this.dragged >= DRAG;
  }

  /** pixels to a drawing unit */
  get scale(): number {
    return this.zoom;
  }

  /** Shows a box whole, or as much of its start as fits at the least scale given. */
  fit(box: Box, leastScale = 0): void {
    const { clientWidth: w, clientHeight: h } = this.shown.surface;
    const { top, bottom, spare } = this.shown.inset();
    const margin = Math.min(36, w * 0.03);
    const room = h - top - bottom;
    const high = (room - 2 * margin) / (box.height * U);
    const whole = Math.min((w - 2 * margin) / (box.width * U), high);
    const scale = Math.min(MOST, Math.max(LEAST, whole, Math.min(leastScale, high)));
    this.zoom = scale;
    this.x = box.width * U * scale > w - 2 * margin + 1 ? margin - box.x * U * scale : w / 2 - (box.x + box.width / 2) * U * scale;
    // what opens by itself later finds its place below, where the bench leaves room for it as large as it is
    const stands = Math.max(Math.min(room, box.height * U * scale + 2 * margin), room - spare);
    this.y = top + stands / 2 - (box.y + box.height / 2) * U * scale;
    this.byHand = false;
    this.refresh();
  }

  /** The same as a person's choice, which no change of size undoes. */
  show(box: Box): void {
    this.fit(box);
    this.later();
  }

  /** About the middle of what is in sight. */
  zoomTo(scale: number): void {
    this.zoomBy(scale / this.zoom);
  }

  zoomBy(factor: number): void {
    const { clientWidth, clientHeight } = this.shown.surface;
    this.zoomAt(factor, clientWidth / 2, clientHeight / 2);
  }

  /** Brings a box into sight if it is not. */
  reveal(box: Box): void {
    const { clientWidth: w, clientHeight: h } = this.shown.surface;
    const { top, bottom } = this.shown.inset();
    const [l, t] = this.toSurface([box.x, box.y]);
    const [r, b] = this.toSurface([box.x + box.width, box.y + box.height]);
    const right = l < 8 ? 40 - l : r > w - 8 ? w - r - 40 : 0;
    const down = t < top + 8 ? top + 40 - t : b > h - bottom - 8 ? h - bottom - b - 40 : 0;
    // what is in sight already is no reason to keep this sight
    if (right !== 0 || down !== 0) this.moveBy([right, down]);
  }

  /** Draws the sight as it is now. */
  refresh(): void {
    const { surface, worlds, moved } = this.shown;
    const { x, y, zoom } = this;
    this.waiting = false;
    const transform = `translate(${x.toFixed(2)} ${y.toFixed(2)}) scale(${zoom.toFixed(4)})`;
    const detail = zoom >= DETAIL.pin ? 'near pin' : zoom >= DETAIL.near ? 'near' : zoom >= DETAIL.mid ? 'mid' : 'far';
    const names = zoom < NAMES.upright ? 'hidden' : zoom < NAMES.flat || presenting() ? 'upright' : 'flat';
    for (const w of worlds) {
      w.setAttribute('transform', transform);
      if (w.dataset.detail !== detail) w.dataset.detail = detail;
      if (w.dataset.names !== names) w.dataset.names = names;
    }
    const unit = zoom * U;
    moved({ x: -x / unit, y: -y / unit, width: surface.clientWidth / unit, height: surface.clientHeight / unit });
  }

  toBench(clientX: number, clientY: number): Spot {
    const [lx, ly] = this.local({ clientX, clientY });
    return [(lx - this.x) / this.zoom / U, (ly - this.y) / this.zoom / U];
  }

  /** From bench to pixels of the surface. */
  toSurface([bx, by]: Spot): Spot {
    return [bx * U * this.zoom + this.x, by * U * this.zoom + this.y];
  }

  /** The presses that pan are another's from now on. */
  letGo(): void {
    this.touches.clear();
  }

  /** True if the key moved it. */
  key(e: KeyboardEvent): boolean {
    if (e.ctrlKey || e.metaKey || e.altKey) return false;
    const move = MOVES[e.key];
    if (move) this.moveBy(move);
    else if (e.key === '+' || e.key === '=') this.zoomBy(1.25);
    else if (e.key === '-' || e.key === '−') this.zoomBy(0.8);
    else if (e.key === '0') this.fit(this.shown.home());
    else return false;
    e.preventDefault();
    return true;
  }

  private wheel(e: WheelEvent): void {
    e.preventDefault();
    const lines = e.deltaY * (e.deltaMode === 1 ? 30 : 1);
    this.zoomAt(Math.exp(-Math.max(-120, Math.min(120, lines)) * (e.ctrlKey ? 0.008 : 0.0022)), ...this.local(e));
  }

  private press(e: PointerEvent): void {
    if (e.button > 1) return;
    this.touches.set(e.pointerId, this.local(e));
    this.dragged = 0;
  }

  private drag(e: PointerEvent): void {
    const before = this.touches.get(e.pointerId);
    if (!before) return;
    const now = this.local(e);
    this.touches.set(e.pointerId, now);
    const other = [...this.touches].find(([id]) => id !== e.pointerId)?.[1];
    if (other) this.pinch(before, now, other);
    else this.pan(before, now, e.pointerId);
  }

  /** One of two fingers moves: the middle between them goes half as far. */
  private pinch(before: Spot, now: Spot, other: Spot): void {
    const gap = (s: Spot) => Math.hypot(s[0] - other[0], s[1] - other[1]) || 1;
    this.x += (now[0] - before[0]) / 2;
    this.y += (now[1] - before[1]) / 2;
    this.zoomAt(gap(now) / gap(before), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
    this.dragged = 99;
  }

  private pan(before: Spot, now: Spot, pointer: number): void {
    const by: Spot = [now[0] - before[0], now[1] - before[1]];
    this.dragged += Math.hypot(...by);
    if (this.dragged < DRAG) return;
    const { surface } = this.shown;
    if (!surface.hasPointerCapture(pointer)) surface.setPointerCapture(pointer);
    this.moveBy(by);
  }

  /** A drag is not a click. */
  private click(e: MouseEvent): void {
    if (this.dragged >= DRAG) e.stopPropagation();
    this.dragged = 0;
  }

  private moveBy([right, down]: Spot): void {
    this.x += right;
    this.y += down;
    this.later();
  }

  private zoomAt(factor: number, cx: number, cy: number): void {
    const next = Math.min(MOST, Math.max(LEAST, this.zoom * factor));
    this.x = cx - ((cx - this.x) * next) / this.zoom;
    this.y = cy - ((cy - this.y) * next) / this.zoom;
    this.zoom = next;
    this.later();
  }

  private later(): void {
    this.byHand = true;
    if (!this.waiting) requestAnimationFrame(() => this.refresh());
    this.waiting = true;
  }

  private local({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }): Spot {
    const { left, top } = this.shown.surface.getBoundingClientRect();
    return [clientX - left, clientY - top];
  }
}
