/** What is about to be: the legs' holes of a part in the hand, the wire that is being drawn, the frame that chooses; and why it cannot be, beside the pointer. */
import { around, type Box, type Spot, U } from '../scene/geometry.ts';
import { el, short } from '../scene/svg.ts';
import { wireInk } from '../scene/wire-drawing.ts';

export interface Preview {
  /** a part by the spots of its legs, or of its corner if it stands beside the boards; drawn: as it would stand there */
  part(spots: readonly Spot[], refused: boolean, drawn?: { readonly root: SVGElement; readonly onBoard: boolean }): void;
  wire(from: Spot, to: Spot, colour: string, refused: boolean): void;
  frame(a: Spot, b: Spot): void;
  board(outline: Box, refused: boolean): void;
  /** a sentence beside a place on the screen; undefined takes it away */
  say(text: string | undefined, clientX?: number, clientY?: number): void;
  clear(): void;
}

const ring = ([x, y]: Spot, first: boolean) =>
  el('circle', { cx: x * U, cy: y * U, r: first ? 7.5 : 5.5, class: first ? 'ghost-leg ghost-first' : 'ghost-leg' });
const rect = (b: Box, name: string) =>
  el('rect', { x: short(b.x * U), y: short(b.y * U), width: short(b.width * U), height: short(b.height * U), rx: 6, class: name });

/** Where a sentence stands from the pointer, and how near it may come to the window's edge [px]. */
const BESIDE = 18;
const EDGE = 8;

export function makePreview(layer: SVGGElement, note: HTMLElement): Preview {
  const put = (refused: boolean, ...children: SVGElement[]) => {
    layer.setAttribute('class', refused ? 'ghost refused' : 'ghost');
    layer.replaceChildren(...children);
  };
  return {
    part(spots, refused, drawn) {
      drawn?.root.classList.add('ghost-part');
      const legs = drawn?.onBoard === false ? [] : spots;
      put(refused, drawn?.root ?? rect(around(spots, 0.5), 'ghost-body'), ...legs.map((s, i) => ring(s, i === 0)));
    },
    wire(from, to, colour, refused) {
      const d = `M${short(from[0] * U)} ${short(from[1] * U)}L${short(to[0] * U)} ${short(to[1] * U)}`;
      put(
        refused,
        el('path', { d, class: 'ghost-wire-case' }),
        el('path', { d, class: 'ghost-wire', style: `--swatch:${wireInk(colour)}` }),
        ring(from, false),
        ring(to, false),
      );
    },
    frame([ax, ay], [bx, by]) {
      put(false, rect({ x: Math.min(ax, bx), y: Math.min(ay, by), width: Math.abs(ax - bx), height: Math.abs(ay - by) }, 'choosing-frame'));
    },
    board(outline, refused) {
      put(refused, rect(outline, 'ghost-body'));
    },
    say(text, clientX = 0, clientY = 0) {
      note.hidden = text === undefined;
      if (text === undefined) return;
      if (note.textContent !== text) note.textContent = text;
      const room = (note.offsetParent ?? document.body).getBoundingClientRect();
      const left = Math.min(clientX - room.left + BESIDE, room.width - note.offsetWidth - EDGE);
      const below = clientY - room.top + BESIDE;
      const top = below + note.offsetHeight > room.height - EDGE ? clientY - room.top - BESIDE - note.offsetHeight : below;
      note.style.translate = `${Math.max(EDGE, left)}px ${Math.max(EDGE, top)}px`;
    },
    clear() {
      layer.replaceChildren();
      this.say(undefined);
    },
  };
}
