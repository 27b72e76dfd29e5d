/** What must hold on any bench: Kirchhoff's current law, indifference to what is not connected, edits that undo themselves. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan, PlanPart } from '../../shared/plan.ts';
import { LEAKAGE_TO_GROUND } from '../../sim-core/devices/network.ts';
import { apply, type Change, invert, join, simulate } from '../../sim-core/index.ts';
import { legCurrent } from '../../sim-core/run/readout/measure.ts';
import { manyMemories } from '../bench/benches.ts';
import { start } from '../support/bench.ts';

/** A heap of two-leg parts, each leg in a hole of its own (column by part) of any of twenty rows, on a supply that is on. */
const heap = fc
  .array(
    fc.record({
      kind: fc.constantFrom('resistor', 'led', 'capacitor'),
      at: fc.integer({ min: 1, max: 20 }),
      to: fc.integer({ min: 1, max: 20 }),
      ohms: fc.constantFrom(1, 47, 330, 1000, 10_000, 1e6),
      colour: fc.constantFrom('red', 'amber', 'green', 'blue', 'white'),
    }),
    { minLength: 1, maxLength: 30 },
  )
  .map((things): Plan => {
    const used = new Map<number, number>();
    const hole = (row: number): string | undefined => {
      const k = used.get(row) ?? 0;
      used.set(row, k + 1);
      return k < 4 ? `${'abcd'[k]}${row}` : undefined;
    };
    const parts: PlanPart[] = [{ id: 'PS1', kind: 'bench-supply', spot: [0, 0] }];
    for (const [i, t] of things.entries()) {
      const at = hole(t.at);
      const to = hole(t.to);
      if (!at || !to) continue;
      const params: PlanPart['params'] =
        t.kind === 'resistor' ? { ohms: t.ohms } : t.kind === 'led' ? { colour: t.colour } : { farads: 1e-9 };
      parts.push({ id: `P${i}`, kind: t.kind, at, to, params });
    }
    return {
      format: 'lampwright-plan',
      version: 2,
      title: 'a heap',
      boards: [{ id: 'B1', kind: 'board-30', spot: [0, 0], splitRails: false }],
      parts,
      wires: [
        { id: 'W1', from: 'PS1.+', to: 'e1', colour: 'red' },
        { id: 'W2', from: 'PS1.-', to: 'e2', colour: 'black' },
      ],
      memories: {},
      meters: [],
      notes: [],
      switches: { PS1: [true] },
    };
  });

describe('any heap of parts on a supply', () => {
  test('comes to rest with Kirchhoff’s current law kept at every net, to 1e-8 of what flows', () => {
    fc.assert(
      fc.property(heap, (plan) => {
        const sim = start(plan);
        expect(sim.readings().unsolved).toBeUndefined();
        const { circuit } = sim;
        const x = new Float64Array(circuit.network.n + 1);
        for (const [net, node] of circuit.nodeOfNet.entries()) if (node >= 0) x[node] = sim.readings().nets[net]!.volts;
        for (const net of circuit.nets.all) {
          const currents = net.legs.map((l) => legCurrent(circuit, circuit.network, `${l.part.id}.${l.pin}`, x));
          const sum = currents.reduce((a, b) => a + b, 0);
          // what every net leaks into the air flows beside the parts
          const air = LEAKAGE_TO_GROUND * 5 * circuit.nets.all.length;
          expect(Math.abs(sum)).toBeLessThanOrEqual(1e-8 * currents.reduce((a, b) => a + Math.abs(b), 0) + 1.01 * air);
        }
      }),
      { numRuns: 150 },
    );
  });

  test('a part that touches nothing changes nothing', () => {
    fc.assert(
      fc.property(heap, (plan) => {
        const alone: PlanPart = { id: 'X1', kind: 'resistor', at: 'j29', to: 'j30', params: { ohms: 100 } };
        const before = start(plan).readings();
        const after = start({ ...plan, parts: [...plan.parts, alone] }).readings();
        for (const [i, net] of before.nets.entries()) expect(after.nets[i]!.volts).toBeCloseTo(net.volts, 7);
      }),
      { numRuns: 60 },
    );
  });

  test('the order of the parts in the plan makes no difference', () => {
    fc.assert(
      fc.property(heap, (plan) => {
        const turned = { ...plan, parts: [...plan.parts].reverse() };
        const amps = (p: Plan) =>
          Object.fromEntries(
            start(p)
              .readings()
              .leds.map((l) => [l.led, l.amps]),
          );
        const [a, b] = [amps(plan), amps(turned)];
        for (const led of Object.keys(a)) expect(Math.abs(a[led]! - b[led]!)).toBeLessThanOrEqual(1e-8 * Math.abs(a[led]!) + 1e-11);
      }),
      { numRuns: 60 },
    );
  });
});

describe('edits as values', () => {
  const plan = manyMemories(1, (a) => a & 255);
  const change: fc.Arbitrary<Change> = fc.oneof(
    fc
      .integer({ min: 0, max: plan.wires.length - 1 })
      .map((index): Change => ({ op: 'remove', list: 'wires', item: plan.wires[index]!, index })),
    fc
      .integer({ min: 0, max: plan.parts.length - 1 })
      .map((index): Change => ({ op: 'remove', list: 'parts', item: plan.parts[index]!, index })),
    fc
      .record({ index: fc.nat(plan.wires.length - 1), to: fc.constantFrom('a1', 'j63', '+j7') })
      .map(({ index, to }): Change => ({ op: 'replace', list: 'wires', before: plan.wires[index]!, after: { ...plan.wires[index]!, to } })),
    fc.constant<Change>({ op: 'set', field: 'switches', id: 'S1', before: undefined, after: [true, false] }),
    fc.constant<Change>({ op: 'set', field: 'memories', id: 'U1', before: plan.memories.U1, after: { '0': '00' } }),
  );
  test('any change and its inverse leave the plan as it was', () => {
    fc.assert(
      fc.property(change, (c) => {
        expect(apply(apply(plan, c), invert(c))).toEqual(plan);
        expect(invert(invert(c))).toEqual(c);
      }),
    );
  });
  test('a join is undone last to first', () => {
    const [first, second] = [plan.wires[0]!, plan.wires[1]!];
    const c = join({ op: 'remove', list: 'wires', item: first, index: 0 }, { op: 'remove', list: 'wires', item: second, index: 0 });
    expect(apply(plan, c).wires).toHaveLength(plan.wires.length - 2);
    expect(apply(apply(plan, c), invert(c))).toEqual(plan);
  });
});

describe('a running memory', () => {
  test('reading never alters what it holds, whatever is switched', () => {
    const plan = manyMemories(1, (a) => (a * 7 + 3) & 255);
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(10), fc.boolean()), { maxLength: 12 }), (moves) => {
        const sim = start(plan, { seed: moves.length });
        const before = sim.plan().memories;
        for (const [pole, closed] of moves) sim.act({ do: 'set', part: 'S1', pole, closed });
        expect(sim.plan().memories).toEqual(before);
        expect(sim.events).toEqual([]);
      }),
      { numRuns: 20 },
    );
  });
  test('the same seed gives the same run, bit for bit', () => {
    const run = () => {
      const sim = start(
        manyMemories(1, (a) => a & 255),
        { seed: 5 },
      );
      for (let i = 0; i < 8; i++) sim.act({ do: 'set', part: 'S1', pole: i, closed: i % 2 === 0 });
      return { now: sim.now, volts: sim.readings().nets.map((n) => n.volts) };
    };
    expect(run()).toEqual(run());
  });
  test('a plan with an unknown part is refused with its place', () => {
    const plan = manyMemories(1, () => 0);
    const built = simulate({ ...plan, parts: [...plan.parts, { id: 'Q1', kind: 'flux-valve', at: 'f1' }] });
    expect(built).toEqual({
      ok: false,
      failure: {
        code: 'plan/unknown-part',
        at: `parts/${plan.parts.length}/kind`,
        says: 'Q1 is a "flux-valve", and Parts has no such part. Pick one from Parts.',
      },
    });
  });
});
