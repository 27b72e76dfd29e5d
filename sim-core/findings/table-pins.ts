/** Where the wanted table's columns lie on this bench: for each memory with one of its outputs, what is on every address and data pin. */
import type { ChipPins } from '../logic/pin-map.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { reachOf } from './resistive-reach.ts';

/** `address` and `data` as in a pin map, with the columns of the wanted table. */
export interface MemoryPins extends ChipPins {
  readonly memory: string;
}

/** Memories that hold a part of the table, in order of the plan; one that an input does not reach is left out. */
export function tablePins(circuit: Circuit): readonly MemoryPins[] {
  return circuit.chips.flatMap((chip) => pinsOf(circuit, chip) ?? []);
}

function pinsOf(circuit: Circuit, chip: ChipSite): MemoryPins | undefined {
  const { wanted } = circuit.plan;
  const { word } = chip.spec;
  const memory = chip.placed.part.id;
  if (!wanted || !word) return undefined;
  const data = word.data.map((name) => {
    const output = wanted.outputs.findIndex(({ pin }) => pin === `${memory}.${name}`);
    return output < 0 ? 'unused' : output;
  });
  if (data.every((d) => d === 'unused')) return undefined;
  const address = word.address.map((name) => onAddressPin(circuit, chip, name));
  return wanted.inputs.every((_, input) => address.includes(input)) ? { memory, address, data } : undefined;
}

/** The wanted input that names this pin or shares its net, or the level it is tied to. */
function onAddressPin(circuit: Circuit, chip: ChipSite, name: string): number | 'low' | 'high' {
  const wanted = circuit.plan.wanted?.inputs ?? [];
  const named = wanted.findIndex(({ pin }) => pin === `${chip.placed.part.id}.${name}`);
  const input = chip.inputs.find((i) => i.name === name);
  if (named >= 0) return named;
  if (!input) return 'low';
  const reach = reachOf(circuit);
  const isRail = (net: number) => reach.plus.has(net) || reach.minus.has(net);
  const net = circuit.netOf(input.leg).index;
  const shared = isRail(net) ? -1 : wanted.findIndex(({ pin }) => netOfPin(circuit, pin) === net);
  if (shared >= 0) return shared;
  // of a rail all else is in reach through resistors
  if (isRail(net)) return reach.plus.has(net) && !reach.minus.has(net) ? 'high' : 'low';
  const held = [...reach.from(net, 'no LEDs').keys()];
  return held.some((n) => reach.plus.has(n)) && !held.some((n) => reach.minus.has(n)) ? 'high' : 'low';
}

function netOfPin(circuit: Circuit, pin: string): number | undefined {
  const [id = '', name] = [pin.slice(0, pin.indexOf('.')), pin.slice(pin.indexOf('.') + 1)];
  const placed = circuit.placed.get(id);
  const at = placed?.kind.pins(placed.params).findIndex((p) => p.name === name) ?? -1;
  const leg = placed?.legs[at];
  return leg && circuit.netOf(leg).index;
}
