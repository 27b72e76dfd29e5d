/** Which benches have rows that depend on nothing but the levels at their chips' inputs, and how such a bench falls into blocks. */
import { GROUND, type Node } from '../../devices/network.ts';
import type { BuiltCircuit } from '../built-circuit.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { ChipInput, ChipSite, ContactSite } from '../circuit/sites.ts';
import { type BlockParts, blockTexts, weightsOf } from './block-class.ts';

/** What counts in a block's state, and how much. */
interface Digit {
  readonly block: number;
  readonly weight: number;
}

/** A bench as blocks on one rail; of blocks that are equal, the first is the sample of their class. */
export interface Blocks {
  readonly rail: Node;
  readonly samples: readonly BlockParts[];
  /** by block */
  readonly classOf: Int32Array;
  readonly nodes: readonly (readonly Node[])[];
  readonly leds: readonly Int32Array[];
  /** by block: which chip's which input reads it, in the order of its class's levels */
  readonly readers: readonly (readonly { readonly chip: number; readonly input: number }[])[];
  /** by block: chips whose outputs may follow it */
  readonly followers: readonly (readonly number[])[];
  readonly contacts: ReadonlyMap<ContactSite, Digit>;
  /** by chip, then by output */
  readonly outputs: readonly (readonly Digit[])[];
  /** by chip, then by input: where its level is read; block −1: on a rail, where it stays */
  readonly inputs: readonly (readonly { readonly block: number; readonly input: number }[])[];
  /** do inputs on the rails, and chips that watch their supply, see at this rail voltage what they see now? */
  staysAt(volts: number): boolean;
}

/** The rail of a bench whose rows follow from levels alone, or undefined: one supply that is on, ideal wires, no transistor, no chip that stores, clocks or waits for itself. */
export function isCombinational({ circuit, runtime, solver }: BuiltCircuit): Node | undefined {
  const { network, partition, supplies, wires, chips } = circuit;
  const supply = supplies[0];
  if (!supply || supplies.length > 1 || wires.length > 0 || network.skew || solver.lost() !== undefined) return undefined;
  const [rail, minus] = network.nodesOf(supply.device);
  if (rail === GROUND || minus !== GROUND || !network.isOn(supply.device)) return undefined;
  const isRail = (node: Node) => node === rail || node === GROUND;
  const fits = ({ supply: plus, ground, outputs, inputs, marks, spec, burnt }: ChipSite, k: number) =>
    runtime.all[k]?.chip.settled !== undefined &&
    runtime.all[k]?.specified.on() === true &&
    burnt.size === 0 &&
    isRail(plus.node) &&
    ground.node === GROUND &&
    outputs.every((o) => !isRail(o.node)) &&
    inputs.every((i) => i.of === undefined || isRail(i.of)) &&
    marks.every((_, m) => (spec.marks?.[m]?.volts ?? 0) > ABOVE_RAIL * (solver.end[rail] as number));
  const stiff = partition.of.filter((block) => block === -1).length;
  const apart =
    circuit.contacts.every((c) => blockOfDevice(circuit, c.device) >= 0) &&
    circuit.leds.every((l) => blockOfDevice(circuit, l.device) >= 0);
  return stiff === 1 && apart && chips.every(fits) && !waitsForItself(circuit) ? rail : undefined;
}

/** No voltage of a bench with one supply comes so far above its rail. */
const ABOVE_RAIL = 1.2;

const blockOfDevice = ({ network, partition }: Circuit, device: ContactSite['device']): number =>
  Math.max(...network.nodesOf(device).map((node) => partition.blockOf(node)));

/** What a memory takes from its data pins moves nothing while it is not written to. */
const isStored = ({ spec }: ChipSite, { name }: ChipInput): boolean => spec.word?.data.includes(name) === true;

/** Does any block reach itself through chips? */
function waitsForItself({ chips, partition }: Circuit): boolean {
  const next = new Map<number, Set<number>>();
  for (const site of chips)
    for (const [i, input] of site.inputs.entries()) {
      if (isStored(site, input)) continue;
      const { spec, outputs } = site;
      const moved = spec.moves?.[i] ?? outputs.keys();
      const from = partition.blockOf(input.node);
      const to = next.get(from) ?? new Set();
      next.set(from, to);
      for (const o of moved) to.add(partition.blockOf(outputs[o]?.node ?? GROUND));
    }
  const seen = new Map<number, 'on the way' | 'left'>();
  const returns = (block: number): boolean => {
    const before = seen.get(block);
    if (before) return before === 'on the way';
    seen.set(block, 'on the way');
    const found = [...(next.get(block) ?? [])].some(returns);
    seen.set(block, 'left');
    return found;
  };
  return [...next.keys()].some((block) => block >= 0 && returns(block));
}

/** What stands in each block, by block, and where the chips' pins and the LEDs are in it. */
class BlockContents {
  readonly nodes: Node[][];
  readonly inputs: ChipInput[][];
  readonly outputs: ContactSite['device'][][];
  readonly contacts: ContactSite[][];
  readonly leds: number[][];
  readonly readers: { chip: number; input: number }[][];
  readonly followers: number[][];

  constructor(count: number) {
    const empty = <T>(): T[][] => Array.from({ length: count }, () => []);
    [this.nodes, this.inputs, this.outputs, this.contacts] = [empty(), empty(), empty(), empty()];
    [this.leds, this.readers, this.followers] = [empty(), empty(), empty()];
  }
}

/** A bench's blocks, each with its class. */
export function blocksOnRail(circuit: Circuit, rail: Node): Blocks {
  const { network, partition, chips, contacts, leds } = circuit;
  const { count, of } = partition;
  const inside = new BlockContents(count);
  for (const node of network.unfolded) if ((of[node] as number) >= 0) inside.nodes[of[node] as number]?.push(node);
  for (const contact of contacts) inside.contacts[blockOfDevice(circuit, contact.device)]?.push(contact);
  for (const [i, led] of leds.entries()) inside.leds[blockOfDevice(circuit, led.device)]?.push(i);
  const inputPlaces = chips.map((site, chip) =>
    site.inputs.map((input, i) => {
      const block = partition.blockOf(input.node);
      if (block < 0) return { block, input: -1 };
      inside.readers[block]?.push({ chip, input: i });
      if (!isStored(site, input) && !inside.followers[block]?.includes(chip)) inside.followers[block]?.push(chip);
      return { block, input: (inside.inputs[block]?.push(input) ?? 0) - 1 };
    }),
  );
  const outputPlaces = chips.map((site) =>
    site.outputs.map(({ node, device }) => {
      const block = partition.blockOf(node);
      return { block, place: (inside.outputs[block]?.push(device) ?? 0) - 1 };
    }),
  );
  const parts = inside.nodes.map(
    (nodes, b): BlockParts => ({
      nodes,
      contacts: inside.contacts[b] ?? [],
      outputs: inside.outputs[b] ?? [],
      inputs: inside.inputs[b] ?? [],
      leds: (inside.leds[b] ?? []).flatMap((i) => leds[i] ?? []),
    }),
  );
  const weights = parts.map(weightsOf);
  const digit = (block: number, place: number): Digit => ({ block, weight: weights[block]?.[place] ?? 0 });
  return {
    rail,
    ...classesOf(blockTexts(network, of, rail, parts), parts),
    nodes: inside.nodes,
    leds: inside.leds.map((list) => Int32Array.from(list)),
    readers: inside.readers,
    followers: inside.followers,
    contacts: new Map(inside.contacts.flatMap((list, block) => list.map((contact, i) => [contact, digit(block, i)] as const))),
    outputs: outputPlaces.map((list) => list.map(({ block, place }) => digit(block, (inside.contacts[block]?.length ?? 0) + place))),
    inputs: inputPlaces,
    staysAt: stays(circuit, rail),
  };
}

/** Blocks of one text are of one class; the first of them is its sample. */
function classesOf(texts: readonly string[], parts: readonly BlockParts[]): Pick<Blocks, 'samples' | 'classOf'> {
  const numbers = new Map<string, number>();
  const samples: BlockParts[] = [];
  const classOf = Int32Array.from(texts, (text, b) => {
    const known = numbers.get(text) ?? samples.push(parts[b] as BlockParts) - 1;
    numbers.set(text, known);
    return known;
  });
  return { samples, classOf };
}

/** Every rail voltage between two neighbouring marks reads alike. */
function stays({ chips }: Circuit, rail: Node): (volts: number) => boolean {
  const marks: number[] = [];
  for (const { inputs, spec, supply, certainFrom } of chips) {
    if (supply.node === rail) marks.push(...spec.supplyMarks, certainFrom);
    for (const { node, figures, of } of inputs) if (node === rail && of === undefined) marks.push(figures.vil, figures.vih);
  }
  const above = (volts: number) => marks.filter((mark) => volts > mark).length;
  let first: number | undefined;
  return (volts) => {
    first ??= above(volts);
    return above(volts) === first;
  };
}
