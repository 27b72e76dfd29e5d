/** Which wires a short circuit is blamed on: their removal parts the supply's terminals, no fewer do, and the order of the file changes nothing. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { FED } from '../../sim-core/findings/example-benches.ts';
import { partingWires } from '../../sim-core/findings/parting-wires.ts';
import { findingsNow, plain, sayFinding } from '../../sim-core/index.ts';
import { planOf, start } from '../support/bench.ts';

const short = (plan: Plan) => findingsNow(start(plan, { still: true })).find((f) => f.code === 'supply/current-limit');
const without = (plan: Plan, wires: readonly string[]): Plan => ({ ...plan, wires: plan.wires.filter((w) => !wires.includes(w.id)) });
const partingOf = (plan: Plan) => {
  const { circuit } = start(plan, { still: true });
  const site = circuit.supplies[0]!;
  return partingWires(circuit, site.plus, site.minus);
};

describe('a short circuit', () => {
  test.each<[string, string, string[], ('and' | 'or')?]>([
    ['one wire between the rails', 'wire W1 from +j5 to -j5', ['W1']],
    ['a harmless wire placed after it', 'wire W1 from +j5 to -j5\nwire W3 from -j10 to a10', ['W1']],
    ['two wires side by side', 'wire W1 from +j5 to -j5\nwire W2 from +j7 to -j7', ['W1', 'W2']],
    [
      'three, one of them through two rows',
      'wire W1 from +j5 to -j5\nwire W2 from +j7 to a9\nwire W3 from b9 to a20\nwire W4 from b20 to -j9\nwire W10 from -j11 to +j12',
      ['W1', 'W3', 'W10'],
    ],
    ['two wires that meet in a row, of which either would do', 'wire W3 from -j10 to a10\nwire W4 from +j11 to b10', ['W3', 'W4'], 'or'],
    [
      'a row that a wire to + and a wire to − both need, and a wire between two rows',
      'wire W1 from +j5 to a5\nwire W2 from -j9 to a9\nwire W0 from b5 to b9',
      ['W0'],
    ],
    [
      'a row that three wires bring + to and one −',
      'wire W1 from +j2 to a9\nwire W2 from +j3 to b9\nwire W3 from -j9 to c9\nwire W4 from +j4 to d9',
      ['W3'],
    ],
    ['a rail fed twice', 'wire W1 from +j5 to -j5\nwire WP2 from PS1.+ to +j20', ['W1']],
    ['a terminal wired to the other rail', 'wire W1 from PS1.+ to -j20', ['W1']],
  ])('%s', (_, wires, named, last = 'and') => {
    const plan = planOf(`${FED}\n${wires}`);
    const found = short(plan);
    expect(found?.at.filter((r) => r.kind === 'wire').map((r) => r.id)).toEqual(named);
    const says = named
      .map((id) => `wire ${id}`)
      .join(', ')
      .replace(/, ([^,]+)$/, ` ${last} $1`);
    expect(found && plain(sayFinding(found, plan))).toContain(`Switch off and remove ${says}.`);
    expect(short(without(plan, named))).toBeUndefined();
  });

  test('is not blamed on a wire where there is none', () => {
    expect(partingOf(planOf(`${FED}\nwire W1 from +j5 to a5`)).wires).toEqual([]);
  });
});

test('any wires among rails and rows: those named part the terminals, each alone where any will do, else no fewer, in any order of the file', () => {
  const points = ['+j', '-j', '+a', '-a', 'a20', 'a21', 'a22', 'j20', 'j21'];
  const wire = fc.tuple(fc.constantFrom(...points), fc.constantFrom(...points)).filter(([a, b]) => a !== b);
  let shorted = 0;
  fc.assert(
    fc.property(fc.array(wire, { minLength: 1, maxLength: 12 }), fc.integer({ min: 0, max: 11 }), (pairs, turn) => {
      const used = new Map<string, number>();
      const hole = (point: string): string | undefined => {
        const n = used.get(point) ?? 0;
        used.set(point, n + 1);
        if (/^[+-]/.test(point)) return `${point}${n + 3}`;
        const row = (point.startsWith('a') ? 'abcde' : 'jihgf')[n];
        return row && `${row}${point.slice(1)}`;
      };
      const lines = pairs.flatMap(([a, b], i) => {
        const [from, to] = [hole(a), hole(b)];
        return from && to ? [`wire W${i} from ${from} to ${to}`] : [];
      });
      const plan = planOf(`${FED}\n${lines.join('\n')}`);
      const parting = partingOf(plan);
      const named = parting.wires;
      const turned = { ...plan, wires: [...plan.wires.slice(turn), ...plan.wires.slice(0, turn)] };
      expect(partingOf(turned)).toEqual(parting);
      if (named.length === 0) {
        expect(short(plan)).toBeUndefined();
        return;
      }
      shorted += 1;
      expect(short(without(plan, named))).toBeUndefined();
      // where any will do, each parts them alone; else all are needed
      for (const one of named)
        if (parting.any) expect(short(without(plan, [one]))).toBeUndefined();
        else
          expect(
            short(
              without(
                plan,
                named.filter((id) => id !== one),
              ),
            ),
          ).toBeDefined();
    }),
    { numRuns: 60, seed: 13 },
  );
  expect(shorted).toBeGreaterThan(15);
});
