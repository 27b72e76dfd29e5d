/** Where the single LEDs of a build stand: in a row along the trench, as a cell of two columns by three, or in a ring; each between strips of its own. */
import type { PlanBoard } from '../../shared/plan.ts';
import type { Column } from '../board/boards.ts';
import type { Row } from './builder-state.ts';

/** 'cell': down the left column, then down the right, as the dots of a Braille cell are counted. 'ring': clockwise from the top. */
export const ARRANGEMENTS = ['row', 'cell', 'ring'] as const;
/** How single LEDs are arranged: in a row, as a cell of two by three, or in a ring. */
export type Arrangement = (typeof ARRANGEMENTS)[number];

/** One hole of a strip. */
export interface PlacedLeg {
  readonly row: Row;
  readonly column: Column;
}

/** near: the leg that its output drives; far: the one that goes to a rail through a resistor. */
export interface LedSpot {
  readonly near: PlacedLeg;
  readonly far: PlacedLeg;
}

/** Middle of the LED: rows of the board from the arrangement's own middle; and the column in which it lies along the board, or the trench that it spans. */
type Place = readonly [rows: number, across: Column | 'trench' | 'trench, from below'];

/** h and c are three and a half pitches from the middle of the trench: with four rows between the columns, the dots stand as far apart both ways. */
const CELL: readonly Place[] = [-2, 2].flatMap((rows): Place[] => [
  [rows, 'h'],
  [rows, 'trench'],
  [rows, 'c'],
]);

/** All within half a pitch of a circle of 4.7 pitches; as many wires come from above as from below. */
const RING: readonly Place[] = [
  [0, 'i'],
  [3, 'h'],
  [5, 'trench'],
  [3, 'c'],
  [0, 'b'],
  [-3, 'c'],
  [-5, 'trench, from below'],
  [-3, 'h'],
];

const SHAPES: Readonly<Record<Exclude<Arrangement, 'row'>, readonly Place[]>> = { cell: CELL, ring: RING };

/** LEDs that an arrangement is for; undefined: any number. */
export const ledsOf = (arrangement: Arrangement): number | undefined => (arrangement === 'row' ? undefined : SHAPES[arrangement].length);

/** Arrangements in which so many LEDs can stand. */
export const arrangementsFor = (leds: number): readonly Arrangement[] => ARRANGEMENTS.filter((a) => (ledsOf(a) ?? leds) === leds);

const STEP = 3;

/** From an arrangement's first row to its middle. */
const MIDDLE: Readonly<Record<Arrangement, number>> = { row: 0, cell: 3, ring: 5 };

/** first: the row in which the first legs stand. */
export function ledSpots(board: PlanBoard, arrangement: Arrangement, leds: number, first = 1): readonly LedSpot[] {
  const places = arrangement === 'row' ? Array.from({ length: leds }, (_, i): Place => [STEP * i, 'trench']) : SHAPES[arrangement];
  return places.map(([rows, across]) => spotAt(board, first + MIDDLE[arrangement] + rows, across));
}

/** The LED spans the trench: it can be driven from either side. */
const spansTrench = ({ near, far }: LedSpot): boolean => near.row.row === far.row.row;

/** The same LED, driven from this side if it can be. */
export const drivenFrom = (spot: LedSpot, side: Row['side']): LedSpot =>
  spansTrench(spot) && spot.near.row.side !== side ? { near: spot.far, far: spot.near } : spot;

function spotAt(board: PlanBoard, row: number, across: Place[1]): LedSpot {
  if (across === 'trench' || across === 'trench, from below') {
    const upper: PlacedLeg = { row: { board, row, side: 'upper' }, column: 'f' };
    const lower: PlacedLeg = { row: { board, row, side: 'lower' }, column: 'e' };
    return across === 'trench' ? { near: upper, far: lower } : { near: lower, far: upper };
  }
  const side = across <= 'e' ? 'lower' : 'upper';
  return { near: { row: { board, row: row - 1, side }, column: across }, far: { row: { board, row: row + 1, side }, column: across } };
}
