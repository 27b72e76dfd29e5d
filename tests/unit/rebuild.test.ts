/** What goes on and what begins again when a running bench is put together again: parts by what they are, nets by their old voltages. */
import { describe, expect, test } from 'vitest';
import type { Plan, PlanPart } from '../../shared/plan.ts';
import type { Circuit } from '../../sim-core/run/circuit/circuit.ts';
import { restarts, voltagesAfterRewiring } from '../../sim-core/run/rebuild.ts';
import { compareTexts } from '../../sim-core/units/text-list.ts';
import { MEMORY, planOf, start } from '../support/bench.ts';

const plan = planOf(MEMORY);
const begins = (before: Plan, after: Plan) => [...restarts(before, after)];
const burnt = (...pins: string[]): Plan => ({
  ...plan,
  parts: plan.parts.map((p): PlanPart => (p.id === 'U1' ? { ...p, damaged: { by: 'output', measured: 0.04, limit: 0.02, pins } } : p)),
});

describe('a memory', () => {
  test('whose cells are what they were goes on', () => {
    const cells = { ...plan, cells: { U1: 'aged' } } as unknown as Plan;
    expect(begins(cells, { ...cells, title: 'another' })).toEqual([]);
    expect(begins(cells, { ...cells, cells: { U1: 'new' } } as unknown as Plan)).toEqual(['U1']);
  });

  test('of which another pin is burnt goes on; one of whose burnt pins is whole again is another specimen', () => {
    expect(begins(burnt('D0'), burnt('D0', 'D1'))).toEqual([]);
    expect(begins(burnt('D0', 'D1'), burnt('D0'))).toEqual(['U1']);
    expect(begins(burnt('D0', 'D1'), burnt('D1', 'D0'))).toEqual([]);
  });
});

describe('a net that is joined of two', () => {
  /** One node of two strips that were nodes of their own, at 1 V and at 2 V, with so many legs. */
  const joined = (first: number, second: number) => {
    const net = (index: number, legs: number) => ({ index, legs: Array.from({ length: legs }, () => ({})) });
    const before = { nodeOfNet: [0, 1], nets: { ofStrip: new Map(Object.entries({ a: net(0, first), b: net(1, second) })) } };
    const after = { network: { n: 1 }, netOfNode: [0], innerNodes: [], nets: { all: [{ strips: ['a', 'b'] }] } };
    return voltagesAfterRewiring({ circuit: before as unknown as Circuit, x: Float64Array.of(1, 2, 0) }, after as unknown as Circuit)[0];
  };
  test('begins where the one with more legs was; of two alike the one of the later strip counts', () => {
    expect([joined(3, 2), joined(2, 3), joined(2, 2)]).toEqual([1, 2, 2]);
  });
});

test('nodes are numbered by the names of their strips, in whatever order the file has the wires', () => {
  const names = (of: Plan) => {
    const { nets, netOfNode } = start(of).circuit;
    return netOfNode.map((net) => [...(nets.all[net]?.strips ?? [])].sort(compareTexts)[0] as string);
  };
  const straight = names(plan);
  expect(straight.length).toBeGreaterThan(5);
  expect(straight).toEqual([...straight].sort(compareTexts));
  expect(names({ ...plan, wires: plan.wires.toReversed(), parts: plan.parts.toReversed() })).toEqual(straight);
});

test('LEDs are read in the order of the plan', () => {
  const leds = `board-30 B1\nled LED9 red from c5 to c9\nled LED1 red from c15 to c19`;
  expect(
    start(leds)
      .readings()
      .leds.map((l) => l.led),
  ).toEqual(['LED9', 'LED1']);
});
