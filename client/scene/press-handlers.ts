/** Making a drawn thing operable: mouse and pen act on the way down, touch on a tap, keys on Enter and Space, assistive tools on click. */

export interface Press {
  /** a moment's act: a switch thrown, an LED asked about */
  act(): void;
}

/** Acts once a gesture, at the earliest moment at which it is certain. */
export function tappable(on: SVGElement, { act }: Press): void {
  on.setAttribute('tabindex', '0');
  let acted = false;
  on.addEventListener('pointerdown', (e) => {
    acted = false;
    if (e.button !== 0 || e.pointerType === 'touch' || e.ctrlKey) return;
    acted = true;
    e.stopPropagation();
    act();
  });
  on.addEventListener('click', (e) => {
    e.stopPropagation();
    if (!acted) act();
    acted = false;
  });
  on.addEventListener('keydown', (e) => {
    if ((e.key !== 'Enter' && e.key !== ' ') || e.repeat) return;
    e.preventDefault();
    act();
  });
}

/** Opens at a double click on its body, and by its handle at Enter and at an assistive tool's click; one click stays free for what else a hand does with it. */
export function openable(body: SVGElement, on: SVGElement, open: () => void): void {
  on.setAttribute('tabindex', '0');
  body.addEventListener('dblclick', open);
  on.addEventListener('click', (e) => {
    if (e.detail === 0) open();
  });
  on.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter' || e.target !== on) return;
    e.preventDefault();
    open();
  });
}

/** Down while held: by pointer, by Enter or Space, by an assistive tool's click. Every way in has a way out: up, blur, lost pointer. */
export function holdable(on: SVGElement, { down, up }: { down(): void; up(): void }): void {
  on.setAttribute('tabindex', '0');
  let held: 'pointer' | 'key' | undefined;
  let byPointer = false;
  const release = () => {
    if (!held) return;
    held = undefined;
    up();
  };
  on.addEventListener('pointerdown', (e) => {
    if (e.button !== 0 || held) return;
    e.stopPropagation();
    byPointer = true;
    held = 'pointer';
    on.setPointerCapture(e.pointerId);
    down();
  });
  on.addEventListener('pointerup', release);
  on.addEventListener('lostpointercapture', release);
  on.addEventListener('blur', release);
  on.addEventListener('keydown', (e) => {
    if (e.key !== 'Enter' && e.key !== ' ') return;
    e.preventDefault();
    if (e.repeat || held) return;
    held = 'key';
    down();
  });
  on.addEventListener('keyup', (e) => {
    if ((e.key === 'Enter' || e.key === ' ') && held === 'key') release();
  });
  on.addEventListener('click', (e) => {
    e.stopPropagation();
    if (byPointer || held) {
      byPointer = false;
      return;
    }
    down();
    up();
  });
}

/** A hand's own movement is drawn with the bench's answer, in one repaint; if that is long in coming, after this without it [ms]. */
const PATIENCE = 12;

export const unlessAnswered = (answered: () => boolean, draw: () => void): void => {
  setTimeout(() => {
    if (!answered()) draw();
  }, PATIENCE);
};
