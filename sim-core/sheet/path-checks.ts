/** Checks of what runs from chip to chip and to the LEDs, chips out: connections, neighbours that must not touch, resistors in their places, and each LED driven by a wire. */
import type { Leg } from '../board/layout.ts';
import type { Net } from '../board/nets.ts';
import { holeName, isRailHole } from '../board/tie-points.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite, Placed } from '../run/circuit/sites.ts';
import type { CheckBench } from './check-bench.ts';
import { readCheck } from './meter-reading.ts';
import type { LightCheck, StageCheck } from './stage-check.ts';
import type { StageName } from './stages.ts';

/** Pins that this stage joins by metal, each with the first of them; rails apart. */
export function joinChecks(bench: CheckBench, stage: StageName): StageCheck[] {
  const [now, before] = [bench.after(stage), bench.before(stage)];
  const groups = new Map<Net, Leg[]>();
  for (const leg of chipLegs(bench)) {
    const net = now.circuit.nets.ofStrip.get(leg.strip);
    if (net && bench.railOf(leg, now) === undefined) groups.set(net, [...(groups.get(net) ?? []), leg]);
  }
  return [...groups.values()].flatMap(([first, ...others]) =>
    others.flatMap((leg) => {
      if (!first || first.strip === leg.strip) return [];
      const was = before?.circuit.nets.ofStrip.get(leg.strip);
      if (was !== undefined && was === before?.circuit.nets.ofStrip.get(first.strip)) return [];
      return (
        bench.reading(stage, {
          by: 'ohms',
          red: bench.holeOf(first),
          black: bench.holeOf(leg),
          about: { what: 'joined', one: bench.pinWords(first), other: bench.pinWords(leg) },
        }) ?? []
      );
    }),
  );
}

/** All legs of the chips, those of memories first. */
const chipLegs = (bench: CheckBench): readonly Leg[] =>
  [...bench.chips].sort((a, b) => Number(b.spec.word !== undefined) - Number(a.spec.word !== undefined)).flatMap((c) => c.placed.legs);

/** Neighbouring rows of a chip's place, of which this stage has wired at least one, where nothing but a mistake conducts. */
export function apartChecks(bench: CheckBench, stage: StageName): StageCheck[] {
  const [now, before] = [bench.after(stage), bench.before(stage)];
  const net = (leg: Leg) => now.circuit.nets.ofStrip.get(leg.strip);
  const isNew = (leg: Leg) => wiresAt(now, leg) !== wiresAt(before, leg);
  return bench.chips.flatMap(({ placed: { legs } }) =>
    legs.slice(1).flatMap((leg, i) => {
      const other = legs[i];
      if (!other || !neighbours(leg, other) || !net(leg) || !net(other) || net(leg) === net(other)) return [];
      // a rail and what it feeds are told by their voltages
      if (!(isNew(leg) || isNew(other)) || (bench.railOf(leg, now) && bench.railOf(other, now))) return [];
      const about = { what: 'apart', one: bench.pinWords(other), other: bench.pinWords(leg) } as const;
      const check = bench.reading(stage, { by: 'ohms', red: bench.holeOf(other), black: bench.holeOf(leg), about });
      return check && check.expects === undefined ? [check] : [];
    }),
  );
}

/** Wires that end in the row of a leg. */
const wiresAt = (bench: { readonly circuit: Circuit } | undefined, leg: Leg): number =>
  bench?.circuit.nets.ofStrip.get(leg.strip)?.ends.filter((e) => e.strip === leg.strip).length ?? 0;

function neighbours(a: Leg, b: Leg): boolean {
  if (!a.hole || !b.hole || isRailHole(a.hole) || isRailHole(b.hole)) return false;
  return a.hole.column === b.hole.column && Math.abs(a.hole.row - b.hole.row) === 1;
}

/** Resistors of this stage that no other check measures. */
export function resistorChecks(bench: CheckBench, stage: StageName): StageCheck[] {
  return [...bench.whole.placed.values()].flatMap(({ part, kind, params, legs }) => {
    const [one, other] = legs;
    if (bench.stages.get(part.id) !== stage || kind.spread?.of !== 'ohms' || legs.length !== 2 || !one?.hole || !other?.hole) return [];
    const { boards } = bench.whole.plan;
    const about = { what: 'value', part: part.id, value: kind.value?.(params) ?? '' } as const;
    return bench.reading(stage, { by: 'ohms', red: holeName(one.hole, boards), black: holeName(other.hole, boards), about }) ?? [];
  });
}

/** Capacitors of this stage: all between the rails as one reading, every other one in its place. */
export function capacitorChecks(bench: CheckBench, stage: StageName): StageCheck[] {
  const now = bench.after(stage);
  const all = [...now.circuit.placed.values()].filter((p) => p.kind.spread?.of === 'farads' && p.legs.length === 2);
  const isNew = (p: Placed) => bench.stages.get(p.part.id) === stage;
  const decouples = (p: Placed) => p.legs.every((l) => bench.railOf(l, now) !== undefined);
  const parts = all.filter(decouples);
  const sum = parts.some(isNew)
    ? bench.farads(stage, parts, { red: bench.plus, black: bench.minus, about: { what: 'decoupling', parts: parts.map((p) => p.part.id) } })
    : [];
  return [
    ...sum,
    ...all
      .filter((p) => isNew(p) && !decouples(p))
      .flatMap((p) => {
        const [red = '', black = ''] = p.legs.map((l) => bench.holeOf(l));
        return bench.farads(stage, [p], {
          red,
          black,
          about: { what: 'value', part: p.part.id, value: p.kind.value?.(p.params) ?? '' },
        });
      }),
  ];
}

/** Of each output that lights something when a wire takes its place: which rail the wire is on, and what lights. */
export function lightChecks(bench: CheckBench, stage: StageName): StageCheck[] {
  return bench.chips.flatMap((site) => site.outputs.flatMap(({ leg }) => lightOf(bench, stage, site, leg)));
}

function lightOf(bench: CheckBench, stage: StageName, site: ChipSite, leg: Leg): StageCheck[] {
  const { plan } = bench.after(stage);
  if (!bench.netOf(leg, stage) || bench.railOf(leg, bench.after(stage))) return [];
  for (const rail of ['+', '-'] as const) {
    const check = (lights: readonly string[]): LightCheck => ({
      by: 'eye',
      stage,
      closed: [],
      wire: { from: bench.railHoleNear(leg, rail), to: bench.holeOf(leg) },
      lights,
      about: { what: 'output', ...bench.pinWords(leg), part: site.placed.part.id },
    });
    const seen = readCheck(plan, check([]));
    if (seen.ok && typeof seen.value !== 'number' && seen.value.length > 0) return [check(seen.value)];
  }
  return [];
}
