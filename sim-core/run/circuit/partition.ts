/**
 * What of a circuit can be looked at apart: nodes that are connected by something else than ground and the supplies' terminals are one block.
 * A block remembers where it came to rest for each position of what was last moved in it, which is where it will come to rest again.
 */
import { type Device, GROUND, type Network, type Node, OFF } from '../../devices/network.ts';

/** Some of a circuit's blocks; asking for −1 is allowed, and answered with no unless it is all of them. */
export interface BlockSet {
  has(block: number): boolean;
}

/** A set of small numbers that is filled and emptied without allocation. */
class Marks implements BlockSet {
  private readonly marked: Uint8Array;
  private all = false;

  constructor(count: number) {
    this.marked = new Uint8Array(count);
  }
  has(block: number): boolean {
    return this.all || (block >= 0 && this.marked[block] === 1);
  }
  add(block: number): void {
    this.marked[block] = 1;
  }
  drop(block: number): void {
    this.marked[block] = 0;
  }
  addAll(): void {
    this.all = true;
  }
  clear(): void {
    this.marked.fill(0);
    this.all = false;
  }
}

interface Rest {
  readonly state: number;
  readonly at: Float64Array;
  /** of the rail [V] */
  volts: number;
  /** magnitude of the device's current [A] */
  amps: number;
}

function restIn(rests: readonly Rest[], state: number): Rest | undefined {
  for (let i = 0; i < rests.length; i++) if (rests[i]?.state === state) return rests[i];
  return undefined;
}

/**
 * stiff: nodes of the supplies' terminals. capacitors: those that are parts, not pins, and coils. rail: the node that most of the bench is fed from; what is remembered
 * follows it in proportion.
 */
export class Partition {
  private readonly network: Network;
  private readonly stiff: ReadonlySet<Node>;
  private readonly rail: Node;
  private readonly parent: Int32Array;
  /** by node; −1 for a node that every block may lean on */
  readonly of: Int32Array;
  private readonly members: number[][] = [];
  private readonly solved: Set<number>;
  /** by device: the nodes of its block that are solved for, and for each state it has been in where they came to rest */
  private readonly memory = new Map<Device, { readonly nodes: Int32Array; readonly rests: Rest[] }>();
  /** by what moves, as far as it has: its block */
  private readonly outputs: number[] = [];
  private readonly contacts: number[] = [];
  private readonly charged: Set<number>;
  // of each, one that is being filled and one that has been handed out
  private dirty: Marks;
  private dirtyBefore: Marks;
  private pulled: Marks;
  private pulledBefore: Marks;
  /** since it was last asked for [A] */
  private readonly carried = { amps: 0 };
  readonly count: number;

  constructor(network: Network, stiff: ReadonlySet<Node>, capacitors: readonly Device[], rail: Node) {
    this.network = network;
    this.stiff = stiff;
    this.rail = rail;
    const { n } = this.network;
    this.parent = Int32Array.from({ length: n }, (_, i) => i);
    for (const [a, b] of this.network.couplings()) if (!this.leans(a) && !this.leans(b)) this.parent[this.root(b)] = this.root(a);
    this.of = new Int32Array(n).fill(-1);
    const numberOf = new Map<number, number>();
    for (let i = 0; i < n; i++) {
      if (this.leans(i)) continue;
      const r = this.root(i);
      let block = numberOf.get(r);
      if (block === undefined) {
        block = this.members.length;
        numberOf.set(r, block);
        this.members.push([]);
      }
      this.members[block]?.push(i);
      this.of[i] = block;
    }
    this.solved = new Set(this.network.unfolded);
    this.charged = new Set(capacitors.flatMap((d) => this.network.nodesOf(d)).map((node) => this.blockOf(node)));
    this.dirty = new Marks(this.members.length);
    this.dirtyBefore = new Marks(this.members.length);
    this.pulled = new Marks(this.members.length);
    this.pulledBefore = new Marks(this.members.length);
    this.dirty.addAll();
    this.count = this.members.length;
  }

  /** −1 for ground, and for a node that every block may lean on */
  blockOf(node: Node): number {
    return node === GROUND ? -1 : (this.of[node] as number);
  }

  /** before a device goes from one state to another. end: is remembered for the old, and takes what is remembered of the new */
  moved(device: Device, from: number, to: number, end: Float64Array | undefined): void {
    const block = this.blockWith(device);
    if (block === -1) return;
    this.dirty.add(block);
    if (device.kind === 'output' && to !== OFF && !this.charged.has(block)) this.pulled.add(block);
    else this.pulled.drop(block);
    if (!end) return;
    const { nodes, rests } = this.memory.get(device) ?? this.remember(device, block);
    let old = restIn(rests, from);
    if (!old) {
      old = { state: from, at: new Float64Array(nodes.length), volts: 0, amps: 0 };
      rests.push(old);
    }
    const volts = this.rail === GROUND ? 0 : (end[this.rail] as number);
    old.volts = volts;
    old.amps = Math.abs(this.network.flow(device, end).i);
    const again = restIn(rests, to);
    if (again) this.carried.amps += again.amps - old.amps;
    const share = again && again.volts > 1 ? volts / again.volts : 1;
    for (let i = 0; i < nodes.length; i++) {
      const m = nodes[i] as number;
      old.at[i] = end[m] as number;
      if (again) end[m] = share * (again.at[i] as number);
    }
  }

  /**
   * Blocks that an output has just pulled and that hold no charge but the pins' own, since this was last asked: they follow at once. Valid until it is asked again.
   * The edge of an output into its load is part of the data sheet's access time, so it must not be counted again.
   */
  takePulled(): BlockSet {
    const taken = this.pulled;
    this.pulledBefore.clear();
    [this.pulled, this.pulledBefore] = [this.pulledBefore, taken];
    return taken;
  }

  /** blocks in which something has moved since this was last asked; every one after `markAllDirty`. Valid until it is asked again. */
  takeDirty(): BlockSet {
    const taken = this.dirty;
    this.dirtyBefore.clear();
    [this.dirty, this.dirtyBefore] = [this.dirtyBefore, taken];
    return taken;
  }

  markAllDirty(): void {
    this.dirty.addAll();
  }

  /** by how much more the moved devices carry where they come to rest than they did before, since this was last asked [A]; as far as is remembered */
  takeCarried(): number {
    const taken = this.carried.amps;
    this.carried.amps = 0;
    return taken;
  }

  private root(i: number): number {
    let r = i;
    while (this.parent[r] !== r) r = this.parent[r] as number;
    this.parent[i] = r;
    return r;
  }

  private leans(node: Node): boolean {
    return node === GROUND || this.stiff.has(node);
  }

  /** Where an output or a contact is; −1 between supplies' terminals. */
  private blockWith(device: Device): number {
    const list = device.kind === 'output' ? this.outputs : this.contacts;
    let block = list[device.index];
    if (block === undefined) {
      const [a, b] = this.network.nodesOf(device);
      block = Math.max(this.blockOf(a), this.blockOf(b));
      list[device.index] = block;
    }
    return block;
  }

  private remember(device: Device, block: number): { nodes: Int32Array; rests: never[] } {
    const made = { nodes: Int32Array.from((this.members[block] ?? []).filter((node) => this.solved.has(node))), rests: [] };
    this.memory.set(device, made);
    return made;
  }
}
