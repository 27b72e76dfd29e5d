/** Footprints: where a part's legs come down, given the hole of pin 1. Knows pitches, not pins' meanings. */
import { type Hole, holeBeside } from './tie-points.ts';

export type Footprint =
  /** two rows of legs, `span` pitches apart; pins run along one row and back along the other; `only`: the numbers of those that are there, if not all */
  | { readonly shape: 'rows'; readonly pins: number; readonly span: number; readonly only?: readonly number[] }
  /** two wires that bend to any two holes; `span`: pitches between them when they are not bent */
  | { readonly shape: 'two-leg'; readonly span: number }
  /** four legs across the trench, two pitches along it; pins 1, 2 below and 3, 4 above as in a row package */
  | { readonly shape: 'four-leg' }
  /** four legs at the corners of a row package's outline, `length` pitches along it; numbered as there */
  | { readonly shape: 'corners'; readonly length: number; readonly span: number }
  /** legs in one line, a pitch apart */
  | { readonly shape: 'in-line'; readonly pins: number }
  /** stands off the boards; wires go to its named terminals */
  | { readonly shape: 'off-board' };

/** Dual in-line package with `pins` legs; 0.3 inch between the rows, or 0.6 for the wide ones. */
export const dip = (pins: number, inches: 0.3 | 0.6 = 0.3): Extract<Footprint, { shape: 'rows' }> => ({
  shape: 'rows',
  pins,
  span: inches === 0.3 ? 3 : 6,
});
export const twoLeg = (span: number): Footprint => ({ shape: 'two-leg', span });
export const fourLeg: Footprint = { shape: 'four-leg' };
/** A can with four legs where a 14-pin package has its corners. */
export const can: Footprint = { shape: 'corners', length: 6, span: 3 };
export const inLine = (pins: number): Footprint => ({ shape: 'in-line', pins });
export const offBoard: Footprint = { shape: 'off-board' };

/** Offsets of each pin's leg from pin 1 [pitch], in order of pin number; y down. */
function legOffsets(f: Footprint): ReadonlyArray<readonly [dx: number, dy: number]> {
  if (f.shape === 'rows') {
    const half = f.pins / 2;
    const all = Array.from({ length: f.pins }, (_, i): readonly [number, number] => (i < half ? [i, 0] : [f.pins - 1 - i, -f.span]));
    return f.only ? f.only.map((pin) => all[pin - 1] ?? [0, 0]) : all;
  }
  if (f.shape === 'four-leg')
    return [
      [0, 0],
      [2, 0],
      [2, -3],
      [0, -3],
    ];
  if (f.shape === 'corners')
    return [
      [0, 0],
      [f.length, 0],
      [f.length, -f.span],
      [0, -f.span],
    ];
  if (f.shape === 'in-line') return Array.from({ length: f.pins }, (_, i) => [i, 0] as const);
  return [];
}

/** Holes of all legs in order of pin number, or the number of the first pin that has no hole. `turned`: end for end about pin 1. */
export function legHoles(f: Footprint, pin1: Hole, turned: boolean): { readonly holes: readonly Hole[] } | { readonly noHoleFor: number } {
  const sign = turned ? -1 : 1;
  const holes: Hole[] = [];
  for (const [i, [dx, dy]] of legOffsets(f).entries()) {
    const hole = i === 0 ? pin1 : holeBeside(pin1, sign * dx, sign * dy);
    if (!hole) return { noHoleFor: i + 1 };
    holes.push(hole);
  }
  return { holes };
}
