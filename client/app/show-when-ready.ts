/** What stands round the bench is shown once the first bench is read and the letters are there, so that nothing shifts after it has been seen. */
import type { Session } from '../state/session.ts';

/** Whatever is missing then, it is shown [ms]. */
const [LETTERS, BENCH] = [600, 3000];

export function showWhenReady(shell: HTMLElement, session: Session): void {
  const after = (ms: number) => new Promise((then) => setTimeout(then, ms));
  const first = new Promise<void>((then) => {
    for (const kind of ['readings', 'refused'] as const) session.on(kind, () => then());
  });
  void Promise.race([first, after(BENCH)])
    .then(() => Promise.race([document.fonts.ready, after(LETTERS)]))
    .then(() => requestAnimationFrame(() => shell.classList.add('ready')));
}
