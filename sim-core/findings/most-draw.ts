/**
 * Voltages of the bench were each chip that no supply feeds by metal to draw the most that its sheet allows: what a resistor, a diode or the clamp of another
 * pin then carries is what may damage it. A chip that is fed by metal moves its rail by millivolts, and is left as it is.
 */
import { GROUND, type Node } from '../devices/network.ts';
import { LoadedBlock } from '../run/analog/loaded-block.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { feedOf } from './resistive-reach.ts';

interface Draws {
  readonly chips: readonly ChipSite[];
  readonly bench: LoadedBlock;
}

const known = new WeakMap<Circuit, Draws | undefined>();

/** x: node voltages now [V]; the same array where nothing more is drawn, or where no rest is found with it. */
export function voltsAtMostDraw(circuit: Circuit, x: Float64Array): Float64Array {
  if (!known.has(circuit)) known.set(circuit, drawsOf(circuit));
  const draws = known.get(circuit);
  if (!draws) return x;
  const { network } = circuit;
  const at = (node: Node) => (node === GROUND ? 0 : (x[node] as number));
  const drawn = new Map<Node, number>();
  const draw = (node: Node, amps: number) => void (node !== GROUND && drawn.set(node, (drawn.get(node) ?? 0) + amps));
  for (const { spec, supply, ground, drain, drains } of draws.chips) {
    const now = network.conductance(drain);
    const most = spec.supplyCurrent.most[now === drains.working ? 'working' : 'resting'] / 5;
    const amps = (most - now) * (at(supply.node) - at(ground.node));
    if (!(amps > 0)) continue;
    draw(supply.node, amps);
    draw(ground.node, -amps);
  }
  const nodes = network.unfolded;
  const volts = drawn.size > 0 ? draws.bench.volts(x, drawn, nodes) : undefined;
  if (!volts) return x;
  const found = x.slice();
  for (const [i, node] of nodes.entries()) found[node] = volts[i] as number;
  network.complete(found);
  return found;
}

function drawsOf(circuit: Circuit): Draws | undefined {
  const chips = circuit.chips.filter((chip) => {
    if (chip.supply.leg === chip.ground.leg) return false;
    const { supply, ground } = feedOf(circuit, chip);
    return supply.plus.length === 0 || ground.minus.length === 0;
  });
  return chips.length > 0 ? { chips, bench: new LoadedBlock(circuit.network, circuit.network.unfolded) } : undefined;
}
