/** What mistakes with wires and legs have in common: a wire left out, an end or a leg in another hole, and how each is told. */
import { sameValue } from '../../shared/same-value.ts';
import type { WireEnd } from '../board/layout.ts';
import { holeName } from '../board/tie-points.ts';
import { type Change, join, removals } from '../document/changes.ts';
import { reLeg } from '../document/edits/properties.ts';
import { remove } from '../document/edits/remove.ts';
import { turn } from '../document/edits/rotate.ts';
import { reEnd } from '../document/edits/wires.ts';
import { toPin } from '../findings/rule.ts';
import { PARTS } from '../parts/catalogue.ts';
import { type PartKind, readParams } from '../parts/part.ts';
import type { Placed } from '../run/circuit/sites.ts';
import type { FoundFault } from './fault.ts';
import { type FaultBench, type LaidWire, partRef, pinsIn, pointRef, wireRef } from './fault-bench.ts';
import { holeCalled, metalBeside } from './near-holes.ts';

/** The wire is not there. */
export function withoutWire(bench: FaultBench, { wire, ends }: LaidWire): FoundFault {
  return {
    where: wire.id,
    things: [wireRef(wire)],
    places: [
      pointRef(wire.from),
      pointRef(wire.to),
      ...pinsIn(
        bench,
        ends.map((e) => e.strip),
      ),
    ],
    change: join(...removals(bench.plan, 'wires', (w) => w === wire)),
  };
}

/** The part is not there, with what depends on it. */
export function withoutPart(bench: FaultBench, { part, legs }: Placed): FoundFault[] {
  const gone = remove(bench.context, [part.id]);
  if (!gone.ok) return [];
  const places = [
    ...holesOf(bench, legs),
    ...pinsIn(
      bench,
      legs.map((l) => l.strip),
    ),
  ];
  return [{ where: part.id, things: [partRef(part)], places, change: gone.value }];
}

/** One end of a wire is in another hole; where that is no hole for it, there is no such mistake. how: '+1' */
export function withEndAt(bench: FaultBench, { wire, end, strip }: WireEnd, to: string | undefined, how: string): FoundFault[] {
  const change = to === undefined ? undefined : reEnd(bench.context, wire.id, end, to);
  if (to === undefined || !change?.ok) return [];
  const places = [pointRef(wire[end]), pointRef(to), ...pinsIn(bench, [strip])];
  return [{ where: `${wire.id}.${end} ${how}`, things: [wireRef(wire)], places, change: change.value }];
}

/** One leg of a part on two wires, or a whole part by its first leg, is in another hole. */
export function withLegAt(bench: FaultBench, placed: Placed, leg: 'at' | 'to', to: string | undefined, how: string): FoundFault[] {
  const { part, legs } = placed;
  const change = to === undefined ? undefined : reLeg(bench.context, part.id, leg, to);
  const was = part[leg];
  if (to === undefined || was === undefined || !change?.ok) return [];
  const strips = legs.filter((l) => l.hole && (part.to === undefined || holeName(l.hole, bench.plan.boards) === was)).map((l) => l.strip);
  return [
    {
      where: `${part.id}.${leg} ${how}`,
      things: [partRef(part)],
      places: [pointRef(was), pointRef(to), ...pinsIn(bench, strips)],
      change: change.value,
    },
  ];
}

/** A part as another specimen: its parameters, its kind or its health are different. */
export function withPartAs(bench: FaultBench, { part, legs }: Placed, other: Partial<Placed['part']>, how: string): FoundFault {
  const change: Change = { op: 'replace', list: 'parts', before: part, after: { ...part, ...other } };
  return {
    where: `${part.id}${how === '' ? '' : ` ${how}`}`,
    things: [partRef(part)],
    places: [
      ...holesOf(bench, legs),
      ...pinsIn(
        bench,
        legs.map((l) => l.strip),
      ),
    ],
    change,
  };
}

const holesOf = ({ plan }: FaultBench, legs: Placed['legs']) =>
  legs.flatMap((l) => (l.hole ? [pointRef(holeName(l.hole, plan.boards))] : []));

/** A part with rows of legs, one row to the left or to the right, its wires where they were. */
export function oneRowOff(bench: FaultBench, placed: Placed): FoundFault[] {
  const first = placed.part.at === undefined ? undefined : holeCalled(bench, placed.part.at);
  return [-1, 1].flatMap((by) => {
    const hole = first && metalBeside(first, by);
    return withLegAt(bench, placed, 'at', hole && holeName(hole, bench.plan.boards), by < 0 ? '-1' : '+1');
  });
}

/** A part within its own holes, its last pin where its first was. */
export function endForEnd(bench: FaultBench, { part, legs }: Placed): FoundFault[] {
  const change = turn(bench.context, [part.id]);
  if (!change.ok) return [];
  return [{ where: part.id, things: [partRef(part)], places: legs.map(toPin), change: change.value }];
}

/** Another kind with pins of the same names in its place, with what of its parameters that kind knows. */
export function ofOtherKind(bench: FaultBench, placed: Placed): FoundFault[] {
  const { part, kind, params } = placed;
  const pinsOf = (k: PartKind) =>
    k
      .pins(params)
      .map((p) => `${p.name} ${p.role}`)
      .join();
  return PARTS.filter(
    (other) => other !== kind && other.group === kind.group && sameShape(other, kind, params) && pinsOf(other) === pinsOf(kind),
  ).flatMap((other) => {
    const known = Object.entries(part.params ?? {}).filter(([name]) => other.params.some((p) => p.name === name));
    const as = { ...part, kind: other.id, params: Object.fromEntries(known) };
    return readParams(other, as).ok ? [withPartAs(bench, placed, as, other.title)] : [];
  });
}

const sameShape = (a: PartKind, b: PartKind, params: Placed['params']): boolean => sameValue(a.footprint(params), b.footprint(params));

/** What is kept of a part, or of some of its pins, that burnt before: twice what it bears. */
export const burnt = (by: Damage['by'], pins?: readonly string[]): Damage => ({
  by,
  measured: 2,
  limit: 1,
  ...(pins ? { pins: [...pins] } : {}),
});

type Damage = NonNullable<Placed['part']['damaged']>;

/** A resistor of so many times the value. */
export function otherValue(bench: FaultBench, placed: Placed, times: number): FoundFault[] {
  const [spec] = placed.kind.params;
  if (spec?.type !== 'number') return [];
  const value = Number((Number(placed.params[spec.name]) * times).toPrecision(3));
  if (value < spec.least || value > spec.most) return [];
  return [withPartAs(bench, placed, { params: { ...placed.part.params, [spec.name]: value } }, `${value}`)];
}
