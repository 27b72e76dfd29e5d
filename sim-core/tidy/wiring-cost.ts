/** What a wiring costs: weights of our own choice, tried on builds by chance, with which a search finds wiring that can be followed. */
import type { Covered } from './drawn-bench.ts';
import { conflicts, cross, goesOver, lengthOf, nearEnds, onOneLine, type Segment } from './lines.ts';

/** A wire or a part with two legs. path: as it is drawn, round the parts in its way. */
export interface Costed {
  readonly isWire: boolean;
  readonly line: Segment;
  readonly path: readonly Segment[];
}

const WIRE = 7;
/** of the square of its length */
const LONG = 0.012;
/** each pitch beyond the longest there was */
const LONGER = 4;
/** a slanted wire; a slanted part, which stands out among others in a row, and each pitch that it leans */
const SLANTED = { wire: 3, part: 12, lean: 5 } as const;
const CORNER = 1.5;
const OVER_PART = 26;
const OVER_LED = 5;
/** of two wires, a wire and a part, two parts */
const CROSSING = { wires: 9, mixed: 6, parts: 8 } as const;
const NEAR = 3;
/** of a wire and a part in one line, of which the wire is drawn aside */
const IN_LINE = 2;

/** By itself. longest: as long as the longest wire was before [pitch]. */
export function costAlone({ isWire, line, path }: Costed, bodies: readonly Covered[], longest: number): number {
  let length = 0;
  for (let i = 0; i < path.length; i++) length += lengthOf(path[i] as Segment);
  let cost = (isWire ? WIRE : 0) + length + LONG * length * length + LONGER * Math.max(0, length - longest);
  const [across, along] = [Math.abs(line.ax - line.bx), Math.abs(line.ay - line.by)];
  if (across > 0 && along > 0) cost += isWire ? SLANTED.wire : SLANTED.part + SLANTED.lean * Math.min(across, along);
  if (path.length > 1) cost += CORNER;
  for (let i = 0; i < bodies.length; i++) {
    const body = bodies[i] as Covered;
    if (path.length === 1 ? goesOver(line, body) : path.some((part) => goesOver(part, body))) cost += body.led ? OVER_LED : OVER_PART;
  }
  return cost;
}

/** Of two that are in each other's way. */
export function costBetween(a: Costed, b: Costed): number {
  const each = a.isWire && b.isWire ? CROSSING.wires : a.isWire || b.isWire ? CROSSING.mixed : CROSSING.parts;
  if (a.path.length > 1 || b.path.length > 1) {
    const { crossings, near } = conflicts(a.path, b.path);
    return NEAR * near + each * crossings;
  }
  if (a.isWire !== b.isWire && onOneLine(a.line, b.line)) return IN_LINE;
  const near = NEAR * nearEnds(a.line, b.line);
  return cross(a.line, b.line) ? near + each : near;
}
