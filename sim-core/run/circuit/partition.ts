/**
 * What of a circuit can be looked at apart: nodes that hang together by something else than ground and the supplies' terminals are one block.
 * A block remembers where it came to rest for each position of what was last moved in it, which is where it will come to rest again.
 */
import { type Device, GROUND, type Network, type Node, OFF } from '../../devices/network.ts';

export interface Partition {
  /** by node; −1 for a node that every block may lean on */
  readonly of: Int32Array;
  readonly count: number;
  /** before a device goes from one state to another: remembers `end` for the old, and puts what it remembers of the new into it */
  moved(device: Device, from: number, to: number, end: Float64Array): void;
  /**
   * Blocks that an output has just pulled and that hold no charge but the pins' own, since this was last asked: they follow at once. Valid until it is asked again.
   * The edge of an output into its load is part of the data sheet's access time, so it must not be counted again.
   */
  takePulled(): BlockSet;
  /** blocks in which something has moved since this was last asked; every one after `stirAll`. Valid until it is asked again. */
  takeStirred(): BlockSet;
  stirAll(): void;
  /** by how much more the moved devices carry where they come to rest than they did before, since this was last asked [A]; as far as is remembered */
  takeCarried(): number;
}

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
 * stiff: nodes of the supplies' terminals. capacitors: those that are parts, not pins. rail: the node that most of the bench is fed from; what is remembered
 * follows it in proportion.
 */
export function makePartition(network: Network, stiff: ReadonlySet<Node>, capacitors: readonly Device[], rail: Node): Partition {
  const { n } = network;
  const parent = Int32Array.from({ length: n }, (_, i) => i);
  const root = (i: number): number => {
    let r = i;
    while (parent[r] !== r) r = parent[r] as number;
    parent[i] = r;
    return r;
  };
  const leans = (node: Node) => node === GROUND || stiff.has(node);
  for (const [a, b] of network.couplings()) if (!leans(a) && !leans(b)) parent[root(b)] = root(a);

  const of = new Int32Array(n).fill(-1);
  const members: number[][] = [];
  const numberOf = new Map<number, number>();
  for (let i = 0; i < n; i++) {
    if (leans(i)) continue;
    const r = root(i);
    let block = numberOf.get(r);
    if (block === undefined) {
      block = members.length;
      numberOf.set(r, block);
      members.push([]);
    }
    members[block]?.push(i);
    of[i] = block;
  }

  const solved = new Set(network.unfolded);
  /** by device: its block, the nodes of it that are solved for, and for each state it has been in where they came to rest */
  const memory = new Map<Device, { readonly block: number; readonly nodes: Int32Array; readonly rests: Rest[] }>();
  const remember = (device: Device) => {
    const [a, b] = network.nodesOf(device);
    const at = (node: Node): number => (node === GROUND ? -1 : (of[node] as number));
    const block = at(a) !== -1 ? at(a) : at(b);
    const made = { block, nodes: Int32Array.from((members[block] ?? []).filter((node) => solved.has(node))), rests: [] };
    memory.set(device, made);
    return made;
  };
  const charged = new Set(capacitors.flatMap((d) => network.nodesOf(d)).map((node) => (node === GROUND ? -1 : (of[node] as number))));
  // of each, one that is being filled and one that has been handed out
  let stirred = new Marks(members.length);
  let stirredBefore = new Marks(members.length);
  let pulled = new Marks(members.length);
  let pulledBefore = new Marks(members.length);
  stirred.addAll();
  /** since it was last asked for [A] */
  const carried = { amps: 0 };
  return {
    of,
    count: members.length,
    moved(device, from, to, end) {
      const { block, nodes, rests } = memory.get(device) ?? remember(device);
      if (block === -1) return;
      stirred.add(block);
      if (device.kind === 'output' && to !== OFF && !charged.has(block)) pulled.add(block);
      else pulled.drop(block);
      let old = restIn(rests, from);
      if (!old) {
        old = { state: from, at: new Float64Array(nodes.length), volts: 0, amps: 0 };
        rests.push(old);
      }
      const volts = rail === GROUND ? 0 : (end[rail] as number);
      old.volts = volts;
      old.amps = Math.abs(network.flow(device, end).i);
      const again = restIn(rests, to);
      if (again) carried.amps += again.amps - old.amps;
      const share = again && again.volts > 1 ? volts / again.volts : 1;
      for (let i = 0; i < nodes.length; i++) {
        const m = nodes[i] as number;
        old.at[i] = end[m] as number;
        if (again) end[m] = share * (again.at[i] as number);
      }
    },
    takePulled() {
      const taken = pulled;
      pulledBefore.clear();
      [pulled, pulledBefore] = [pulledBefore, taken];
      return taken;
    },
    takeStirred() {
      const taken = stirred;
      stirredBefore.clear();
      [stirred, stirredBefore] = [stirredBefore, taken];
      return taken;
    },
    stirAll() {
      stirred.addAll();
    },
    takeCarried() {
      const taken = carried.amps;
      carried.amps = 0;
      return taken;
    },
  };
}
