/** The holes and strips of a bench by number, for a search that tries many: where each hole is, and what of a strip stays as it is. */
import { findNets } from '../board/nets.ts';
import { type Hole, holeName, holeSpot, holesOf, isRailHole, stripOf } from '../board/tie-points.ts';
import { partKind } from '../parts/catalogue.ts';
import type { Covered, DrawnBench } from './drawn-bench.ts';

/** A strip, or a terminal beside the boards, which has no holes. */
export interface Strip {
  net: number;
  readonly rail: boolean;
  /** undefined of a terminal */
  readonly board: string | undefined;
  readonly holes: number[];
  /** legs of parts that stay */
  legs: number;
  /** one of them is a switch's */
  switched: boolean;
}

/** of a hole: x, y [pitch] and the number of its strip. ofNet: the strips in use, by net. */
export interface StripIndex {
  readonly holes: readonly Hole[];
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly stripOfHole: Int32Array;
  readonly strips: readonly Strip[];
  readonly ofNet: readonly number[][];
  /** how many things are in a hole or lie over it */
  readonly taken: Uint8Array;
  /** number of this hole; −1 if there is none */
  numberOf(hole: Hole | undefined): number;
  /** number of this strip or terminal */
  stripNumber(name: string): number;
}

/** This part covers a spot of the board. */
export const isUnder = ([x, y]: readonly [number, number], b: Covered): boolean => x > b.left && x < b.right && y > b.top && y < b.bottom;

/** moves: parts that do not stay. */
export function indexStrips({ layout, bodies }: DrawnBench, moves: ReadonlySet<string>): StripIndex {
  const { boards } = layout.plan;
  const nets = findNets(layout);
  const holes = boards.flatMap(holesOf);
  const strips: Strip[] = [];
  const byName = new Map<string, number>();
  const stripNumber = (name: string, on?: Hole): number => {
    const known = byName.get(name);
    if (known !== undefined) return known;
    byName.set(name, strips.length);
    return (
      strips.push({
        net: nets.ofStrip.get(name)?.index ?? -1,
        rail: on !== undefined && isRailHole(on),
        board: on?.board.id,
        holes: [],
        legs: 0,
        switched: false,
      }) - 1
    );
  };
  const stripOfHole = Int32Array.from(holes, (hole, i) => {
    const strip = stripNumber(stripOf(hole), hole);
    strips[strip]?.holes.push(i);
    return strip;
  });
  for (const { part, strip: name } of layout.legs) {
    const strip = strips[stripNumber(name)];
    if (!strip || moves.has(part.id)) continue;
    strip.legs += 1;
    strip.switched ||= partKind(part.kind)?.group === 'switch';
  }
  const numbers = new Map(holes.map((hole, i) => [holeName(hole, boards), i]));
  const spots = holes.map(holeSpot);
  return {
    holes,
    x: Float64Array.from(spots, ([x]) => x),
    y: Float64Array.from(spots, ([, y]) => y),
    stripOfHole,
    strips,
    ofNet: nets.all.map((net) => net.strips.map((name) => stripNumber(name))),
    taken: Uint8Array.from(
      holes,
      (hole, i) => Number(layout.taken.has(holeName(hole, boards))) + bodies.filter((b) => isUnder(spots[i] ?? [0, 0], b)).length,
    ),
    numberOf: (hole) => (hole ? (numbers.get(holeName(hole, boards)) ?? -1) : -1),
    stripNumber: (name) => stripNumber(name),
  };
}
