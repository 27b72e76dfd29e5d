/** The change between two plans: it makes the one into the other, and taken back the other into the one, to the bit. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import schema from '../../shared/plan.schema.json' with { type: 'json' };
import type { Plan } from '../../shared/plan.ts';
import { apply, type Change, difference, invert, rebase } from '../../sim-core/index.ts';
import { fromSchema, type Schema } from '../support/from-schema.ts';
import { ledPlan } from '../support/plans.ts';

const once = <T extends { id: string }>(list: readonly T[]): T[] => [...new Map(list.map((t) => [t.id, t])).values()];
/** No thing twice, and no empty list of cells, which an edit leaves out. */
const distinct = ({ cells, ...p }: Plan): Plan => ({
  ...p,
  ...(Object.keys(cells ?? {}).length > 0 ? { cells } : {}),
  boards: once(p.boards),
  parts: once(p.parts),
  wires: once(p.wires),
  meters: once(p.meters),
});
const documents = (fromSchema(schema as unknown as Schema) as fc.Arbitrary<Plan>).map(distinct);

/** The same things in part, in another order, some with another's contents, and others among them. */
const pairs = fc.tuple(documents, documents, fc.nat(1000)).map(([a, b, seed]): [Plan, Plan] => {
  const mix = <T extends { id: string }>(x: readonly T[], y: readonly T[]): T[] => {
    const some = x.filter((_, i) => (seed >> i) % 3 !== 0).map((t, i) => (y[i] && seed % 2 ? { ...y[i], id: t.id } : t));
    return once(seed % 5 === 0 ? [...y, ...some.reverse()] : [...some, ...y]);
  };
  const mixed = <T>(x: Record<string, T>, y: Record<string, T>) => (seed % 7 === 0 ? { ...y, ...x } : { ...x, ...y });
  return [
    a,
    {
      ...b,
      boards: mix(a.boards, b.boards),
      parts: mix(a.parts, b.parts),
      wires: mix(a.wires, b.wires),
      meters: mix(a.meters, b.meters),
      memories: mixed(a.memories, b.memories),
      switches: mixed(a.switches, b.switches),
    },
  ];
});
const nameOf = (c: Change) => ('list' in c ? c.list : 'field' in c ? c.field : '');
const bits = (p: Plan) => JSON.stringify(Object.entries(p).sort(([a], [b]) => (a < b ? -1 : 1)));

test('between any two plans it wires there and back, to the bit', () => {
  fc.assert(
    fc.property(pairs, ([a, b]) => {
      const change = difference(a, b);
      expect(bits(apply(a, change))).toBe(bits(b));
      expect(bits(apply(b, invert(change)))).toBe(bits(a));
      // and so it does on a bench that lives, where with a part goes what it holds
      const made = rebase(a, change);
      expect(bits(apply(a, made))).toBe(bits(b));
      expect(bits(apply(b, invert(made)))).toBe(bits(a));
    }),
    { numRuns: 60 },
  );
});

test('one resistor changed is one thing replaced', () => {
  const a = ledPlan(330);
  expect(difference(a, ledPlan(470))).toEqual({
    op: 'all',
    changes: [{ op: 'replace', list: 'parts', before: a.parts[1], after: { ...a.parts[1], params: { ohms: 470 } } }],
  });
  expect(difference(a, a)).toEqual({ op: 'all', changes: [] });
});

test('a part on another line is one part that goes and comes, and what it holds with it', () => {
  const a: Plan = { ...ledPlan(330), switches: { PS1: [true] } };
  const [supply, resistor, led] = a.parts as [Plan['parts'][0], Plan['parts'][0], Plan['parts'][0]];
  const change = difference(a, { ...a, parts: [resistor, led, supply] });
  expect(change.op === 'all' && change.changes.map((c) => [c.op, nameOf(c)])).toEqual([
    ['set', 'switches'],
    ['remove', 'parts'],
    ['insert', 'parts'],
    ['set', 'switches'],
  ]);
});
