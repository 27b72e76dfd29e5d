/** How a bench falls into blocks between its rails and ground, which of them are equal, and which pins and LEDs are in each. */
import { type Device, GROUND, type Network, type Node } from '../../devices/network.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { ChipInput, ChipSite, ContactSite } from '../circuit/sites.ts';
import { type BlockParts, weightsOf } from './block-class.ts';

/** What counts in a block's state, and how much. */
export interface Digit {
  readonly block: number;
  readonly weight: number;
}

/** A chip's input, by its places. */
export interface Reader {
  readonly chip: number;
  readonly input: number;
}

/** The chips' inputs that follow a block, side by side, with their places among all that read it. Those through which memories are written to move nothing. */
export interface Followers {
  readonly chips: Int32Array;
  readonly inputs: Int32Array;
  readonly places: Int32Array;
}

export interface Blocks {
  /** by block, but for the rail, which is that of its class */
  readonly parts: readonly BlockParts[];
  /** by class: the first block of it */
  readonly samples: readonly number[];
  /** by block */
  readonly classOf: Int32Array;
  /** by block: places of its LEDs, and which chip's which input reads it, in the order of its parts' inputs */
  readonly leds: readonly Int32Array[];
  readonly readers: readonly (readonly Reader[])[];
  readonly followers: readonly Followers[];
  readonly contacts: ReadonlyMap<ContactSite, Digit>;
  /** by chip, then by output */
  readonly outputs: readonly (readonly Digit[])[];
}

/** A class with more states than this is left to the event engine: few of them would come twice. */
const MOST_STATES = 2 ** 16;

/** Is this a pin from which a memory takes what it stores? */
export const isStored = ({ spec }: ChipSite, { name }: ChipInput): boolean => spec.word?.data.includes(name) === true;

export const blockOfDevice = ({ network, partition }: Circuit, device: Device): number =>
  Math.max(...network.nodesOf(device).map((node) => partition.blockOf(node)));

/** The rail that each block leans on; undefined where one leans on two, or rails on each other. */
function railsOfBlocks({ network, partition }: Circuit, rails: readonly Node[]): Int32Array | undefined {
  const found = new Int32Array(partition.count).fill(GROUND);
  for (const ends of network.couplings()) {
    const on = ends.filter((node) => rails.includes(node));
    if (new Set(on).size > 1) return undefined;
    const block = Math.max(...ends.map((node) => partition.blockOf(node)));
    const [rail] = on;
    if (rail === undefined || block < 0) continue;
    if (found[block] !== GROUND && found[block] !== rail) return undefined;
    found[block] = rail;
  }
  // a block between nothing but ground may count with any
  return found.map((rail) => (rail === GROUND ? (rails[0] as number) : rail));
}

/** A bench's blocks, each with its class; undefined where one has too many states, or leans on two rails. */
export function blocksOnRails(circuit: Circuit, rails: readonly Node[]): Blocks | undefined {
  const { network, partition, chips, contacts, leds } = circuit;
  const { count, of } = partition;
  const railOf = railsOfBlocks(circuit, rails);
  if (!railOf) return undefined;
  const empty = <T>(): T[][] => Array.from({ length: count }, () => []);
  const [nodes, inputs, outputs, sites] = [empty<Node>(), empty<ChipInput>(), empty<Device>(), empty<ContactSite>()];
  const [lit, readers] = [empty<number>(), empty<Reader>()];
  for (const node of network.unfolded) nodes[of[node] as number]?.push(node);
  for (const contact of contacts) sites[blockOfDevice(circuit, contact.device)]?.push(contact);
  for (const [i, led] of leds.entries()) lit[blockOfDevice(circuit, led.device)]?.push(i);
  for (const [chip, site] of chips.entries())
    for (const [input, pin] of site.inputs.entries()) {
      const block = partition.blockOf(pin.node);
      readers[block]?.push({ chip, input });
      inputs[block]?.push(pin);
    }
  const outputPlaces = chips.map((site) =>
    site.outputs.map(({ node, device }) => {
      const block = partition.blockOf(node);
      return { block, place: (outputs[block]?.push(device) ?? 0) - 1 };
    }),
  );
  const parts = nodes.map(
    (list, b): BlockParts => ({
      rail: railOf[b] as number,
      nodes: list,
      contacts: sites[b] ?? [],
      outputs: outputs[b] ?? [],
      inputs: inputs[b] ?? [],
      leds: (lit[b] ?? []).flatMap((i) => leds[i] ?? []),
    }),
  );
  const weights = parts.map(weightsOf);
  if (weights.some((w) => (w.at(-1) as number) > MOST_STATES)) return undefined;
  if (parts.some(({ rail, inputs: here }) => here.some((i) => i.of !== undefined && i.of !== rail))) return undefined;
  const digit = (block: number, place: number): Digit => ({ block, weight: weights[block]?.[place] ?? 0 });
  return {
    parts,
    ...classesOf(blockTexts(network, of, parts)),
    leds: lit.map((list) => Int32Array.from(list)),
    readers,
    followers: readers.map((list) => followersOf(circuit, list)),
    contacts: new Map(sites.flatMap((list, block) => list.map((contact, i) => [contact, digit(block, i)] as const))),
    outputs: outputPlaces.map((list) => list.map(({ block, place }) => digit(block, (sites[block]?.length ?? 0) + place))),
  };
}

function followersOf({ chips }: Circuit, readers: readonly Reader[]): Followers {
  const found = [...readers.entries()].filter(([, { chip, input }]) => {
    const site = chips[chip] as ChipSite;
    return !isStored(site, site.inputs[input] as ChipInput);
  });
  return {
    chips: Int32Array.from(found, ([, { chip }]) => chip),
    inputs: Int32Array.from(found, ([, { input }]) => input),
    places: Int32Array.from(found, ([place]) => place),
  };
}

/** Blocks of one text are of one class; the first of them is its sample. */
function classesOf(texts: readonly string[]): Pick<Blocks, 'samples' | 'classOf'> {
  const numbers = new Map<string, number>();
  const samples: number[] = [];
  const classOf = Int32Array.from(texts, (text, block) => {
    const known = numbers.get(text) ?? samples.push(block) - 1;
    numbers.set(text, known);
    return known;
  });
  return { samples, classOf };
}

/** Which blocks are equal, as text: all that makes them what they are, with nodes by their place in the block. */
function blockTexts(whole: Network, of: Int32Array, parts: readonly BlockParts[]): string[] {
  const varies = new Map(
    parts.flatMap((p) => p.contacts.map((c) => [c.device.index, `contact ${c.contact.on} ${c.contact.off}`] as const)),
  );
  const place = new Int32Array(whole.n);
  const sizes = parts.map(() => 0);
  for (let node = 0; node < whole.n; node++) {
    const block = of[node] as number;
    if (block < 0) continue;
    place[node] = sizes[block] as number;
    sizes[block] = (sizes[block] as number) + 1;
  }
  const nameOf = (node: Node) => (node === GROUND ? '0' : (of[node] as number) < 0 ? `+${node}` : `n${place[node]}`);
  const texts = parts.map((p): string[] => [
    `+${p.rail} ${p.nodes.map(nameOf)}`,
    ...p.contacts.map((c) => `contact ${whole.nodesOf(c.device).map(nameOf)}`),
    ...p.outputs.map((d) => `output ${whole.nodesOf(d).map(nameOf)}`),
    ...p.inputs.map(
      ({ node, figures, of: part }) =>
        `input ${nameOf(node)} ${figures.vil} ${figures.vih} ${part !== undefined} ${figures.leakage} ${figures.sinks} ${figures.openHigh}`,
    ),
    ...p.leds.map(({ device, led }) => `led ${whole.nodesOf(device).map(nameOf)} ${led.mostCurrent.value}`),
  ]);
  for (const { nodes, text } of whole.described(varies)) {
    const block = nodes.map((node) => (node === GROUND ? -1 : (of[node] as number))).find((b) => b >= 0);
    if (block !== undefined) texts[block]?.push(`${text} ${nodes.map(nameOf)}`);
  }
  return texts.map((lines) => lines.join('\n'));
}
