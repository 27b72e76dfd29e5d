/** What LEDs, chips and supplies show at one moment, as data for --json and as lines for reading. */
import type { Plan } from '../../shared/plan.ts';
import { type Brightness, brightnessText, currentText, displayReadings, type Simulation, siFormat } from '../../sim-core/index.ts';
import { bits, table } from './columns.ts';

export interface BenchReading {
  /** simulated time [s] */
  readonly time: number;
  readonly leds: ReadonlyArray<{ readonly led: string; readonly label?: string; readonly brightness: Brightness; readonly amps: number }>;
  readonly chips: ReadonlyArray<{
    readonly part: string;
    readonly doing: string;
    readonly address?: string;
    readonly data?: string;
    readonly supplyVolts: number;
    /** the deepest dip of its supply since the last act, with real wiring: lowest and depth in V, how long in s */
    readonly dip?: { readonly low: number; readonly volts: number; readonly seconds: number };
  }>;
  readonly supplies: ReadonlyArray<{
    readonly part: string;
    readonly on: boolean;
    readonly volts: number;
    readonly amps: number;
    readonly limiting: boolean;
  }>;
  /** what each digit looks like; null: no character */
  readonly digits: ReadonlyArray<{ readonly part: string; readonly shows: string | null; readonly segments: string }>;
  readonly meters: ReadonlyArray<{ readonly meter: string; readonly value: number; readonly unit: 'V' | 'A' }>;
  readonly probes: ReadonlyArray<{ readonly probe: string; readonly level: string; readonly pulses: number }>;
}

export function readNow(sim: Simulation): BenchReading {
  const readings = sim.readings();
  const { time, leds, chips, supplies, meters, probes } = readings;
  const labels = labelsOf(sim.circuit.plan);
  return {
    time,
    leds: leds.map(({ led, part, brightness, amps }) => ({ led, ...labels(part), brightness, amps })),
    chips: chips.map(({ part, state, supply, dip }) => ({
      part,
      doing: state.doing,
      ...(state.address && { address: bits(state.address, 3) }),
      ...(state.data && { data: bits(state.data, 2) }),
      supplyVolts: supply,
      ...(dip && { dip }),
    })),
    supplies,
    digits: displayReadings(readings).map((d) => ({ part: d.part, shows: d.character ?? null, segments: d.lit })),
    meters: sim.circuit.plan.meters.flatMap((m) =>
      m.measures === 'level'
        ? []
        : [{ meter: m.id, value: meters[m.id] ?? 0, unit: m.measures === 'volts' ? ('V' as const) : ('A' as const) }],
    ),
    probes: sim.circuit.plan.meters.flatMap((m) => {
      const probe = probes[m.id];
      return m.measures === 'level' && probe ? [{ probe: m.id, ...probe }] : [];
    }),
  };
}

/** The name an owner gave a part, if any, as an entry to spread. */
export const labelsOf = (plan: Plan) => {
  const labels = new Map(plan.parts.map((p) => [p.id, p.label]));
  return (part: string): { label?: string } => {
    const label = labels.get(part);
    return label === undefined ? {} : { label };
  };
};

export function sayReading({ time, leds, chips, supplies, digits, meters, probes }: BenchReading): string {
  const rows = [
    ...leds.map((l) => [l.led, l.label ?? '', brightnessText(l.brightness), currentText(l.amps)]),
    ...digits.map((d) => [d.part, '', 'shows', d.shows ?? `segments ${d.segments}, no character`]),
    ...chips.map((c) => [
      c.part,
      '',
      c.doing,
      `${c.address === undefined ? '' : `address 0x${c.address}  `}${c.data === undefined ? '' : `byte 0x${c.data}`}${c.dip === undefined ? '' : `  supply dipped to ${siFormat(c.dip.low, 'V')} for ${siFormat(c.dip.seconds, 's')}`}`,
    ]),
    ...supplies.map((s) => [
      s.part,
      '',
      s.on ? (s.limiting ? 'limiting' : 'on') : 'off',
      `${siFormat(s.volts, 'V')}  ${siFormat(s.amps, 'A')}`,
    ]),
    ...meters.map((m) => [m.meter, '', 'reads', siFormat(m.value, m.unit, 4)]),
    ...probes.map((p) => [p.probe, '', 'shows', `${p.level}${p.pulses > 0 ? `, pulses ${p.pulses}` : ''}`]),
  ];
  return `after ${siFormat(time, 's', 4)}\n${table(rows)}`;
}
