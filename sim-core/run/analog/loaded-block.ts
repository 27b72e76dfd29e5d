/** A block of the circuit with the rails that it leans on, from which currents are drawn to see how far it gives way; what else the rails feed is held. */
import type { Network, Node } from '../../devices/network.ts';
import { makeNewton, type Newton, newton } from '../../solve/newton.ts';

export class LoadedBlock {
  readonly nodes: readonly Node[];
  private readonly part: Network;
  private readonly solver: Newton;
  private readonly place: ReadonlyMap<Node, number>;
  private readonly here: Float64Array;
  private readonly residual: Float64Array;
  private readonly magnitude: Float64Array;

  /** nodes: unfolded ones of the block, and the rails' */
  constructor(whole: Network, nodes: readonly Node[]) {
    this.nodes = nodes;
    this.part = whole.extract(nodes);
    this.solver = makeNewton(this.part);
    this.place = new Map(nodes.map((node, i) => [node, i]));
    this.here = new Float64Array(nodes.length + 1);
    this.residual = new Float64Array(nodes.length + 1);
    this.magnitude = new Float64Array(nodes.length + 1);
  }

  /**
   * Voltages [V] of `of` where the circuit, which rests at x, gives this much more current [A] at each of these nodes; of nodes that are not here, those of x.
   * Undefined if no rest was found.
   */
  volts(x: Float64Array, drawn: ReadonlyMap<Node, number>, of: readonly Node[]): readonly number[] | undefined {
    const { part, here, nodes } = this;
    part.follow();
    for (let i = 0; i < nodes.length; i++) here[i] = x[nodes[i] as number] as number;
    part.restAt(here, this.residual, this.magnitude);
    for (const [node, amps] of drawn) {
      const i = this.place.get(node);
      if (i !== undefined) part.draw(i, amps);
    }
    if (!newton(this.solver, here).ok) return undefined;
    return of.map((node) => here[this.place.get(node) ?? -1] ?? (x[node] as number));
  }
}
