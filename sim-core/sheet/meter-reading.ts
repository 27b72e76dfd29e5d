/** What a meter or an eye makes of a check on any bench: an ohmmeter is a small voltage between the probes, with the supplies and their wires gone. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWire } from '../../shared/plan.ts';
import { layOut } from '../board/layout.ts';
import { type Hole, holeName, readHole, sameStrip } from '../board/tie-points.ts';
import { benchSupply } from '../parts/bench-supply.ts';
import { shapeOf } from '../parts/footprint-index.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import type { PartOverrides } from '../run/circuit/part-overrides.ts';
import { isLit } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import type { CheckReading, ClosedPole, StageCheck } from './stage-check.ts';
import { isSupply } from './stages.ts';

/** Beyond this a meter shows "open" [Ω]: a usual range of 20 MΩ, common practice, no source. */
export const OPEN = 20e6;
/** The voltage of the ohmmeter [V], too low for an LED to conduct, and its most current [A]. Our choice. */
const TEST = { volts: 0.2, amps: 1e-3 };
/** No id of a plan looks like these. */
const [METER, WIRE] = ['=', '=w'];

/** plan: the bench as it stands at the check, supplies off and switches open. Fails with `plan/…`. */
export function readCheck(plan: Plan, check: StageCheck, overrides?: PartOverrides): Outcome<CheckReading> {
  const asked = { ...plan, switches: closing(check.closed) };
  if (check.by === 'ohms') return readOhms(asked, check.red, check.black, overrides);
  if (check.by === 'farads') return readFarads(asked, check.red, check.black);
  const on: Plan = {
    ...asked,
    switches: { ...asked.switches, ...Object.fromEntries(plan.parts.filter(isSupply).map((p) => [p.id, [true]])) },
  };
  if (check.by === 'volts') return readVolts(on, check.red, check.black, overrides);
  const wires = check.by === 'eye' && check.wire ? touching(on, [[check.wire.from, check.wire.to]]) : [];
  const sim = simulate({ ...on, wires: [...on.wires, ...wires] }, { still: true, bounce: false, ...(overrides ? { overrides } : {}) });
  if (!sim.ok) return sim;
  const { leds, supplies } = sim.value.readings();
  if (check.by === 'eye') return done(leds.filter((l) => isLit(l.brightness)).map((l) => l.led));
  return done(supplies.find((s) => check.red.startsWith(`${s.part}.`))?.amps ?? 0);
}

function closing(closed: readonly ClosedPole[]): Plan['switches'] {
  const switches: Record<string, boolean[]> = {};
  for (const { part, pole } of closed) {
    const poles = switches[part] ?? [];
    while (poles.length <= pole) poles.push(false);
    poles[pole] = true;
    switches[part] = poles;
  }
  return switches;
}

function readOhms(plan: Plan, red: string, black: string, overrides: PartOverrides | undefined): Outcome<CheckReading> {
  const gone = plan.parts.filter(isSupply).map((p) => p.id);
  const ofSupply = (point: string) => gone.some((id) => point.startsWith(`${id}.`));
  const rest: Plan = {
    ...plan,
    parts: plan.parts.filter((p) => !isSupply(p)),
    wires: plan.wires.filter((w) => !ofSupply(w.from) && !ofSupply(w.to)),
  };
  // a probe at a terminal touches what its wires lead to
  const reached = (point: string) =>
    ofSupply(point) ? plan.wires.flatMap((w) => (w.from === point ? [w.to] : w.to === point ? [w.from] : [])) : [point];
  const [reds, blacks] = [reached(red), reached(black)];
  if (reds.length === 0 || blacks.length === 0) return done(Number.POSITIVE_INFINITY);
  const meter = { id: METER, kind: benchSupply.id, spot: [-30, 0] as [number, number], params: { ...TEST } };
  const tips = [...reds.map((r) => [`${METER}.+`, r] as const), ...blacks.map((b) => [`${METER}.-`, b] as const)];
  const parts = [...rest.parts, meter];
  const sim = simulate(
    { ...rest, parts, wires: [...rest.wires, ...touching(rest, tips)], switches: { ...plan.switches, [METER]: [true] } },
    { still: true, bounce: false, ...(overrides ? { overrides } : {}) },
  );
  if (!sim.ok) return sim;
  const [seen] = sim.value.readings().supplies;
  const ohms = seen && seen.amps > 0 ? Math.max(0, seen.volts) / seen.amps : Number.POSITIVE_INFINITY;
  return done(ohms > OPEN ? Number.POSITIVE_INFINITY : ohms);
}

/** Of all capacitors that are between these two pieces of metal; what is behind a resistor counts for nothing. */
function readFarads(plan: Plan, red: string, black: string): Outcome<CheckReading> {
  const circuit = buildCircuit(plan);
  if (!circuit.ok) return circuit;
  const { interconnect, netOf, placed } = circuit.value;
  const [one, other] = [interconnect.atPoint(red)?.net, interconnect.atPoint(black)?.net];
  if (!one || !other || one === other) return done(0);
  const between = [...placed.values()].filter(({ kind, legs }) => {
    const nets = legs.map(netOf);
    return kind.spread?.of === 'farads' && nets.includes(one) && nets.includes(other);
  });
  return done(between.reduce((sum, { params }) => sum + Number(params.farads), 0));
}

function readVolts(plan: Plan, red: string, black: string, overrides: PartOverrides | undefined): Outcome<CheckReading> {
  const at = pointOf(plan, red);
  const against = pointOf(plan, black);
  const meters: Plan['meters'] = [{ id: METER, measures: 'volts', at, against }];
  const sim = simulate({ ...plan, meters }, { still: true, bounce: false, ...(overrides ? { overrides } : {}) });
  if (!sim.ok) return sim;
  // a probe in an empty row touches nothing
  const touches = (point: string) => sim.value.circuit.interconnect.atPoint(point) !== undefined;
  return done(touches(at) && touches(against) ? (sim.value.readings().meters[METER] ?? 0) : 0);
}

/** A leg such as U1.24 as the hole that it is in; anything else as it is. */
function pointOf(plan: Plan, point: string): string {
  const [id = '', pin] = point.split('.');
  const part = pin === undefined ? undefined : plan.parts.find((p) => p.id === id);
  if (!part || part.at === undefined) return point;
  const layout = layOut({ ...plan, parts: [part], wires: [] }, shapeOf);
  const hole = layout.ok ? layout.value.legs.find((l) => l.pin === pin)?.hole : undefined;
  return hole ? holeName(hole, plan.boards) : point;
}

/** Wires from and to these places, each in a hole of its strip that is free; a place whose strip is full is left out. */
function touching(plan: Plan, pairs: ReadonlyArray<readonly [string, string]>): PlanWire[] {
  const layout = layOut(plan, shapeOf);
  if (!layout.ok) return [];
  const taken = new Set(layout.value.taken.keys());
  const free = (point: string): string | undefined => {
    const hole = readHole(pointOf(plan, point), plan.boards);
    if (!hole.ok) return point;
    const name = nearestFree(hole.value, plan, taken);
    if (name !== undefined) taken.add(name);
    return name;
  };
  return pairs.flatMap(([a, b], i) => {
    const [from, to] = [free(a), free(b)];
    return from === undefined || to === undefined ? [] : [{ id: `${WIRE}${i}`, from, to, colour: 'white' }];
  });
}

function nearestFree(hole: Hole, { boards }: Plan, taken: ReadonlySet<string>): string | undefined {
  return [hole, ...sameStrip(hole)].map((h) => holeName(h, boards)).find((name) => !taken.has(name));
}
