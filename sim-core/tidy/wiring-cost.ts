/** What a wiring costs: weights of our own choice, tried on builds by chance, with which a search finds wiring that can be followed. */
import type { Covered } from './drawn-bench.ts';
import { cross, goesOver, lengthOf, nearEnds, type Segment } from './lines.ts';

/** A wire or a part with two legs. */
export interface Costed {
  readonly isWire: boolean;
  readonly line: Segment;
}

const WIRE = 7;
/** of the square of its length */
const LONG = 0.012;
/** each pitch beyond the longest there was */
const LONGER = 4;
/** a slanted wire; a slanted part, which stands out among others in a row */
const SLANTED = { wire: 3, part: 8 } as const;
const OVER_PART = 26;
const OVER_LED = 5;
/** of two wires, a wire and a part, two parts */
const CROSSING = { wires: 9, mixed: 6, parts: 8 } as const;
const NEAR = 3;

/** By itself. longest: as long as the longest wire was before [pitch]. */
export function costAlone({ isWire, line }: Costed, bodies: readonly Covered[], longest: number): number {
  const length = lengthOf(line);
  let cost = (isWire ? WIRE : 0) + length + LONG * length * length + LONGER * Math.max(0, length - longest);
  if (line.ax !== line.bx && line.ay !== line.by) cost += isWire ? SLANTED.wire : SLANTED.part;
  for (let i = 0; i < bodies.length; i++) cost += costOverPart({ line }, bodies[i] as Covered);
  return cost;
}

/** Of going over this part. */
export function costOverPart({ line }: Pick<Costed, 'line'>, body: Covered): number {
  if (!goesOver(line, body)) return 0;
  return body.led ? OVER_LED : OVER_PART;
}

/** Of two that are in each other's way. */
export function costBetween(a: Costed, b: Costed): number {
  const near = NEAR * nearEnds(a.line, b.line);
  if (!cross(a.line, b.line)) return near;
  return near + (a.isWire && b.isWire ? CROSSING.wires : a.isWire || b.isWire ? CROSSING.mixed : CROSSING.parts);
}
