/** The wiring of a bench while it is tidied: which line ends in which hole, which holes are free, and what it costs. */
import type { Plan, PlanPart } from '../../shared/plan.ts';
import type { Leg, WireEnd } from '../board/layout.ts';
import { holeName } from '../board/tie-points.ts';
import { partKind } from '../parts/catalogue.ts';
import { type Covered, type DrawnBench, isBent } from './drawn-bench.ts';
import { goesOver, lengthOf, NEAR, type Segment } from './lines.ts';
import { indexStrips, type Strip, type StripIndex } from './strip-index.ts';
import { roundBodies } from './wire-paths.ts';
import { type Costed, costAlone, costBetween } from './wiring-cost.ts';

export type End = 0 | 1;

/** A wire or a part with two legs, whose ends may go elsewhere. holes: by end, −1 for a terminal beside the boards; strips: those it joins. */
export interface Movable extends Costed {
  readonly id: string;
  readonly line: Segment;
  path: readonly Segment[];
  readonly holes: [number, number];
  readonly strips: [number, number];
  /** this end stays among strips with a switch: a pull resistor's */
  readonly atSwitch: readonly [boolean, boolean];
  /** its ends go into other holes of their strips alone */
  readonly staysInStrips: boolean;
  readonly locked: boolean;
  /** false: it is not needed any more */
  there: boolean;
}

/** Legs of a part that can be shifted along its board, and what it covers. */
export interface Stand {
  readonly id: string;
  readonly legs: number[];
  readonly body: Covered;
}

/** A resistor goes where its wiring is short; other parts with two legs stay in their strips: a capacitor at its chip, a diode at its coil. */
const goesAnywhere = (part: PlanPart): boolean => {
  const [figure] = partKind(part.kind)?.params ?? [];
  return figure?.type === 'number' && figure.unit === 'Ω';
};
/** Groups of parts that can be shifted: a memory stays, and so does what lights, whose place beside others tells something. */
const SHIFTED: ReadonlySet<string> = new Set(['switch', 'logic']);

export class WiringState {
  readonly index: StripIndex;
  readonly lines: readonly Movable[];
  readonly stands: readonly Stand[];
  readonly bodies: readonly Covered[];
  private readonly longest: number;
  /** of each line, by its place in `lines`: left, right, top, bottom, grown so that what lies outside is not near */
  private readonly reach: Float64Array;
  private readonly placeOf: ReadonlyMap<Movable, number>;
  private inTheWay: readonly Covered[] = [];
  /** paths of wires that have something in their way, by their holes */
  private readonly round = new Map<number, readonly Segment[]>();

  /** locked: what stays where it is */
  constructor({ layout, strokes, bodies }: DrawnBench, locked: ReadonlySet<string>) {
    const { plan, legs, ends } = layout;
    const bent = plan.parts.filter(isBent);
    this.index = indexStrips({ layout, strokes, bodies }, new Set(bent.map((p) => p.id)));
    this.bodies = bodies.map((body) => ({ ...body }));
    const lines = new Map(strokes.map(({ id, line }) => [id, line]));
    const movable = (id: string, part: PlanPart | undefined, at: readonly (Leg | WireEnd)[]): Movable => {
      const strips = at.map((end) => this.index.stripNumber(end.strip)) as [number, number];
      const [a, b] = strips.map((strip) => this.strip(strip)) as [Strip, Strip];
      return {
        id,
        isWire: part === undefined,
        line: { ...(lines.get(id) as Segment) },
        path: [],
        holes: at.map((end) => this.index.numberOf(end.hole)) as [number, number],
        strips,
        atSwitch: part ? [b.rail && a.switched, a.rail && b.switched] : [false, false],
        staysInStrips: part !== undefined && !goesAnywhere(part),
        locked: locked.has(id),
        there: true,
      };
    };
    const legsOf = (id: string) => legs.filter((leg) => leg.part.id === id);
    this.lines = [
      ...plan.wires.map(({ id }, i) => movable(id, undefined, ends.slice(2 * i, 2 * i + 2))),
      ...bent.map((part) => movable(part.id, part, legsOf(part.id))),
    ];
    this.stands = this.bodies.flatMap((body) => {
      const part = plan.parts.find((p) => p.id === body.part);
      if (!part || locked.has(part.id) || !SHIFTED.has(partKind(part.kind)?.group ?? '')) return [];
      const holes = legsOf(part.id).map((leg) => this.index.numberOf(leg.hole));
      return holes.every((hole) => hole >= 0 && !this.strip(this.index.stripOfHole[hole] as number).rail)
        ? [{ id: part.id, legs: holes, body }]
        : [];
    });
    this.placeOf = new Map(this.lines.map((line, i) => [line, i]));
    this.reach = new Float64Array(4 * this.lines.length);
    this.bodiesMoved();
    this.longest = Math.max(0, ...this.lines.map(({ isWire, line }) => (isWire ? lengthOf(line) : 0)));
  }

  strip(number: number): Strip {
    return this.index.strips[number] as Strip;
  }

  isFree(hole: number): boolean {
    return this.index.taken[hole] === 0;
  }

  /** Puts an end into a hole, which must be free. */
  put(line: Movable, end: End, hole: number): void {
    const { taken, stripOfHole, x, y } = this.index;
    const before = line.holes[end];
    if (before >= 0) (taken[before] as number) -= 1;
    (taken[hole] as number) += 1;
    line.holes[end] = hole;
    line.strips[end] = stripOfHole[hole] as number;
    if (end === 0) {
      line.line.ax = x[hole] as number;
      line.line.ay = y[hole] as number;
    } else {
      line.line.bx = x[hole] as number;
      line.line.by = y[hole] as number;
    }
    this.lead(line);
  }

  /** What is in the way is elsewhere now. */
  bodiesMoved(): void {
    this.inTheWay = this.bodies.filter((body) => !body.led);
    this.round.clear();
    for (const line of this.lines) this.lead(line);
  }

  /** Its path between its holes. */
  private lead(line: Movable): void {
    line.path = line.isWire ? this.wayOf(line) : [line.line];
    const at = 4 * (this.placeOf.get(line) ?? 0);
    const { reach } = this;
    reach[at] = reach[at + 2] = Number.POSITIVE_INFINITY;
    reach[at + 1] = reach[at + 3] = Number.NEGATIVE_INFINITY;
    for (const { ax, ay, bx, by } of line.path) {
      reach[at] = Math.min(reach[at] as number, ax - NEAR, bx - NEAR);
      reach[at + 1] = Math.max(reach[at + 1] as number, ax + NEAR, bx + NEAR);
      reach[at + 2] = Math.min(reach[at + 2] as number, ay - NEAR, by - NEAR);
      reach[at + 3] = Math.max(reach[at + 3] as number, ay + NEAR, by + NEAR);
    }
  }

  private wayOf({ line, holes: [a, b] }: Movable): readonly Segment[] {
    const { inTheWay } = this;
    let clear = true;
    for (let i = 0; i < inTheWay.length && clear; i++) clear = !goesOver(line, inTheWay[i] as Covered);
    if (clear) return [line];
    const key = a * this.index.holes.length + b;
    const known = a >= 0 && b >= 0 ? this.round.get(key) : undefined;
    if (known) return known.length > 1 ? known : [line];
    const found = roundBodies({ ...line }, inTheWay);
    this.round.set(key, found);
    return found.length > 1 ? found : [line];
  }

  /** Takes a wire away, or lays it again where it was. */
  lay(line: Movable, there: boolean): void {
    line.there = there;
    for (const hole of line.holes) if (hole >= 0) (this.index.taken[hole] as number) += there ? 1 : -1;
  }

  /** What these lines cost: each by itself, with all others, and each pair of them once. */
  cost(of: readonly Movable[]): number {
    const { reach, lines } = this;
    let sum = 0;
    for (let i = 0; i < of.length; i++) {
      const line = of[i] as Movable;
      if (!line.there) continue;
      sum += costAlone(line, this.bodies, this.longest);
      const own = 4 * (this.placeOf.get(line) ?? 0);
      const [left, right] = [(reach[own] as number) + NEAR, (reach[own + 1] as number) - NEAR];
      const [top, bottom] = [(reach[own + 2] as number) + NEAR, (reach[own + 3] as number) - NEAR];
      for (let k = 0, at = 0; k < lines.length; k++, at += 4) {
        if ((reach[at] as number) > right || (reach[at + 1] as number) < left) continue;
        if ((reach[at + 2] as number) > bottom || (reach[at + 3] as number) < top) continue;
        const other = lines[k] as Movable;
        if (!other.there || other === line) continue;
        const place = of.length > 1 ? of.indexOf(other) : -1;
        if (place < 0 || place > i) sum += costBetween(line, other);
      }
    }
    return sum;
  }

  /** This strip is needed whatever lines end there: a rail, or one in which a leg stands. */
  keeps(strip: number): boolean {
    const { rail, legs } = this.strip(strip);
    return rail || legs > 0;
  }

  /** Lines with an end in this strip. */
  endingAt(strip: number): Movable[] {
    return this.lines.filter(({ there, strips }) => there && (strips[0] === strip || strips[1] === strip));
  }

  /** The same plan with its lines as they lie now. */
  planOf(plan: Plan): Plan {
    const now = new Map(this.lines.map((line) => [line.id, line]));
    const name = (hole: number, before: string) => {
      const found = this.index.holes[hole];
      return found ? holeName(found, plan.boards) : before;
    };
    return {
      ...plan,
      wires: plan.wires.flatMap((wire) => {
        const line = now.get(wire.id);
        if (!line) return [wire];
        return line.there ? [{ ...wire, from: name(line.holes[0], wire.from), to: name(line.holes[1], wire.to) }] : [];
      }),
      parts: plan.parts.map((part) => {
        const stand = this.stands.find(({ id }) => id === part.id);
        if (stand && part.at !== undefined) return { ...part, at: name(stand.legs[0] as number, part.at) };
        const line = now.get(part.id);
        return line && part.at !== undefined && part.to !== undefined
          ? { ...part, at: name(line.holes[0], part.at), to: name(line.holes[1], part.to) }
          : part;
      }),
    };
  }
}
