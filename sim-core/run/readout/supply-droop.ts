/**
 * How far each chip's supply dips on the way from one rest to the next: below the lower of where it stood and where it is heading.
 * Only with real wiring: ideal rails, and edges that follow at once, leave next to nothing. Without inductance, so a real dip of nanoseconds is deeper.
 */
import { GROUND, type Node } from '../../devices/network.ts';
import type { ChipSite } from '../circuit/sites.ts';

/** The deepest since an act began. */
export interface SupplyDroop {
  /** lowest supply, and how far that is below its rest [V] */
  readonly low: number;
  readonly volts: number;
  /** how long it would have lasted had it been so deep all along: its area over its depth [s] */
  readonly seconds: number;
}

/** Shallower dips are not spoken of [V]. */
const NOTABLE = 1e-3;

/** Time since the way began [s], and the depth [V]. */
interface Look {
  readonly at: number;
  readonly depth: number;
}

/** The way of one supply from rest to rest. */
interface Way {
  last: Look | undefined;
  before: Look | undefined;
  /** [V·s] */
  area: number;
  depth: number;
}
const newWay = (): Way => ({ last: undefined, before: undefined, area: 0, depth: 0 });

export class SupplyDroops {
  private readonly chips: readonly ChipSite[];
  /** in the order of the chips; undefined: none worth speaking of */
  readonly deepest: (SupplyDroop | undefined)[];
  /** where each supply last rested */
  private readonly rested: Float64Array;
  private ways: Way[];

  constructor(chips: readonly ChipSite[]) {
    this.chips = chips;
    this.deepest = this.chips.map(() => undefined);
    this.rested = new Float64Array(this.chips.length);
    this.ways = this.chips.map(newWay);
  }

  /** an act begins: what was before is forgotten */
  clear(): void {
    this.deepest.fill(undefined);
    this.ways = this.chips.map(newWay);
  }

  /** voltages are x now, `moved` [s] after they were last looked at, and head for `end`; resting: they have arrived */
  look(x: Float64Array, end: Float64Array, moved: number, resting: boolean): void {
    for (const [i, chip] of this.chips.entries()) {
      const now = this.volts(x, chip);
      const rest = Math.min(this.rested[i] as number, this.volts(end, chip));
      const way = this.ways[i] as Way;
      follow(way, { at: (way.last?.at ?? 0) + moved, depth: Math.max(0, rest - now) });
      if (way.depth > Math.max(NOTABLE, this.deepest[i]?.volts ?? 0) || way.depth === this.deepest[i]?.volts)
        this.deepest[i] = { low: rest - way.depth, volts: way.depth, seconds: way.area / way.depth };
      if (!resting) continue;
      this.rested[i] = now;
      this.ways[i] = newWay();
    }
  }

  private volts(x: Float64Array, chip: ChipSite): number {
    return at(x, chip.supply.node) - at(x, chip.ground.node);
  }
}

const at = (x: Float64Array, node: Node): number => (node === GROUND ? 0 : (x[node] as number));

/** Area by trapezia; depth by the parabola through the deepest look and its neighbours. */
function follow(way: Way, here: Look): void {
  const { last, before } = way;
  if (last) way.area += ((here.at - last.at) * (here.depth + last.depth)) / 2;
  way.depth = Math.max(way.depth, here.depth, before && last ? vertex(before, last, here) : 0);
  way.before = last;
  way.last = here;
}

/** Height of the parabola through three looks of which the middle one is the highest; its own height at a jump, where two are one moment. */
function vertex(a: Look, b: Look, c: Look): number {
  if (a.at === b.at || b.at === c.at || b.depth < a.depth || b.depth < c.depth) return b.depth;
  const left = (b.depth - a.depth) / (b.at - a.at);
  const right = (c.depth - b.depth) / (c.at - b.at);
  const bend = (right - left) / (c.at - a.at);
  const slope = left + bend * (b.at - a.at);
  return bend < 0 ? b.depth - slope ** 2 / (4 * bend) : b.depth;
}
