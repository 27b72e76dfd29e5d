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

/** Where a terminal off the boards is, as a strip of its own. */
const terminalStrip = (part: string, pin: string): string => `${part}.${pin}`;

/** Places everything, or names the first thing that cannot be where the plan says. Fails with `plan/…`. */
export function layOut(plan: Plan, shapeOf: (part: PlanPart) => Outcome<Shape>): Outcome<Layout> {
  const unique = checkIds(plan);
  if (!unique.ok) return unique;
  const taken = new TakenHoles(plan.boards);
  const legs = layLegs(plan, shapeOf, taken);
  if (!legs.ok) return legs;
  const ends = layEnds(plan, legs.value, taken);
  if (!ends.ok) return ends;
  return done({ plan, legs: legs.value, ends: ends.value, taken: taken.byName });
}

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

/** One hole, one leg. */
class TakenHoles {
  /** hole name → what is in it */
  readonly byName = new Map<string, string>();
  private readonly boards: readonly PlanBoard[];

  constructor(boards: readonly PlanBoard[]) {
    this.boards = boards;
  }

  /** Takes the hole and answers its strip. by: "R1 pin 2"; at: where in the plan it is, for the refusal. */
  take(hole: Hole, by: string, at: string): Outcome<string> {
    const name = holeName(hole, this.boards);
    const before = this.byName.get(name);
    if (before !== undefined)
      return failed('plan/hole-taken', at, `${name} is taken by ${before}, so ${by} cannot go there. Use another hole in the same row.`);
    this.byName.set(name, by);
    return done(stripOf(hole));
  }
}

function layLegs(plan: Plan, shapeOf: (part: PlanPart) => Outcome<Shape>, taken: TakenHoles): Outcome<readonly Leg[]> {
  const legs: Leg[] = [];
  for (const [i, part] of plan.parts.entries()) {
    const at = `parts/${i}`;
    const shape = shapeOf(part);
    if (!shape.ok) return failed(shape.failure.code, `${at}/${shape.failure.at}`, shape.failure.says);
    const { footprint, pins } = shape.value;
    if (footprint.shape === 'off-board') {
      if (part.at !== undefined)
        return failed(
          'plan/no-place',
          `${at}/at`,
          `${part.id} is beside the boards and has no leg to put into ${part.at}. Leave "at" out and give "spot".`,
        );
      for (const pin of pins) legs.push({ part, pin, strip: terminalStrip(part.id, pin) });
      continue;
    }
    const holes = holesOfPart(plan.boards, part, footprint, at);
    if (!holes.ok) return holes;
    for (const [k, hole] of holes.value.entries()) {
      const pin = pins[k] ?? String(k + 1);
      const strip = taken.take(hole, `${part.id} pin ${pin}`, at);
      if (!strip.ok) return strip;
      legs.push({ part, pin, hole, strip: strip.value });
    }
  }
  return done(legs);
}

function layEnds(plan: Plan, legs: readonly Leg[], taken: TakenHoles): Outcome<readonly WireEnd[]> {
  const terminals = new Set(legs.flatMap((leg) => (leg.hole ? [] : [leg.strip])));
  const ends: WireEnd[] = [];
  for (const [i, wire] of plan.wires.entries())
    for (const end of ['from', 'to'] as const) {
      const name = wire[end];
      const at = `wires/${i}/${end}`;
      if (terminals.has(name)) {
        ends.push({ wire, end, strip: name });
        continue;
      }
      if (name.includes('.'))
        return failed('plan/unknown-hole', at, `Wire ${wire.id} ends at ${name}, but no part here has a terminal of that name.`);
      const hole = readHole(name, plan.boards);
      if (!hole.ok) return failed('plan/unknown-hole', at, `Wire ${wire.id}: ${hole.failure.says}`);
      const strip = taken.take(hole.value, `wire ${wire.id}`, at);
      if (!strip.ok) return strip;
      ends.push({ wire, end, hole: hole.value, strip: strip.value });
    }
  return done(ends);
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
