/** Marks that several voltages pass in one step in time are told in their order, each at the moment of its closed form. */
import { expect, test } from 'vitest';
import type { Watch } from '../../sim-core/run/lookout.ts';
import { makePhysics } from '../../sim-core/run/physics.ts';
import { start } from '../support/bench.ts';

test('two capacitors of 1.0 and 1.3 µs pass two hundred marks in the order of v = V·(1 − exp(−t/RC)), within 0.1 %', () => {
  const { circuit } = start(`
    B1 board-30
    PS1 bench-supply ohms=0.001
    W1 lead PS1.+ a1 red
    W2 lead PS1.- a20 black
    R1 resistor b1 b5 ohms=1k
    R2 resistor c1 c10 ohms=1.3k
    C1 capacitor d5 d20 farads=1n
    C2 capacitor d10 e20 farads=1n`);
  const nodeAt = (strip: string) => circuit.nodeOfNet[circuit.nets.ofStrip.get(strip)!.index]!;
  const curves = [
    { node: nodeAt('B1/5a'), rc: 1e-6 },
    { node: nodeAt('B1/10a'), rc: 1.3e-6 },
  ];
  // marks in pairs, four nanoseconds apart, now the one first and now the other, late, where steps are long: a straight line through a step would mistake their order
  const marks = curves.flatMap(({ node, rc }, curve) =>
    Array.from({ length: 100 }, (_, i) => {
      const at = 4e-6 + 5e-8 * i + (curve === i % 2 ? 4e-9 : 0);
      return { node, at, mark: 5 * (1 - Math.exp(-at / rc)) };
    }),
  );
  const list: Watch[] = marks.map(({ node, mark }) => ({ a: node, b: nodeAt('B1/20a'), mark }));
  const physics = makePhysics(circuit, { list, above: new Uint8Array(list.length) });
  circuit.network.switchSupply(circuit.supplies[0]!.device, true);
  physics.jump();
  const told: { watch: number; at: number }[] = [];
  let now = 0;
  while (!physics.resting) {
    const { moved, passed } = physics.step(Number.POSITIVE_INFINITY);
    now += moved;
    for (const watch of passed) told.push({ watch, at: now });
  }
  const exact = marks.map(({ at }, watch) => ({ watch, at })).sort((a, b) => a.at - b.at);
  expect(told.map((t) => t.watch)).toEqual(exact.map((e) => e.watch));
  for (const [k, { at }] of told.entries()) expect(Math.abs(at / exact[k]!.at - 1)).toBeLessThan(1e-3);
});
