/** An input that hears an output of which nobody can tell whether it drives. */
import { describe, expect, test } from 'vitest';
import { GROUND, Network, PULL_HIGH, PULL_LOW } from '../../sim-core/devices/network.ts';
import { findingsNow, marginsOf, type Simulation } from '../../sim-core/index.ts';
import { TransientSolver } from '../../sim-core/run/analog/transient-solver.ts';
import { UnknownOutputs } from '../../sim-core/run/analog/unknown-outputs.ts';
import type { Circuit } from '../../sim-core/run/circuit/circuit.ts';
import { Partition } from '../../sim-core/run/circuit/partition.ts';
import type { ChipSite } from '../../sim-core/run/circuit/sites.ts';
import { MEMORY, planOf, start } from '../support/bench.ts';

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

/** A memory that holds the next state at every state, and a register that takes it: nothing is known of either before the first edge. */
const registerMachine = (register: string, memory: string) => `
  board-63 B1
  bench-supply PS1
  switch PS1 set 1
  wire P1 from PS1.+ to +j1
  wire P2 from PS1.- to -j1
  wire P3 from -j2 to -a1
  octal-register ${register} HCT at e10
  wire V1 from j10 to +j10
  wire G1 from a19 to -a19
  wire OE1 from a10 to -a10
  capacitor C1 100n from i10 to -j10
  resistor R1 10k from j19 to -j19
  eeprom-2kx8 ${memory} at d32
  wire V2 from j32 to +j32
  wire G2 from a43 to -a43
  capacitor C2 100n from i32 to -j31
  wire CE from j38 to -j35
  wire OE2 from j36 to -j36
  wire WE from j35 to +j35
  wire A8 from j33 to -j33
  wire A9 from j34 to -j34
  wire A10 from j37 to -j37
  memory ${memory} 0 0102030405060700
  ${[39, 38, 37, 36, 35, 34, 33, 32].map((row, i) => `wire Q${i} from j${11 + i} to a${row}`).join('\n')}
  ${['a40', 'a41', 'a42', 'j43', 'j42', 'j41', 'j40', 'j39'].map((hole, i) => `wire D${i} from ${hole} to a${11 + i}`).join('\n')}`;

describe('a register machine before its first edge', () => {
  const benches = { 'register first': registerMachine('U1', 'U2'), 'memory first': registerMachine('U2', 'U1') };
  test.each(Object.entries(benches))('%s: its 16 nets are undefined and none floats; nothing is wrong with it', (_, text) => {
    const sim = start(text);
    const drives = sim.readings().nets.map((n) => n.drive);
    expect(drives.filter((d) => d === 'unknown')).toHaveLength(16);
    expect(drives).not.toContain('floating');
    expect(findingsNow(sim)).toEqual([]);
  });
  test.each(Object.entries(benches))('%s: the parts of the plan the other way round change no verdict', (_, text) => {
    const plan = planOf(text);
    const drives = (sim: Simulation) => new Map([...sim.circuit.nets.ofStrip].map(([s, n]) => [s, sim.readings().nets[n.index]?.drive]));
    expect(drives(start({ ...plan, parts: [...plan.parts].reverse() }))).toEqual(drives(start(plan)));
  });
  test('no margin is computed of a net whose level nobody drives to a known side', () => {
    const margins = marginsOf(planOf(benches['register first']), 'worst');
    if (!margins.ok) throw new Error(margins.failure.says);
    for (const m of margins.value) expect(Math.abs(m.worst), JSON.stringify(m.at)).toBeLessThan(10);
    expect(margins.value.filter((m) => m.what.startsWith('level-')).map((m) => m.at.id)).toEqual(['U1.11']);
  });
});

test('an input at the collector floats where the leakage at the base, amplified, can carry it past its level', () => {
  // 4.3 µA into the base: the collector is at some 3 V through 2.2 kΩ; what leaks at A1 moves it by a hundred times as much as what leaks at A0
  const sim = start(`
    ${MEMORY}
    wire WE from i15 to +j14
    wire OE from i16 to -j16
    board-63 B2
    wire K1 from +j20 to B2:+a50
    wire K2 from -j20 to B2:-a50
    npn-transistor Q1 at B2:e10
    wire E1 from B2:a10 to B2:-a10
    resistor RB 1M from B2:a11 to B2:+a11
    wire WB from B2:b11 to a18
    resistor RC 2k2 from B2:a12 to B2:+a12
    wire WC from B2:b12 to a19`);
  const { circuit } = sim;
  const drive = (pin: string) => sim.readings().nets[circuit.netOf(circuit.chips[0]!.inputs.find((i) => i.name === pin)!.leg).index];
  expect(drive('A1')).toMatchObject({ drive: 'weak', volts: expect.closeTo(0.64, 2) });
  // alone on its 2.2 kΩ it would be held within 22 mV
  expect(drive('A0')).toMatchObject({ drive: 'floating', ohms: expect.closeTo(2200, -1) });
});
