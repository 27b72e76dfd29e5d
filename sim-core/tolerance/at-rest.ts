/** What can be asked of a bench at rest: levels of inputs that resistors or outputs hold, currents of LEDs that are lit, currents of outputs. */
import { type ChipSpec, type InputFigures, thresholdsOf } from '../parts/part.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipInput, ChipSite, LedSite } from '../run/circuit/sites.ts';
import { LED_STEPS } from '../run/readout/readings.ts';
import type { ExperimentReading } from './experiment.ts';
import type { Asked } from './margin-query.ts';

/** A net that is held by less than this is joined to a rail by metal, and nothing that varies can move it [Ω]. Our choice. */
const METAL = 20;
/** Outputs that give less than this share of their limit are not spoken of. */
const NOTABLE = 0.1;

/** With the legs whose blocks decide the figure. */
export interface AskedAtRest extends Asked {
  readonly legs: readonly LedSite['anode'][];
}

export const askedAtRest = (seen: ExperimentReading): AskedAtRest[] => [...levels(seen), ...leds(seen), ...pins(seen), ...packages(seen)];

const chipOf = (seen: ExperimentReading, part: string) => seen.readings.chips.find((c) => c.part === part);
const pinOf = (seen: ExperimentReading, part: string, pin: string) => chipOf(seen, part)?.pins.find((p) => p.pin === pin);

function levels(seen: ExperimentReading): AskedAtRest[] {
  const { circuit, readings } = seen;
  return circuit.chips.flatMap((chip) =>
    chip.inputs.flatMap((pin): AskedAtRest[] => {
      const reading = pinOf(seen, chip.placed.part.id, pin.leg.pin);
      const net = readings.nets[circuit.netOf(pin.leg).index];
      if (!reading || !net || net.drive === 'floating' || net.drive === 'unknown' || net.ohms < METAL || !listens(seen, chip, pin))
        return [];
      const supply = chipOf(seen, chip.placed.part.id)?.supply ?? 0;
      const { vil, vih } = thresholdsOf(pin.figures, supply);
      const about = {
        at: { kind: 'pin', id: `${chip.placed.part.id}.${pin.leg.pin}` },
        unit: 'V',
        source: levelSource(pin.figures),
        legs: [pin.leg],
      } as const;
      if (reading.volts <= vil)
        return [{ ...about, what: 'level-low', must: 'at-most', limit: vil, read: (s) => levelAt(s, chip, pin, supply, 1) }];
      if (reading.volts >= vih)
        return [{ ...about, what: 'level-high', must: 'at-least', limit: vih, read: (s) => levelAt(s, chip, pin, supply, -1) }];
      return [];
    }),
  );
}

const levelSource = ({ of }: InputFigures): string =>
  of === 'supply' ? 'the chip’s guaranteed level, a share of its supply' : 'the chip’s guaranteed level';

/** A pin that is input and output at once listens while the chip waits to be written. */
const listens = (seen: ExperimentReading, chip: ChipSite, pin: ChipInput): boolean =>
  !chip.spec.outputs.includes(pin.name) || chipOf(seen, chip.placed.part.id)?.state.doing === 'ready to write';

/**
 * The pin's voltage once the worst leakage of all pins on its net has moved it; way: 1 up, −1 down. Levels that are shares of the supply are
 * brought to the supply `at` which their limit was taken.
 */
function levelAt(seen: ExperimentReading, chip: ChipSite, pin: ChipInput, at: number, way: 1 | -1): number {
  const part = chip.placed.part.id;
  const net = seen.circuit.netOf(pin.leg).index;
  const volts = pinOf(seen, part, pin.leg.pin)?.volts ?? 0;
  const drift = (seen.readings.nets[net]?.ohms ?? 0) * leakageOn(seen.circuit, net, way);
  const supply = chipOf(seen, part)?.supply ?? at;
  return (volts + way * drift) * (pin.figures.of === 'supply' && supply > 0 ? at / supply : 1);
}

/** Worst-case leakage of all chip pins on this net [A]; way: 1 what raises it, −1 what lowers it. */
export function leakageOn(circuit: Circuit, net: number, way: 1 | -1): number {
  const on = (leg: LedSite['anode']) => circuit.netOf(leg).index === net;
  let sum = 0;
  for (const { spec, inputs, outputs } of circuit.chips) {
    for (const o of outputs) if (on(o.leg)) sum += spec.released.leakage;
    for (const i of inputs) if (on(i.leg) && !isOutput(spec, i.name)) sum += (way < 0 ? i.figures.sinks : undefined) ?? i.figures.leakage;
  }
  return sum;
}
const isOutput = (spec: ChipSpec, name: string): boolean => spec.outputs.includes(name);

function leds({ circuit, readings }: ExperimentReading): AskedAtRest[] {
  return circuit.leds.flatMap((site): AskedAtRest[] => {
    const amps = (seen: ExperimentReading) => seen.readings.leds.find((l) => l.led === site.id)?.amps ?? 0;
    if (amps({ circuit, readings, events: [] }) < LED_STEPS.lit) return [];
    const about = { at: { kind: 'led', id: site.id }, unit: 'A', read: amps, legs: [site.anode, site.cathode] } as const;
    const { value, source } = site.led.mostCurrent;
    return [
      {
        ...about,
        what: 'led-lit',
        must: 'at-least',
        limit: LED_STEPS.lit,
        source: 'our choice between the remarks of SOURCES.md S42 to S45',
      },
      { ...about, what: 'led-current', must: 'at-most', limit: value, source },
    ];
  });
}

function pins(seen: ExperimentReading): AskedAtRest[] {
  return seen.circuit.chips.flatMap(({ placed, spec, outputs }) =>
    outputs.flatMap(({ leg }): AskedAtRest[] => {
      const { value, source } = spec.mostPinCurrent;
      const read = (s: ExperimentReading) => Math.abs(pinOf(s, placed.part.id, leg.pin)?.amps ?? 0);
      if (read(seen) < NOTABLE * value) return [];
      const at = { kind: 'pin', id: `${placed.part.id}.${leg.pin}` } as const;
      return [{ what: 'pin-current', at, unit: 'A', must: 'at-most', limit: value, source, read, legs: [leg] }];
    }),
  );
}

/** All that the outputs give comes in through the supply pin, and all that they take leaves through the ground pin. */
function packages(seen: ExperimentReading): AskedAtRest[] {
  return seen.circuit.chips.flatMap(({ placed, spec, supply, ground, outputs }) =>
    ([1, -1] as const).flatMap((way): AskedAtRest[] => {
      const { value, source } = spec.mostPackageCurrent;
      const read = (s: ExperimentReading) =>
        outputs.reduce((sum, { leg }) => sum + Math.max(0, way * (pinOf(s, placed.part.id, leg.pin)?.amps ?? 0)), 0);
      if (read(seen) < NOTABLE * value) return [];
      const at = { kind: 'pin', id: `${placed.part.id}.${(way > 0 ? supply : ground).leg.pin}` } as const;
      return [{ what: 'package-current', at, unit: 'A', must: 'at-most', limit: value, source, read, legs: outputs.map((o) => o.leg) }];
    }),
  );
}
