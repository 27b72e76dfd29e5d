/** Loops that never rest, found in what has moved: which inputs move which outputs and are moved by them again, at what period, and what sets that. */
import { type Device, GROUND, type Node } from '../../devices/network.ts';
import { compareTexts } from '../../units/text-list.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { ChipInput, ChipSite } from '../circuit/sites.ts';
import type { Oscillation } from '../readout/readings.ts';

/** An input whose level goes to and fro. */
export interface MovingInput {
  readonly site: ChipSite;
  readonly input: number;
  /** [s] */
  readonly period: number;
}

/** One for each loop; those that only listen to it are not part of it. */
export function oscillationsOf(circuit: Circuit, moving: readonly MovingInput[]): Oscillation[] {
  const next = moving.map((from) => followers(circuit, moving, from));
  const reached = next.map((_, i) => reach(next, i));
  const loops = new Map<string, MovingInput[]>();
  for (const [i, input] of moving.entries()) {
    const members = [...(reached[i] as ReadonlySet<number>)].filter((j) => reached[j]?.has(i)).sort((a, b) => a - b);
    if (!members.includes(i)) continue;
    const key = members.join();
    loops.set(key, [...(loops.get(key) ?? []), input]);
  }
  return [...loops.values()].map((loop) => describeLoop(circuit, loop)).sort((a, b) => compareTexts(textOf(a), textOf(b)));
}

const textOf = ({ chips, resistors, capacitors, period }: Oscillation): string => [...chips, ...resistors, ...capacitors, period].join();

/** Places of the moving inputs that one of them moves by its chip. */
function followers({ partition }: Circuit, moving: readonly MovingInput[], { site, input }: MovingInput): number[] {
  const outputs = site.spec.moves?.[input] ?? [...site.outputs.keys()];
  const blocks = new Set(outputs.map((o) => partition.blockOf(site.outputs[o]?.node ?? GROUND)));
  blocks.delete(-1);
  return [...moving.keys()].filter((j) => blocks.has(blockOfInput(partition, moving[j] as MovingInput)));
}

function reach(next: readonly (readonly number[])[], from: number): ReadonlySet<number> {
  const found = new Set<number>(next[from]);
  for (const i of found) for (const j of next[i] ?? []) found.add(j);
  return found;
}

const pinOf = ({ site, input }: MovingInput): ChipInput => site.inputs[input] as ChipInput;
const blockOfInput = (partition: Circuit['partition'], moving: MovingInput): number => partition.blockOf(pinOf(moving).node);

function describeLoop(circuit: Circuit, loop: readonly MovingInput[]): Oscillation {
  const { partition } = circuit;
  const chips = [...new Set(loop.map(({ site }) => site))];
  const blocks = new Set(loop.map((m) => blockOfInput(partition, m)));
  const inLoop = (device: Device) => circuit.network.nodesOf(device).some((node) => blocks.has(partition.blockOf(node)));
  const capacitors = circuit.branches.filter(({ device }) => device.kind === 'capacitor' && inLoop(device));
  const charged = new Set(capacitors.flatMap(({ device }) => circuit.network.nodesOf(device)).filter((n) => partition.blockOf(n) !== -1));
  const isGates = chips.every(({ spec }) => spec.outputs.every((_, output) => spec.answers?.(output, () => 'L') !== undefined));
  return {
    chips: chips.map((site) => site.placed.part.id).sort(compareTexts),
    period: Math.max(...loop.map((m) => m.period)),
    resistors: charging(circuit, charged),
    capacitors: capacitors.map(({ placed }) => placed.part.id),
    meant: capacitors.length > 0 || isGates,
  };
}

/** Below this a conductance is an open contact, or leakage [S]; our choice. */
const OPEN = 1e-8;

/** Resistors on the way from these nodes to whatever charges them: an output that pulls both ways, or a supply. */
function charging(circuit: Circuit, charged: ReadonlySet<Node>): string[] {
  const { network, partition, branches, chips, chipById, contactsById } = circuit;
  const isBoth = ({ spec }: ChipSite, name: string) => (spec.specialDrive?.[name] ?? spec.drive).typical.high.g > 0;
  const ends = new Set(chips.flatMap((site) => site.outputs.filter((o) => isBoth(site, o.name)).map((o) => o.node)));
  const ways = branches
    .filter(({ device, placed }) => device.kind === 'conductance' && !chipById.has(placed.part.id) && network.conductance(device) > OPEN)
    .map(({ device, placed }) => ({ id: placed.part.id, nodes: network.nodesOf(device) }));
  const found = new Set<string>();
  const seen = new Set<Node>();
  const leads = (from: Node): boolean => {
    seen.add(from);
    const on = ways.filter(({ nodes: [a, b] }) => {
      const to = a === from ? b : b === from ? a : undefined;
      return to !== undefined && (partition.blockOf(to) === -1 || ends.has(to) || (!seen.has(to) && leads(to)));
    });
    for (const { id } of on) found.add(id);
    return on.length > 0;
  };
  for (const node of charged) leads(node);
  return [...found].filter((id) => !contactsById.has(id)).sort(compareTexts);
}
