/** The present moment as a rule may read it: the circuit, what can be measured on it, and the current through any one primitive. */
import type { Leg } from '../board/layout.ts';
import type { Junction } from '../devices/device-models.ts';
import { type Device, PULL_HIGH } from '../devices/network.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ContactSite, LedSite, Placed } from '../run/circuit/sites.ts';
import { voltagesOf } from '../run/readout/measure.ts';
import type { ChipReading, LedReading, Readings } from '../run/readout/readings.ts';
import { nextUpIn } from '../units/e-series.ts';
import { voltsAtMostDraw } from './most-draw.ts';

/** What flows, and the voltages behind it. */
export interface Flows {
  /** current from the first node of the primitive into it [A] */
  amps(device: Device): number;
  /** voltage of a net, and of a leg [V] */
  at(net: number): number;
  atLeg(leg: Leg): number;
}

export interface RuleContext extends Flows {
  readonly circuit: Circuit;
  readonly readings: Readings;
  /** some supply is on: the bench is meant to do something */
  readonly powered: boolean;
  /** highest set voltage of the supplies that are on [V]; 0: all off */
  readonly volts: number;
  /** were each chip that is not fed by metal to draw the most that its sheet allows: what may damage a part is judged by these */
  readonly atMost: Flows;
  closed(contact: ContactSite): boolean;
  led(site: LedSite): LedReading | undefined;
  chip(part: string): ChipReading | undefined;
}

export function makeScene(circuit: Circuit, readings: Readings): RuleContext {
  const { network } = circuit;
  const x = voltagesOf(circuit, readings);
  let most: Float64Array | undefined;
  const loaded = (): Float64Array => {
    most ??= voltsAtMostDraw(circuit, x);
    return most;
  };
  const flows = (volts: () => Float64Array): Flows => ({
    amps: (device) => network.current(device, volts()),
    at: (net) => volts()[circuit.nodeOfNet[net] as number] ?? 0,
    atLeg: (leg) => volts()[circuit.nodeOf(leg)] ?? 0,
  });
  const on = circuit.supplies.filter((s) => readings.supplies.some((r) => r.part === s.placed.part.id && r.on));
  const leds = new Map(readings.leds.map((l) => [l.led, l]));
  return {
    circuit,
    readings,
    powered: on.length > 0,
    volts: Math.max(0, ...on.map((s) => network.supplyOf(s.device).volts)),
    ...flows(() => x),
    atMost: flows(loaded),
    closed: (c) => readings.switches[c.placed.part.id]?.[c.pole] ?? false,
    led: (site) => leds.get(site.id),
    chip: (part) => readings.chips.find((c) => c.part === part),
  };
}

/** Power that each part but a supply turns into heat [W]. An output's current is taken from the pin to the leg it pulls to. */
export function heatOf({ circuit }: RuleContext, flows: Flows): ReadonlyMap<Placed, number> {
  const heat = new Map<Placed, number>();
  for (const { placed, device, legs, whenHigh } of circuit.branches) {
    if (device.kind === 'supply') continue;
    const other = whenHigh && circuit.network.pullOf(device) === PULL_HIGH ? whenHigh : legs[1];
    heat.set(placed, (heat.get(placed) ?? 0) + (flows.atLeg(legs[0]) - flows.atLeg(other)) * flows.amps(device));
  }
  return heat;
}

/** Voltage across a junction that carries this current [V]. */
export const forwardAt = (j: Junction, amps: number): number => j.nvt * Math.log1p(amps / j.is) + amps * j.rs;

/** The smallest E12 resistor [Ω] that keeps an LED at or below `amps` from so many volts, whatever else is in its path. */
export function holdingResistor(volts: number, amps: number, led?: LedSite): number {
  const left = volts - (led ? forwardAt(led.junction, amps) : 0);
  return nextUpIn('E12', Math.max(left / amps, 10));
}
