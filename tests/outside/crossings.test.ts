/** Marks that several voltages pass in one step in time are told in their order, each at the moment of its closed form. */
import { expect, test } from 'vitest';
import type { Watch } from '../../sim-core/run/analog/threshold-crossings.ts';
import { TransientSolver } from '../../sim-core/run/analog/transient-solver.ts';
import { start } from '../support/bench.ts';

/** What is told of these marks against the black rail, in order, from the moment at which the supply is switched on. */
function toldOf({ circuit }: ReturnType<typeof start>, marks: readonly { readonly node: number; readonly mark: number }[]) {
  const ground = circuit.nodeOf(circuit.supplies[0]!.minus);
  const list: Watch[] = marks.map(({ node, mark }) => ({ a: node, b: ground, mark }));
  const physics = new TransientSolver(circuit, { list, above: new Uint8Array(list.length) });
  circuit.network.switchSupply(circuit.supplies[0]!.device, true);
  physics.jump();
  const told: { watch: number; at: number }[] = [];
  let now = 0;
  while (!physics.resting()) {
    const { moved, passed } = physics.step(Number.POSITIVE_INFINITY);
    now += moved;
    for (const watch of passed) told.push({ watch, at: now });
  }
  return told;
}
const nodeAt = ({ circuit }: ReturnType<typeof start>, strip: string) => circuit.nodeOfNet[circuit.nets.ofStrip.get(strip)!.index]!;

test('two capacitors of 1.0 and 1.3 µs pass two hundred marks in the order of v = V·(1 − exp(−t/RC)), within 0.1 %', () => {
  const sim = start(`
    board-30 B1
    bench-supply PS1 with ohms 1m
    wire W1 red from PS1.+ to a1
    wire W2 black from PS1.- to a20
    resistor R1 1k from b1 to b5
    resistor R2 1k3 from c1 to c10
    capacitor C1 1n from d5 to d20
    capacitor C2 1n from d10 to e20`);
  const curves = [
    { node: nodeAt(sim, 'B1/5a'), rc: 1e-6 },
    { node: nodeAt(sim, 'B1/10a'), rc: 1.3e-6 },
  ];
  // marks in pairs, four nanoseconds apart, now the one first and now the other, late, where steps are long: a straight line through a step would mistake their order
  const marks = curves.flatMap(({ node, rc }, curve) =>
    Array.from({ length: 100 }, (_, i) => {
      const at = 4e-6 + 5e-8 * i + (curve === i % 2 ? 4e-9 : 0);
      return { node, at, mark: 5 * (1 - Math.exp(-at / rc)) };
    }),
  );
  const told = toldOf(sim, marks);
  const exact = marks.map(({ at }, watch) => ({ watch, at })).sort((a, b) => a.at - b.at);
  expect(told.map((t) => t.watch)).toEqual(exact.map((e) => e.watch));
  for (const [k, { at }] of told.entries()) expect(Math.abs(at / exact[k]!.at - 1)).toBeLessThan(1e-3);
});

test('behind two RC stages, where a straight line through a step mistakes the later mark for the earlier one, the earlier one is told first', () => {
  const sim = start(`
    board-30 B1
    bench-supply PS1 with ohms 1m
    wire W1 red from PS1.+ to a1
    wire W2 black from PS1.- to a20
    resistor R1 1k from b1 to b5
    resistor R2 1k from c5 to c10
    capacitor C1 1n from d5 to d20
    capacitor C2 1n from d10 to e20`);
  // two equal stages: v″ + 3·v′ + v = V in units of RC, and the first stage stands at v + v′
  const [p, q] = [(-3 + Math.sqrt(5)) / 2, (-3 - Math.sqrt(5)) / 2];
  const far = (t: number) => 5 * (1 - (q * Math.exp(p * t) - p * Math.exp(q * t)) / (q - p));
  const near = (t: number) => far(t) - (5 * p * q * (Math.exp(p * t) - Math.exp(q * t))) / (q - p);
  // the far stage begins as t², so a straight line expects it too soon; the near one is always first, by 3 %
  const marks = Array.from({ length: 40 }, (_, i) => 0.02 * 1.1 ** i).flatMap((t) => [
    { node: nodeAt(sim, 'B1/5a'), at: t * 1e-6, mark: near(t) },
    { node: nodeAt(sim, 'B1/10a'), at: 1.03 * t * 1e-6, mark: far(1.03 * t) },
  ]);
  const told = toldOf(sim, marks);
  expect(told.map((t) => t.watch)).toEqual(marks.map((_, watch) => watch));
  for (const [k, { at }] of told.entries()) expect(Math.abs(at / marks[k]!.at - 1)).toBeLessThan(1e-2);
});
