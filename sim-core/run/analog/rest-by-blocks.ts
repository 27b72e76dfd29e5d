/**
 * Where a bench comes to rest, by its blocks: between its rail and ground each rests by itself, whatever the others do, and the rails are the border at which they
 * meet. Newton's method on the whole network is the judge.
 */
import { type Device, GROUND, type Network, type Node, type Pull } from '../../devices/network.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { ChipSite, ContactSite } from '../circuit/sites.ts';
import { BlockRests } from '../rows/block-rests.ts';
import { blockOfDevice, blocksOnRails, type Digit } from '../rows/blocks.ts';
import { exact, SupplyRail } from '../rows/supply-rail.ts';

/** Every so many rests are solved by the whole network whatever the blocks say; a prime, as acts come in twos and fours. */
const JUDGED = 61;

/** Something that moves: what it counts in its block's state; or a chip's supply current, that leaves a rail. */
interface Movable {
  readonly device: Device;
  readonly digit: Digit | undefined;
  /** 1 / resistance of a closed contact [S] */
  readonly on: number;
  readonly rail: SupplyRail | undefined;
  /** as it was counted last: its digit, or what it conducts [S] */
  counted: number;
  isMoved: boolean;
}

export class RestByBlocks {
  private readonly network: Network;
  private readonly rests: BlockRests;
  private readonly outputs: (Movable | undefined)[] = [];
  private readonly conductances: (Movable | undefined)[] = [];
  private readonly moved: Movable[] = [];
  /** by block */
  private readonly states: Int32Array;
  private asked = 0;

  /** At the values that the circuit has now. Undefined where blocks do not rest by themselves: supplies that stand on each other, real wiring, a coil, a transistor. */
  static of(circuit: Circuit, x: Float64Array): RestByBlocks | undefined {
    const rails = railsOf(circuit);
    const blocks = rails && blocksOnRails(circuit, rails);
    if (!blocks) return undefined;
    const made = rails.map((node) => new SupplyRail(circuit.network, node, x[node] as number, []));
    if (!made.every((rail) => rail.goTo(rail.volts))) return undefined;
    return new RestByBlocks(circuit, new BlockRests(circuit.network, blocks, made), made, blocks);
  }

  private constructor(
    { network, chips, contacts }: Circuit,
    rests: BlockRests,
    rails: readonly SupplyRail[],
    blocks: NonNullable<ReturnType<typeof blocksOnRails>>,
  ) {
    this.network = network;
    this.rests = rests;
    const states = new Int32Array(blocks.parts.length);
    this.states = states;
    const keep = (list: (Movable | undefined)[], device: Device, more: Pick<Movable, 'digit' | 'on' | 'rail'>): void => {
      const movable: Movable = { device, ...more, counted: 0, isMoved: false };
      movable.counted = this.valueOf(movable);
      list[device.index] = movable;
      const { digit, counted } = movable;
      if (digit) states[digit.block] = (states[digit.block] as number) + counted * digit.weight;
    };
    for (const site of contacts)
      keep(this.conductances, site.device, { digit: blocks.contacts.get(site), on: 1 / site.contact.on, rail: undefined });
    for (const [k, { outputs, drain, supply }] of chips.entries()) {
      for (const [o, { device }] of outputs.entries())
        keep(this.outputs, device, { digit: blocks.outputs[k]?.[o], on: 0, rail: undefined });
      keep(this.conductances, drain, { digit: undefined, on: 0, rail: rails.find((r) => r.node === supply.node) });
    }
    for (const [block, state] of states.entries()) rests.enter(block, state);
  }

  /** A device goes from one state to another, or has. */
  moves({ kind, index }: Device): void {
    const movable = (kind === 'output' ? this.outputs : this.conductances)[index];
    if (!movable || movable.isMoved) return;
    movable.isMoved = true;
    this.moved.push(movable);
  }

  /** Where the network as it is set now rests, into x. 'unsure': it has to be judged; 'nowhere': the blocks do not say. */
  find(x: Float64Array): 'sure' | 'unsure' | 'nowhere' {
    const { moved, rests } = this;
    for (let i = 0; i < moved.length; i++) this.take(moved[i] as Movable);
    moved.length = 0;
    if (!rests.settle()) return 'nowhere';
    rests.voltages(x);
    this.asked += 1;
    const isSure = !rests.fresh && this.asked % JUDGED !== 0;
    rests.fresh = false;
    return isSure ? 'sure' : 'unsure';
  }

  private take(movable: Movable): void {
    const { digit, rail, counted } = movable;
    const now = this.valueOf(movable);
    movable.isMoved = false;
    movable.counted = now;
    if (rail) rail.drains += exact(now - counted);
    if (!digit || now === counted) return;
    const { block, weight } = digit;
    const state = (this.states[block] as number) + (now - counted) * weight;
    this.states[block] = state;
    this.rests.enter(block, state);
  }

  private valueOf({ device, digit, on }: Pick<Movable, 'device' | 'digit' | 'on'>): number {
    if (device.kind === 'output') return this.network.pullOf(device) satisfies Pull;
    const siemens = this.network.conductance(device);
    return digit ? (siemens === on ? 1 : 0) : siemens;
  }
}

/** Plus nodes of the supplies, if each stands on ground and everything that moves is in a block, or a chip's supply current from a rail to ground. */
function railsOf(circuit: Circuit): readonly Node[] | undefined {
  const { network, partition, supplies, wires, chips, contacts } = circuit;
  const rails = [...new Set(supplies.map((s) => network.nodesOf(s.device)[0]))];
  const stiff = partition.of.filter((block) => block === -1).length;
  const isRail = (node: Node) => rails.includes(node);
  const stands =
    supplies.length > 0 && !isRail(GROUND) && supplies.every((s) => network.nodesOf(s.device)[1] === GROUND && network.isOn(s.device));
  const isApart = ({ device }: ContactSite) => blockOfDevice(circuit, device) >= 0;
  const isFed = ({ supply, ground, outputs }: ChipSite) =>
    isRail(supply.node) && ground.node === GROUND && outputs.every((o) => o.node !== GROUND && !isRail(o.node));
  return stands && stiff === rails.length && wires.length === 0 && !network.skew && contacts.every(isApart) && chips.every(isFed)
    ? rails
    : undefined;
}
