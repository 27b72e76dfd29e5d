/** Where every leg and wire's end is: the plan's names turned into holes and strips, or the sentence that says what does not fit. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanBoard, PlanPart, PlanWire } from '../../shared/plan.ts';
import { type Footprint, legHoles } from './footprints.ts';
import { type Hole, holeName, readHole, stripOf } from './tie-points.ts';

/** One leg of a part, or one terminal of a part that stands off the boards. */
export interface Leg {
  readonly part: PlanPart;
  /** as printed on the data sheet: '1' … '24', or '+', '-' */
  readonly pin: string;
  /** absent for a terminal off the boards */
  readonly hole?: Hole;
  /** the piece of metal it touches */
  readonly strip: string;
}

export interface WireEnd {
  readonly wire: PlanWire;
  readonly end: 'from' | 'to';
  readonly hole?: Hole;
  readonly strip: string;
}

/** Where every leg and wire end of a plan is: by hole, and by the strip of metal that it touches. */
export interface Layout {
  readonly plan: Plan;
  readonly legs: readonly Leg[];
  readonly ends: readonly WireEnd[];
  /** hole name → what is in it, for looking up and for refusing a second leg */
  readonly taken: ReadonlyMap<string, string>;
}

/** What the layout needs to know of a part kind. */
export interface Shape {
  readonly footprint: Footprint;
  /** pin numbers or terminal names, in the footprint's order */
  readonly pins: readonly string[];
}

type ShapeOf = (part: PlanPart) => Outcome<Shape>;

/** Where a terminal off the boards is, as a strip of its own. */
const terminalStrip = (part: string, pin: string): string => `${part}.${pin}`;

/** Places everything, or names the first thing that cannot be where the plan says. Fails with `plan/…`. */
export function layOut(plan: Plan, shapeOf: ShapeOf): Outcome<Layout> {
  const unique = checkIds(plan);
  if (!unique.ok) return unique;
  layings += 1;
  const legs = layLegs(plan, shapeOf);
  if (!legs.ok) return legs;
  const ends = layEnds(plan, legs.value);
  if (!ends.ok) return ends;
  return done(new WholeLayout(plan, legs.value, ends.value));
}

class WholeLayout implements Layout {
  private named: ReadonlyMap<string, string> | undefined;

  constructor(
    readonly plan: Plan,
    readonly legs: readonly Leg[],
    readonly ends: readonly WireEnd[],
  ) {}

  get taken(): ReadonlyMap<string, string> {
    const { boards } = this.plan;
    this.named ??= new Map([
      ...this.legs.flatMap(({ hole, part, pin }) => (hole ? [[holeName(hole, boards), legText(part, pin)] as const] : [])),
      ...this.ends.flatMap(({ hole, wire }) => (hole ? [[holeName(hole, boards), wireText(wire)] as const] : [])),
    ]);
    return this.named;
  }
}

const legText = (part: PlanPart, pin: string): string => `${part.id} pin ${pin}`;
const wireText = (wire: PlanWire): string => `wire ${wire.id}`;

function checkIds(plan: Plan): Outcome<void> {
  const ids = new Set<string>();
  for (const [list, things] of [
    ['boards', plan.boards],
    ['parts', plan.parts],
    ['wires', plan.wires],
  ] as const)
    for (const [i, { id }] of things.entries()) {
      if (ids.has(id))
        return failed('plan/id-taken', `${list}/${i}/id`, `Two things on this bench are called ${id}. Give one of them another id.`);
      ids.add(id);
    }
  return done(undefined);
}

/** A leg's or a wire's end in a hole: what a refusal calls both. */
interface InHole<T> {
  readonly end: T;
  readonly name: string;
  readonly by: string;
  readonly room?: HoleRoom;
}

/** What came last into a hole of these boards, and in which laying out. */
interface HoleRoom {
  laying: number;
  by: string;
}

/** Layings out until now. */
let layings = 0;
/** By boards, then by hole name: made once, so that a plan that differs little from the last one makes no list of names. */
const rooms = new WeakMap<readonly PlanBoard[], Map<string, HoleRoom>>();

function roomOf(boards: readonly PlanBoard[], name: string): HoleRoom {
  const all = rooms.get(boards) ?? new Map<string, HoleRoom>();
  rooms.set(boards, all);
  const room = all.get(name) ?? { laying: 0, by: '' };
  all.set(name, room);
  return room;
}

/** One hole, one leg. at: where in the plan it is, for the refusal. */
function take({ room, name, by }: InHole<unknown>, at: string, place: number, end = ''): Outcome<void> | undefined {
  if (!room) return undefined;
  if (room.laying === layings)
    return failed(
      'plan/hole-taken',
      `${at}/${place}${end}`,
      `${name} is taken by ${room.by}, so ${by} cannot go there. Use another hole in the same row.`,
    );
  room.laying = layings;
  room.by = by;
  return undefined;
}

/** Where a thing is on these boards, of this shape; things never change, so that it is found once. */
interface Laid<T> {
  readonly boards: readonly PlanBoard[];
  readonly by: unknown;
  readonly ends: readonly InHole<T>[];
}

const laidParts = new WeakMap<PlanPart, Laid<Leg>>();
const laidWires = new WeakMap<PlanWire, Laid<WireEnd>>();

function layLegs({ boards, parts }: Plan, shapeOf: ShapeOf): Outcome<readonly Leg[]> {
  const legs: Leg[] = [];
  for (const [i, part] of parts.entries()) {
    const known = laidParts.get(part);
    const laid = known?.boards === boards && known.by === shapeOf ? done(known) : layPart(boards, part, shapeOf, `parts/${i}`);
    if (!laid.ok) return laid;
    const { ends } = laid.value;
    for (let k = 0; k < ends.length; k++) {
      const inHole = ends[k] as InHole<Leg>;
      const refused = take(inHole, 'parts', i);
      if (refused?.ok === false) return refused;
      legs.push(inHole.end);
    }
  }
  return done(legs);
}

function layPart(boards: readonly PlanBoard[], part: PlanPart, shapeOf: ShapeOf, at: string): Outcome<Laid<Leg>> {
  const shape = shapeOf(part);
  if (!shape.ok) return failed(shape.failure.code, `${at}/${shape.failure.at}`, shape.failure.says);
  const { footprint, pins } = shape.value;
  const keep = (ends: readonly InHole<Leg>[]): Outcome<Laid<Leg>> => {
    const laid = { boards, by: shapeOf, ends };
    laidParts.set(part, laid);
    return done(laid);
  };
  if (footprint.shape === 'off-board') {
    if (part.at !== undefined)
      return failed(
        'plan/no-place',
        `${at}/at`,
        `${part.id} is beside the boards and has no leg to put into ${part.at}. Leave "at" out and give "spot".`,
      );
    return keep(pins.map((pin) => ({ end: { part, pin, strip: terminalStrip(part.id, pin) }, name: '', by: '' })));
  }
  const holes = holesOfPart(boards, part, footprint, at);
  if (!holes.ok) return holes;
  return keep(
    holes.value.map((hole, k) => {
      const pin = pins[k] ?? String(k + 1);
      const name = holeName(hole, boards);
      return { end: { part, pin, hole, strip: stripOf(hole) }, name, by: legText(part, pin), room: roomOf(boards, name) };
    }),
  );
}

const ENDS = ['from', 'to'] as const;

function layEnds({ boards, wires }: Plan, legs: readonly Leg[]): Outcome<readonly WireEnd[]> {
  const terminals = new Set<string>();
  for (const { hole, strip } of legs) if (!hole) terminals.add(strip);
  const ends: WireEnd[] = [];
  for (const [i, wire] of wires.entries()) {
    const last = laidWires.get(wire);
    const laid = last?.boards === boards ? last : { boards, by: undefined, ends: [] as InHole<WireEnd>[] };
    for (let k = 0; k < ENDS.length; k++) {
      const end = ENDS[k] as WireEnd['end'];
      const name = wire[end];
      if (terminals.has(name)) {
        ends.push({ wire, end, strip: name });
        continue;
      }
      const known = laid.ends[k];
      const placed = known ? done(known) : layEnd(boards, wire, end, `wires/${i}/${end}`);
      if (!placed.ok) return placed;
      const refused = take(placed.value, 'wires', i, `/${end}`);
      if (refused?.ok === false) return refused;
      ends.push(placed.value.end);
      if (laid !== last) (laid.ends as InHole<WireEnd>[])[k] = placed.value;
    }
    laidWires.set(wire, laid);
  }
  return done(ends);
}

function layEnd(boards: readonly PlanBoard[], wire: PlanWire, end: 'from' | 'to', at: string): Outcome<InHole<WireEnd>> {
  const name = wire[end];
  if (name.includes('.'))
    return failed('plan/unknown-hole', at, `Wire ${wire.id} ends at ${name}, but no part here has a terminal of that name.`);
  const hole = readHole(name, boards);
  if (!hole.ok) return failed('plan/unknown-hole', at, `Wire ${wire.id}: ${hole.failure.says}`);
  const strip = stripOf(hole.value);
  const place = holeName(hole.value, boards);
  return done({ end: { wire, end, hole: hole.value, strip }, name: place, by: wireText(wire), room: roomOf(boards, place) });
}

/**
 * The holes of all legs of a part that stands on a board, in order of pin number. `at`: where in the plan it is, for refusals.
 * Fails with `plan/does-not-fit`, `plan/no-place` or `plan/unknown-hole`.
 */
export function holesOfPart(boards: readonly PlanBoard[], part: PlanPart, footprint: Footprint, at: string): Outcome<readonly Hole[]> {
  if (part.at === undefined) return failed('plan/no-place', at, `${part.id} has no place: give the hole of pin 1 as "at".`);
  const first = readHole(part.at, boards);
  if (!first.ok) return failed('plan/unknown-hole', `${at}/at`, `${part.id}: ${first.failure.says}`);
  if (footprint.shape === 'two-leg') {
    if (part.to === undefined) return failed('plan/no-place', at, `${part.id} has two legs: give the hole of the second as "to".`);
    const second = readHole(part.to, boards);
    if (!second.ok) return failed('plan/unknown-hole', `${at}/to`, `${part.id}: ${second.failure.says}`);
    return done([first.value, second.value]);
  }
  const placed = legHoles(footprint, first.value, part.rotated === true);
  if ('noHoleFor' in placed)
    return failed(
      'plan/does-not-fit',
      `${at}/at`,
      `${part.id} does not fit at ${part.at}: there is no hole for pin ${placed.noHoleFor}. Move it along the board, or to a column from which it spans the trench.`,
    );
  return done(placed.holes);
}
