/** What blocks remember between two looks: which have been pulled and stirred, told once each, and where they came to rest before. */
import { describe, expect, test } from 'vitest';
import { GROUND, Network, OFF, PULL_HIGH, PULL_LOW } from '../../sim-core/devices/network.ts';
import { type BlockSet, Partition } from '../../sim-core/run/circuit/partition.ts';

const [RAIL, A, B] = [0, 1, 2] as const;

/** Two outputs on a rail, each with a node of its own. */
function twoOutputs() {
  const network = new Network(3);
  network.addSupply(RAIL, GROUND, { volts: 5, ohms: 0.05, amps: 1 });
  const side = { g: 0.02, bend: 1 };
  const [a, b] = [A, B].map((node) => network.addOutput(node, GROUND, RAIL, { low: side, high: side }));
  network.seal();
  return { network, blocks: new Partition(network, new Set([RAIL]), [], RAIL), a: a!, b: b! };
}
/** The same with the rail behind them, and a capacitor that is a part on the first. */
function railLast() {
  const network = new Network(3);
  network.addSupply(2, GROUND, { volts: 5, ohms: 0.05, amps: 1 });
  const side = { g: 0.02, bend: 1 };
  const [a, b] = [0, 1].map((node) => network.addOutput(node, GROUND, 2, { low: side, high: side }));
  const c = network.addCapacitor(0, GROUND, 1e-9);
  network.seal();
  return { blocks: new Partition(network, new Set([2]), [c], 2), a: a!, b: b! };
}
/** The answers of a set for these blocks. */
const asked = (set: BlockSet, ...blocks: number[]) => blocks.map((b) => set.has(b));
const rest = (volts: number, a: number, b: number) => Float64Array.of(volts, a, b, 0);

describe('blocks', () => {
  test('are what hangs together by more than the rail', () => {
    const { of, count } = twoOutputs().blocks;
    expect([[...of], count]).toEqual([[-1, 0, 1], 2]);
  });

  test('are counted from the first node, wherever the rail is; ground and the rail are in none', () => {
    const { blocks } = railLast();
    expect([[...blocks.of], blocks.count]).toEqual([[0, 1, -1], 2]);
    expect([0, 1, 2, GROUND].map((node) => blocks.blockOf(node))).toEqual([0, 1, -1, -1]);
  });

  test('that hold the charge of a capacitor do not follow at once', () => {
    const { blocks, a, b } = railLast();
    blocks.moved(a, OFF, PULL_HIGH, rest(0, 0, 5));
    blocks.moved(b, OFF, PULL_HIGH, rest(0, 0, 5));
    expect(asked(blocks.takePulled(), 0, 1)).toEqual([false, true]);
  });

  test('carry so much more as the moved devices do where they came to rest before, told once', () => {
    const { network, blocks, a } = twoOutputs();
    blocks.moved(a, OFF, PULL_LOW, rest(5, 4, 0));
    network.setPull(a, PULL_LOW);
    expect(blocks.takeCarried()).toBe(0);
    blocks.moved(a, PULL_LOW, OFF, rest(5, 1, 0));
    expect(blocks.takeCarried()).toBeCloseTo(0 - (1 * 0.02) / Math.SQRT2, 3);
    expect(blocks.takeCarried()).toBe(0);
  });

  test('have been stirred all at first, then those in which something has moved, each told once', () => {
    const { blocks, b } = twoOutputs();
    expect(asked(blocks.takeDirty(), -1, 0, 1)).toEqual([true, true, true]);
    expect(asked(blocks.takeDirty(), -1, 0, 1)).toEqual([false, false, false]);
    blocks.moved(b, OFF, PULL_LOW, rest(5, 0, 0));
    const taken = blocks.takeDirty();
    blocks.moved(b, PULL_LOW, OFF, rest(5, 0, 0));
    expect(asked(taken, -1, 0, 1)).toEqual([false, false, true]);
    expect(asked(blocks.takeDirty(), -1, 0, 1)).toEqual([false, false, true]);
    expect(asked(blocks.takeDirty(), -1, 0, 1)).toEqual([false, false, false]);
  });

  test('are pulled until they are asked about, or until the output lets go', () => {
    const { blocks, a, b } = twoOutputs();
    blocks.moved(a, OFF, PULL_HIGH, rest(5, 0, 0));
    blocks.moved(b, OFF, PULL_HIGH, rest(5, 0, 0));
    blocks.moved(b, PULL_HIGH, OFF, rest(5, 0, 0));
    expect(asked(blocks.takePulled(), 0, 1)).toEqual([true, false]);
    for (let k = 0; k < 3; k++) expect(asked(blocks.takePulled(), 0, 1)).toEqual([false, false]);
  });

  test('are expected where they came to rest before, in proportion to the rail, and the others where they are', () => {
    const { blocks, a } = twoOutputs();
    blocks.moved(a, OFF, PULL_HIGH, rest(5, 0.1, 3));
    blocks.moved(a, PULL_HIGH, OFF, rest(5, 4.8, 3));
    const end = rest(4, 0.1, 3);
    blocks.moved(a, OFF, PULL_HIGH, end);
    expect([...end]).toEqual([4, (4 / 5) * 4.8, 3, 0]);
  });
});
