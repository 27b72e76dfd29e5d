/** An input that hears an output of which nobody can tell whether it drives. */
import { describe, expect, test } from 'vitest';
import { GROUND, Network, PULL_HIGH, PULL_LOW } from '../../sim-core/devices/network.ts';
import { TransientSolver } from '../../sim-core/run/analog/transient-solver.ts';
import { UnknownOutputs } from '../../sim-core/run/analog/unknown-outputs.ts';
import type { Circuit } from '../../sim-core/run/circuit/circuit.ts';
import { Partition } from '../../sim-core/run/circuit/partition.ts';
import type { ChipSite } from '../../sim-core/run/circuit/sites.ts';
import { MEMORY, start } from '../support/bench.ts';

describe('a listener', () => {
  /** U1 with its /OE in the air and this byte at every address it may read; its D0 goes to the A0 of U2, held by 10 kΩ, straight or through 1 kΩ. */
  const listens = (byte: string, held: '+a' | '-a', through: 'wire' | 'resistor') => {
    const sim = start(`
      ${MEMORY}
      wire V1 black from a18 to -a17
      wire V0 black from a19 to -a18
      wire WE red from i15 to +j14
      memory U1 0 ${byte}
      board-63 B2
      wire K1 red from +j20 to B2:+a50
      wire K2 black from -j20 to B2:-a50
      static-ram-2kx8 U2 at B2:d12
      wire V red from B2:j12 to B2:+a40
      wire G black from B2:a23 to B2:-a40
      ${through} X${through === 'resistor' ? ' 1k' : ''} from a20 to B2:a19
      resistor RH 10k from B2:b19 to B2:${held}30`);
    const pins = sim.readings().chips.find((c) => c.part === 'U2')?.pins;
    return pins?.find((p) => p.pin === '8')?.level;
  };
  test.each([
    ['00', '-a', 'L'],
    ['01', '+a', 'H'],
    ['01', '-a', 'X'],
    ['00', '+a', 'X'],
  ] as const)('takes a level from %s held by %s where letting go and driving give the same: %s', (byte, held, level) => {
    expect(listens(byte, held, 'wire')).toBe(level);
    expect(listens(byte, held, 'resistor')).toBe(level);
  });
});

/** Seven outputs, each through 1 MΩ on one node with 1 MΩ to ground; their chip's pins stand at ground and at 5 V. */
describe('outputs of which nothing is known', () => {
  const [NODE, RAIL, FIRST] = [0, 1, 2] as const;
  function possible(outputs: number, solve?: () => boolean, ground: number = GROUND) {
    const network = new Network(FIRST + outputs);
    const supply = network.addSupply(RAIL, GROUND, { volts: 5, ohms: 0.05, amps: 1 });
    network.addConductance(NODE, GROUND, 1e-6);
    const side = { g: 0.02, bend: 1 };
    const pins = Array.from({ length: outputs }, (_, i) => FIRST + i).map((node) => {
      network.addConductance(node, NODE, 1e-6);
      return { node, device: network.addOutput(node, GROUND, RAIL, { low: side, high: side }) };
    });
    network.seal();
    network.switchSupply(supply, true);
    const partition = new Partition(network, new Set([RAIL]), [], RAIL);
    const circuit = { network, partition, branches: [], wires: [], supplies: [{ device: supply }] } as unknown as Circuit;
    const solver = new TransientSolver(circuit, { list: [], above: new Uint8Array(0) });
    const site = { placed: { part: { id: 'U1' } }, outputs: pins, ground: { node: ground }, supply: { node: RAIL } } as unknown as ChipSite;
    const seen = new UnknownOutputs(circuit, () => solver.end, solve ?? ((x) => solver.restFor(x)));
    const may = (1 << PULL_LOW) | (1 << PULL_HIGH);
    return seen.possible(pins.map((_, output) => ({ site, output, may })));
  }
  const isAbove = (volts: number) => (x: Float64Array) => (x[NODE] as number) > volts;

  test.each([2, 6, 7])('can all pull low and all high, %i of them, whether each case is looked at or the two outermost', (n) => {
    // n resistors to 5 V over one to ground; the outputs themselves are a ten-thousandth of that
    const most = (5 * n) / (n + 1);
    const all = possible(n);
    expect(all.agreed(0, isAbove(most + 1e-3))).toBe(false);
    expect(all.agreed(0, isAbove(-1e-3))).toBe(true);
    expect(all.agreed(0, isAbove(most - 1e-3))).toBeUndefined();
    expect(all.agreed(0, isAbove(1e-3))).toBeUndefined();
  });

  test('say nothing of a bench that comes to rest nowhere', () => {
    expect(possible(2, () => false).agreed(0, () => true)).toBeUndefined();
  });

  test('say nothing where there are many and their chip stands on a node that moves with them', () => {
    expect(possible(6, undefined, NODE).agreed(0, isAbove(-1e-3))).toBe(true);
    expect(possible(7, undefined, NODE).agreed(0, isAbove(-1e-3))).toBeUndefined();
  });
});
