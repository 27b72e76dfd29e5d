/**
 * What to measure before a bench is trusted, with the figures that the simulation expects: supply off, chips not yet in their places; then supply on,
 * chips still out; then chips in. Limits are those of the parts' own sheets.
 */

import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWire } from '../../shared/plan.ts';
import { holeName, readHole, stripOf } from '../board/tie-points.ts';
import { thresholdsOf } from '../parts/part.ts';
import type { Simulation } from '../run/api.ts';
import { buildCircuit, type Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import { type Measured, sayMeasured } from '../text/wiring.ts';
import { lineOf } from './wiring-order.ts';

/** One measurement before power or chips: where the probes go, what the simulation reads, and the limits. */
export interface PowerCheck {
  readonly when: 'off' | 'chips out' | 'chips in';
  /** where the meter's wires go: tie points or terminals */
  readonly red: string;
  readonly black: string;
  readonly unit: 'Ω' | 'V' | 'A';
  /** what the simulation reads; absent: more than any meter shows */
  readonly expects?: number;
  readonly least?: number;
  readonly most?: number;
  readonly says: string;
}

/** Beyond this a meter shows "open" [Ω]: a usual range of 20 MΩ, common practice, no source. */
const OPEN = 20e6;

/** The bench with every chip out of its place, these wires not yet in, all switches open, and all supplies on or off. */
function without({ plan, chipById, supplies }: Circuit, wires: readonly PlanWire[], on: boolean): Outcome<Simulation> {
  const { cells: _, wanted: __, ...rest } = plan;
  return simulate(
    {
      ...rest,
      parts: plan.parts.filter((p) => !chipById.has(p.id)),
      wires: plan.wires.filter((l) => !wires.includes(l)),
      memories: {},
      meters: [],
      switches: on ? Object.fromEntries(supplies.map((s) => [s.placed.part.id, [true]])) : {},
    },
    { still: true, bounce: false },
  );
}

export function powerChecks(plan: Plan): Outcome<readonly PowerCheck[]> {
  const whole = buildCircuit({ ...plan, parts: plan.parts.map(({ damaged: _, ...p }) => p) }, 'typical');
  if (!whole.ok) return whole;
  const circuit = whole.value;
  const [supply] = circuit.supplies;
  if (!supply) return done([]);
  const bare = without(circuit, [], true);
  if (!bare.ok) return bare;
  const full = simulate(switchedOn({ ...circuit.plan, meters: [], switches: {} }, circuit), { still: true, bounce: false });
  if (!full.ok) return full;
  const volts = Number(supply.placed.params.volts);
  const tolerance = Number(supply.placed.params.tolerance ?? 0) / 100;
  const amps = Number(supply.placed.params.amps);
  const post = (sign: 'plus' | 'minus') => `${supply.placed.part.id}.${supply[sign].pin}`;
  const checks: PowerCheck[] = [];
  // the supply itself, switched off, is no open circuit: its plus wire is still out
  const feeders = circuit.plan.wires.filter((l) => l.from === post('plus') || l.to === post('plus'));
  const [feeder] = feeders;
  if (feeder) {
    const off = without(circuit, feeders, false);
    if (!off.ok) return off;
    const rail = feeder.from === post('plus') ? feeder.to : feeder.from;
    checks.push(
      check('off', rail, post('minus'), 'Ω', ohmsAt(off.value, rail), { least: volts / amps }, { what: 'rails', wire: feeder.id }),
    );
  }
  // what needs no supply of its own has none to measure
  for (const site of circuit.chips)
    if (site.supply.leg !== site.ground.leg) checks.push(...chipChecks(circuit, bare.value, site, { volts, tolerance }));
  const drawn = full.value.readings().supplies.find((s) => s.part === supply.placed.part.id);
  if (drawn) checks.push(check('chips in', post('plus'), post('minus'), 'A', drawn.amps, { most: amps }, { what: 'drawn' }));
  return done(checks);
}

type Limits = Pick<PowerCheck, 'least' | 'most'>;

const check = (
  when: PowerCheck['when'],
  red: string,
  black: string,
  unit: PowerCheck['unit'],
  expects: number | undefined,
  limits: Limits,
  measured: Measured,
): PowerCheck => ({ when, red, black, unit, ...(expects === undefined ? {} : { expects }), ...limits, says: sayMeasured(measured) });

/** Between a tie point and the supply's minus, nothing powered; undefined: open. */
function ohmsAt(sim: Simulation, point: string): number | undefined {
  const hole = readHole(point, sim.circuit.plan.boards);
  const net = hole.ok ? sim.circuit.nets.ofStrip.get(stripOf(hole.value)) : undefined;
  const ohms = net && sim.readings().nets[net.index]?.ohms;
  return ohms === undefined || ohms > OPEN ? undefined : ohms;
}

function chipChecks(circuit: Circuit, bare: Simulation, site: ChipSite, supply: { volts: number; tolerance: number }): PowerCheck[] {
  const { part, kind, params } = site.placed;
  const names = new Map(kind.pins(params).map((p) => [p.pin, p.name]));
  const voltsOf = (strip: string): number => {
    const net = bare.circuit.nets.ofStrip.get(strip);
    return (net && bare.readings().nets[net.index]?.volts) ?? 0;
  };
  const ground = site.placed.legs.find((l) => l.pin === site.ground.leg.pin);
  const place = (pin: string) => {
    const hole = site.placed.legs.find((l) => l.pin === pin)?.hole;
    return hole ? holeName(hole, circuit.plan.boards) : '';
  };
  const black = ground ? place(ground.pin) : '';
  const base = ground ? voltsOf(ground.strip) : 0;
  const one = (pin: string, strip: string, limits: Limits, measured: Measured) =>
    check('chips out', place(pin), black, 'V', voltsOf(strip) - base, limits, measured);
  const span = { least: supply.volts * (1 - supply.tolerance), most: supply.volts * (1 + supply.tolerance) };
  const checks = [one(site.supply.leg.pin, site.supply.leg.strip, span, { what: 'supply', part: part.id })];
  const { word, toRead = {} } = site.spec;
  if (!word) return checks;
  const { vil, vih } = thresholdsOf(site.spec.input, supply.volts);
  const low = { most: vil };
  for (const leg of site.placed.legs) {
    const name = names.get(leg.pin) ?? leg.pin;
    const level = toRead[name];
    if (level) checks.push(one(leg.pin, leg.strip, level === 'H' ? { least: vih } : low, { what: 'control', part: part.id, pin: name }));
  }
  for (const name of word.address) {
    const leg = site.placed.legs.find((l) => names.get(l.pin) === name);
    if (!leg) continue;
    const line = lineOf(circuit, [leg]);
    const tiedHigh = line === undefined && voltsOf(leg.strip) - base >= vih;
    checks.push(
      one(leg.pin, leg.strip, tiedHigh ? { least: vih } : low, {
        what: 'address',
        part: part.id,
        pin: name,
        ...(line === undefined ? {} : { line }),
      }),
    );
  }
  return checks;
}

/** Does a measurement that reads as the simulation expects keep its own limits? A bench with one that does not is not to be switched on. */
export const keepsLimits = ({
  expects = Number.POSITIVE_INFINITY,
  least = Number.NEGATIVE_INFINITY,
  most = Number.POSITIVE_INFINITY,
}: PowerCheck): boolean => expects >= least && expects <= most;
