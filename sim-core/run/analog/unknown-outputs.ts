/**
 * What the bench can be while what some outputs pull is unknown: operating points enough to say whether an LED or a level is the same in all of them.
 *
 * Few combinations are all solved. Of many, each block goes through its own while the others go through theirs: blocks meet only at the supplies'
 * terminals, which such an output moves by millivolts. A block that has too many of its own is seen at two: all outputs as low as they can, all as high.
 * That is enough for one voltage. Where every current grows with the voltage across its element, Kirchhoff's sums are an M-function of the voltages
 * (W. C. Rheinboldt 1970, J. Math. Anal. Appl. 32, cited from memory): what is fed into one node more lowers no voltage. While a pin lies between its
 * chip's ground and supply, pulling low feeds it least, then letting go, then pulling high; so every voltage lies between those two points. Of two nodes
 * at once that is the most that can be, and perhaps more than is: such an LED may be called unknown though it is not. Where a transistor turns a rise
 * into a fall nothing is said of such a block.
 */

import { type Device, GROUND, type Network, type Node, OFF, PULL_HIGH, PULL_LOW, type Pull } from '../../devices/network.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { Partition } from '../circuit/partition.ts';
import type { ChipSite } from '../circuit/sites.ts';

/** An output, and what it may pull: 1 << pull for each. */
export interface PullChoice {
  readonly site: ChipSite;
  readonly output: number;
  readonly may: number;
}

export interface Possible {
  /**
   * What `look` sees in this block, if it sees the same in every case. It looks at one voltage, and what it sees never falls as that rises; or, with
   * `ends`, at the voltage from the first of two nodes to the second.
   */
  agreed<T>(block: number, look: (x: Float64Array) => T, ends?: readonly [Node, Node]): T | undefined;
}

/** So many combinations are solved at most; our choice. */
const MOST = 64;
/** What feeds a pin more, comes later. */
const RISING: readonly Pull[] = [PULL_LOW, OFF, PULL_HIGH];
/** So many states of the network are remembered, for a bench that comes to them again and again: a clock's high and its low. */
const MOST_REMEMBERED = 32;
/** A pin that is beyond its chip's ground or supply by less [V] counts as between them. */
const BEYOND = 1e-6;

/** How much of what a block can be its points show. */
type Coverage = 'all' | 'outermost' | 'none';

interface Group {
  readonly members: readonly number[];
  readonly combinations: number;
}

/** solve: from x, and into it, where the network as it is set now would rest. end: where it rests as it is. */
export class UnknownOutputs {
  private readonly end: () => Float64Array;
  private readonly solve: (x: Float64Array) => boolean;
  private readonly network: Network;
  private readonly blocks: Partition;
  private readonly steered: ReadonlySet<number>;
  /** by the network's state and the choices in it */
  private readonly known = new Map<string, Possible>();
  /** of now, until the network's values change */
  private state: string | undefined;
  /** choices that were asked for since then, and what they can be */
  private readonly recent: { readonly choices: readonly PullChoice[]; readonly possible: Possible }[] = [];

  constructor(circuit: Circuit, end: () => Float64Array, solve: (x: Float64Array) => boolean) {
    this.end = end;
    this.solve = solve;
    const { network, partition } = circuit;
    this.network = network;
    this.blocks = partition;
    this.steered = steeredBlocks(circuit);
  }

  /** the network's values have changed */
  changed(): void {
    this.state = undefined;
    this.recent.length = 0;
  }

  possible(choices: readonly PullChoice[]): Possible {
    for (const before of this.recent) if (areSame(before.choices, choices)) return before.possible;
    const possible = this.remembered(choices);
    this.recent.push({ choices, possible });
    return possible;
  }

  private remembered(choices: readonly PullChoice[]): Possible {
    this.state ??= this.network.state();
    let key = this.state;
    for (const c of choices) key += `,${c.site.placed.part.id} ${c.output} ${c.may}`;
    let possible = this.known.get(key);
    if (!possible) {
      if (this.known.size >= MOST_REMEMBERED) this.known.clear();
      possible = this.solveAll(choices);
      this.known.set(key, possible);
    }
    return possible;
  }

  private solveAll(choices: readonly PullChoice[]): Possible {
    const options = choices.map((c) => RISING.filter((pull) => (c.may >> pull) & 1));
    const devices = choices.map((c) => deviceOf(c));
    const all: Group = groupOf(
      choices.map((_, i) => i),
      options,
    );
    const groups = new Map<number, Group>();
    for (const block of new Set(choices.map((c) => this.blocks.blockOf(nodeOf(c)))))
      groups.set(
        block,
        groupOf(
          choices.flatMap((c, i) => (this.blocks.blockOf(nodeOf(c)) === block ? [i] : [])),
          options,
        ),
      );
    const together = all.combinations <= MOST ? [all] : [...groups.values()];
    const steps = Math.max(2, ...together.map((g) => g.combinations).filter((n) => n <= MOST));

    const before = devices.map((d) => this.network.pullOf(d));
    const points: Float64Array[] = [];
    let x = this.end();
    let solved = true;
    // the last step is everything at its highest once more, whatever the combinations of each group come to
    for (let step = 0; step <= steps && solved; step++) {
      for (const { members, combinations } of together) {
        const last = combinations - 1;
        let rest = step === steps || (combinations > MOST && step > 0) ? last : combinations > MOST ? 0 : step % combinations;
        for (const i of members) {
          const mine = options[i] as readonly Pull[];
          this.network.setPull(devices[i] as Device, mine[rest % mine.length] as Pull);
          rest = Math.floor(rest / mine.length);
        }
      }
      x = x.slice();
      solved = this.solve(x);
      points.push(x);
    }
    for (const [i, d] of devices.entries()) this.network.setPull(d, before[i] as Pull);

    const coverageOf = (block: number): Coverage => {
      const group = groups.get(block);
      if (all.combinations <= MOST || !group || group.combinations <= MOST) return 'all';
      return !this.steered.has(block) && group.members.every((i) => this.inCountingOrder(choices[i] as PullChoice, points))
        ? 'outermost'
        : 'none';
    };
    const coverages = new Map<number, Coverage>();
    return {
      agreed(block, look, ends) {
        const covered = solved ? (coverages.get(block) ?? coverageOf(block)) : 'none';
        coverages.set(block, covered);
        if (covered === 'none') return undefined;
        const first = look(points[0] as Float64Array);
        const seen = covered === 'outermost' && ends ? [...points, apart(points, ends, 'from'), apart(points, ends, 'to')] : points;
        return seen.every((x) => look(x) === first) ? first : undefined;
      },
    };
  }

  /** Does this output feed its pin more, the higher it pulls? */
  private inCountingOrder({ site, output }: PullChoice, points: readonly Float64Array[]): boolean {
    const pin = site.outputs[output]?.node ?? GROUND;
    if (this.blocks.blockOf(site.ground.node) !== -1 || this.blocks.blockOf(site.supply.node) !== -1) return false;
    const at = (x: Float64Array, node: Node) => (node === GROUND ? 0 : (x[node] as number));
    return points.every((x) => at(x, pin) >= at(x, site.ground.node) - BEYOND && at(x, pin) <= at(x, site.supply.node) + BEYOND);
  }
}

/** One end as high as it has been, the other as low. */
function apart(points: readonly Float64Array[], [from, to]: readonly [Node, Node], higher: 'from' | 'to'): Float64Array {
  const x = Float64Array.from(points[0] ?? []);
  const all = (node: Node) => points.map((p) => p[node] as number);
  if (from !== GROUND) x[from] = higher === 'from' ? Math.max(...all(from)) : Math.min(...all(from));
  if (to !== GROUND) x[to] = higher === 'to' ? Math.max(...all(to)) : Math.min(...all(to));
  return x;
}

function areSame(a: readonly PullChoice[], b: readonly PullChoice[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) {
    const [one, other] = [a[i] as PullChoice, b[i] as PullChoice];
    if (one.site !== other.site || one.output !== other.output || one.may !== other.may) return false;
  }
  return true;
}

const nodeOf = ({ site, output }: PullChoice): Node => site.outputs[output]?.node ?? GROUND;
const deviceOf = ({ site, output }: PullChoice): Device => (site.outputs[output] as ChipSite['outputs'][number]).device;
/** Blocks in which a transistor turns a rise into a fall, or a small current into a large one. */
export const steeredBlocks = ({ branches, network, partition }: Pick<Circuit, 'branches' | 'network' | 'partition'>): Set<number> =>
  new Set(branches.filter(isTransistor).flatMap(({ device }) => network.nodesOf(device).map((node) => partition.blockOf(node))));
const isTransistor = ({ device }: Circuit['branches'][number]) => device.kind === 'collector' || device.kind === 'base';
const groupOf = (members: readonly number[], options: readonly (readonly Pull[])[]): Group => ({
  members,
  combinations: members.reduce((n, i) => n * (options[i] as readonly Pull[]).length, 1),
});
