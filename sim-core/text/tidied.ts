/** What tidying has done to the wiring of a bench, as sentences. */
import type { WiringFigures } from '../tidy/wiring-figures.ts';

/** "Crossings: 20 before, 3 now. …" */
export function sayTidied(before: WiringFigures, after: WiringFigures): string {
  const counts = [
    ['Crossings', before.crossings, after.crossings],
    ['ends close to another wire', before.near, after.near],
    ['wires over a part', before.over, after.over],
  ] as const;
  if (isSame(before, after)) return 'The wiring is as tidy as this search can make it: nothing was changed.';
  const [first, ...others] = counts.map(([what, was, is]) => `${what}: ${was} before, ${is} now`);
  return `${first}; ${others.join('; ')}. The circuit is the same.`;
}

const isSame = (a: WiringFigures, b: WiringFigures): boolean =>
  a.wires === b.wires && a.length === b.length && a.crossings === b.crossings && a.near === b.near && a.over === b.over;
