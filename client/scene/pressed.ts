/** Is a hand on something just now? What would move things under it waits until it has let go. */

interface Pressed {
  /** True: a pointer is down; what waits is done once the last one is up. */
  wait(): boolean;
}

/** then: what is done after a wait. It lasts as long as the page. */
export function whilePressed(then: () => void): Pressed {
  const down = new Set<number>();
  let waits = false;
  addEventListener('pointerdown', (e) => down.add(e.pointerId), { capture: true });
  const up = (e: PointerEvent) => {
    down.delete(e.pointerId);
    if (down.size > 0 || !waits) return;
    waits = false;
    // the click that belongs to this press comes first
    setTimeout(then);
  };
  for (const end of ['pointerup', 'pointercancel'] as const) addEventListener(end, up, { capture: true });
  return {
    wait() {
      waits ||= down.size > 0;
      return down.size > 0;
    },
  };
}
