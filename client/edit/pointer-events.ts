/** The browser's pointer events, handed to the pointer states of the bench. */
import { systemClock } from '../worker/clock.ts';
import { targetOf } from './hit-test.ts';
import type { At, ToolBench } from './placement-tool.ts';
import { type PointerInput, PointerStates } from './pointer-states.ts';

/** They last as long as the page. */
export function attachPointerStates(surface: SVGSVGElement, bench: ToolBench): PointerStates {
  const states = new PointerStates(bench, systemClock);
  const input = (e: MouseEvent): PointerInput => {
    const at = { x: e.clientX, y: e.clientY, spot: bench.toBench(e.clientX, e.clientY) };
    return {
      at,
      button: e.button,
      touch: e instanceof PointerEvent && e.pointerType === 'touch',
      mark: e.target instanceof Element && e.target.closest('.mark-target') !== null,
      add: e.shiftKey,
      target() {
        const [model, drawing] = [bench.model(), bench.drawing()];
        if (!model || !drawing || !(e.target instanceof Element)) return { on: 'ground' };
        return targetOf(e.target, at.spot, model, drawing, bench.holeAt(at.spot));
      },
      capture: () => e instanceof PointerEvent && surface.setPointerCapture(e.pointerId),
    };
  };
  surface.addEventListener('pointerdown', (e) => states.down(input(e)) && e.stopPropagation(), { capture: true });
  surface.addEventListener('pointermove', (e) => states.move(input(e)));
  surface.addEventListener('pointerup', (e) => states.up(input(e)));
  surface.addEventListener('click', (e) => states.click(input(e)) && e.stopImmediatePropagation(), { capture: true });
  for (const lost of ['pointercancel', 'lostpointercapture'] as const) surface.addEventListener(lost, () => states.lost());
  surface.addEventListener('contextmenu', (e) => {
    e.preventDefault();
    // a finger asks by being held and lifted
    if (!(e instanceof PointerEvent && e.pointerType === 'touch')) states.menu(input(e));
  });
  surface.addEventListener('pointerleave', () => states.left());
  addEventListener('blur', () => states.lost());
  document.addEventListener('carry', () => states.carry());
  // whoever lets go over the bench has been heard there first
  addEventListener('pointerup', () => setTimeout(() => states.carryEnds()));
  return states;
}

/** The pin that is drawn at a place in the window. */
export function pinAt({ x, y }: At): { readonly part: string; readonly pin: string } | undefined {
  const { part, pin } = document.elementFromPoint(x, y)?.closest<SVGElement>('[data-part][data-pin]')?.dataset ?? {};
  return part !== undefined && pin !== undefined ? { part, pin } : undefined;
}
