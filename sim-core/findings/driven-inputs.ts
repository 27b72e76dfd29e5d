/** The pins that a supplied chip only listens to, each with its reading; which of them nothing holds; and what may leak into a net. */
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipInput, ChipSite } from '../run/circuit/sites.ts';
import type { PinReading } from '../run/readout/readings.ts';
import type { RuleContext } from './rule-context.ts';

export interface Listener {
  readonly chip: ChipSite;
  readonly pin: ChipInput;
  readonly net: number;
  readonly reading: PinReading;
}

/** Nothing while every supply is off: then no input is meant to have a level. */
export function drivenInputs(scene: RuleContext): Listener[] {
  if (!scene.powered) return [];
  return scene.circuit.chips.flatMap((chip) => {
    const reading = scene.chip(chip.placed.part.id);
    if (!reading || reading.state.doing === 'no supply') return [];
    const readings = new Map(reading.pins.map((p) => [p.pin, p]));
    const drives = new Set(chip.spec.outputs);
    return chip.inputs.flatMap((pin) => {
      const here = readings.get(pin.leg.pin);
      return drives.has(pin.name) || !here ? [] : [{ chip, pin, net: scene.circuit.netOf(pin.leg).index, reading: here }];
    });
  });
}

/** Those that float; of a family whose open inputs count as high, those too. */
export const unheldInputs = (scene: RuleContext): Listener[] =>
  drivenInputs(scene).filter(
    ({ pin, reading, net }) => (reading.level === 'X' || countsAsHigh(pin, reading)) && scene.readings.nets[net]?.drive === 'floating',
  );

/** Is this floating input high only because that is where it rests? */
export const countsAsHigh = ({ figures }: ChipInput, { level, volts }: PinReading): boolean =>
  level === 'H' && figures.openHigh !== undefined && volts < figures.vih;

/** Does every output that this input can move lead nowhere? */
export function servesNothing(circuit: Circuit, { spec, inputs, outputs }: ChipSite, pin: ChipInput): boolean {
  const moves = spec.moves?.[inputs.indexOf(pin)];
  return (
    moves?.every((o) => {
      const leg = outputs[o]?.leg;
      const net = leg && circuit.netOf(leg);
      return net !== undefined && net.legs.length === 1 && net.ends.length === 0;
    }) ?? false
  );
}
