/** The presentation size: larger letters and levels for a projector, read from the back row. Kept for this visit only. */

const PRESENTING = 'presentation';

export const presenting = (): boolean => document.documentElement.dataset.size === PRESENTING;

export function present(on: boolean): void {
  if (on) document.documentElement.dataset.size = PRESENTING;
  else delete document.documentElement.dataset.size;
}
