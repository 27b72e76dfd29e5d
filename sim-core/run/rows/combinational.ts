/** What of a bench its rows move, and whether that follows from nothing but the levels at its chips' inputs; all else stands still meanwhile. */
import { GROUND, type Node } from '../../devices/network.ts';
import type { BuiltCircuit } from '../built-circuit.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { ChipSite, ContactSite } from '../circuit/sites.ts';
import { blockOfDevice, isStored } from './blocks.ts';

/** What rows move. */
export interface Moved {
  /** plus nodes of the supplies */
  readonly rails: readonly Node[];
  /** chips whose inputs may move, as far as possible each after those that it waits for */
  readonly chips: readonly number[];
}

/** Levels at a chip's inputs are bits of one number. */
const MOST_BITS = 31;

/** No voltage of a bench comes so far above its highest rail. */
const ABOVE_RAIL = 1.2;

/**
 * What these contacts move, on a bench at rest. Undefined where that does not follow from levels: supplies that are off or stand on each other, real wiring,
 * a coil, a transistor that is moved, a chip among the moved ones that stores or waits for itself.
 */
export function whatMoves({ circuit, runtime, solver }: BuiltCircuit, contacts: readonly ContactSite[]): Moved | undefined {
  const { network, partition, supplies, wires, coils, chips } = circuit;
  const rails = [...new Set(supplies.map((s) => network.nodesOf(s.device)[0]))];
  const stands = supplies.every((s) => network.nodesOf(s.device)[1] === GROUND && network.isOn(s.device)) && !rails.includes(GROUND);
  const stiff = partition.of.filter((block) => block === -1).length;
  if (!stands || rails.length === 0 || stiff !== rails.length || wires.length + coils.length > 0 || solver.lost() !== undefined)
    return undefined;
  const highest = Math.max(...rails.map((rail) => solver.end[rail] as number));
  const isRail = (node: Node) => node === GROUND || rails.includes(node);
  const fits = ({ supply, ground, outputs, inputs, marks, spec, burnt }: ChipSite, k: number) =>
    runtime.all[k]?.specified.on() === true &&
    burnt.size === 0 &&
    inputs.length <= MOST_BITS &&
    isRail(supply.node) &&
    ground.node === GROUND &&
    outputs.every((o) => !isRail(o.node)) &&
    inputs.every((i) => i.of === undefined || (isRail(i.of) && (!isRail(i.node) || i.node === i.of || i.node === GROUND))) &&
    marks.every((_, m) => (spec.marks?.[m]?.volts ?? 0) > ABOVE_RAIL * highest);
  const apart = [...circuit.contacts, ...circuit.leds].every((site) => blockOfDevice(circuit, site.device) >= 0);
  if (!apart || !chips.every(fits)) return undefined;
  const order = inCountingOrder(circuit, new Set(contacts.map((c) => blockOfDevice(circuit, c.device))));
  if (!order?.chips.every((k) => runtime.all[k]?.chip.settled !== undefined)) return undefined;
  const steered = circuit.branches.filter((b) => b.device.kind === 'collector').map((b) => blockOfDevice(circuit, b.device));
  return steered.some((block) => order.blocks.has(block)) ? undefined : { rails, chips: order.chips };
}

/** What these blocks move, through chips: the blocks, and the chips that read them. Undefined where a block waits for itself. */
function inCountingOrder(
  circuit: Circuit,
  first: ReadonlySet<number>,
): { chips: readonly number[]; blocks: ReadonlySet<number> } | undefined {
  const { chips, partition } = circuit;
  const next = following(circuit);
  const seen = new Map<number, 'on the way' | 'left'>();
  const left: number[] = [];
  const leave = (block: number): boolean => {
    const before = seen.get(block);
    if (before) return before === 'left';
    seen.set(block, 'on the way');
    if (![...(next.get(block) ?? [])].every(leave)) return false;
    seen.set(block, 'left');
    left.push(block);
    return true;
  };
  if (![...first].every(leave)) return undefined;
  const turn = new Map(left.map((block, i) => [block, left.length - i]));
  const turns = chips.map((site) => site.inputs.map((i) => (isStored(site, i) ? 0 : (turn.get(partition.blockOf(i.node)) ?? 0))));
  const last = turns.map((of) => Math.max(0, ...of));
  const reads = ({ inputs }: ChipSite): boolean => inputs.some((i) => turn.has(partition.blockOf(i.node)));
  const order = [...chips.keys()].filter((k) => reads(chips[k] as ChipSite));
  return { chips: order.sort((a, b) => (last[a] as number) - (last[b] as number)), blocks: new Set(left) };
}

/** By block: those that follow it through one chip. */
function following({ chips, partition }: Circuit): ReadonlyMap<number, ReadonlySet<number>> {
  const next = new Map<number, Set<number>>();
  for (const site of chips)
    for (const [i, input] of site.inputs.entries()) {
      if (isStored(site, input)) continue;
      const { spec, outputs } = site;
      const from = partition.blockOf(input.node);
      const to = next.get(from) ?? new Set();
      next.set(from, to);
      for (const o of spec.moves?.[i] ?? outputs.keys()) to.add(partition.blockOf(outputs[o]?.node ?? GROUND));
    }
  return next;
}
