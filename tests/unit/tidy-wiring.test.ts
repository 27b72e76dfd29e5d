/** Tidied wiring: what counts as a crossing, what stays where it is, and that the same plan is tidied in the same way. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { sayTidied, tidyWiring, wiringFigures } from '../../sim-core/index.ts';
import { cross, goesOver, nearEnds, type Segment } from '../../sim-core/tidy/lines.ts';
import { greenhouse } from '../support/edited-bench.ts';
import { planWith } from '../support/plans.ts';

const line = (ax: number, ay: number, bx: number, by: number): Segment => ({ ax, ay, bx, by });

describe('two wires', () => {
  test.each([
    ['cross in their middles', line(0, 0, 4, 4), line(0, 4, 4, 0), true, 0],
    ['side by side do not cross', line(0, 0, 4, 0), line(0, 1, 4, 1), false, 0],
    ['of which one ends upon the other do not cross; its end is close', line(0, 0, 4, 0), line(2, 0, 2, 3), false, 1],
    ['that lie upon each other for a while cross, and each has an end on the other', line(0, 0, 4, 0), line(2, 0, 6, 0), true, 2],
    ['in one line, one behind the other, do not cross', line(0, 0, 4, 0), line(5, 0, 9, 0), false, 0],
  ] as const)('%s', (_, a, b, crosses, near) => {
    for (const [one, other] of [
      [a, b],
      [b, a],
    ] as const) {
      expect(cross(one, other)).toBe(crosses);
      expect(nearEnds(one, other)).toBe(near);
    }
  });
});

test('a wire goes over a chip if a stretch of it is inside, not if it passes along its edge', () => {
  const chip = { left: 1, right: 5, top: 2, bottom: 4 };
  expect(goesOver(line(0, 3, 6, 3), chip)).toBe(true);
  expect(goesOver(line(3, 0, 3, 9), chip)).toBe(true);
  expect(goesOver(line(2, 3, 2, 9), chip)).toBe(true);
  expect(goesOver(line(0, 2, 6, 2), chip)).toBe(false);
  expect(goesOver(line(0, 0, 6, 1), chip)).toBe(false);
});

const figures = (plan: Plan) => {
  const found = wiringFigures(plan);
  if (!found.ok) throw new Error(found.failure.says);
  return found.value;
};
const tidied = (plan: Plan, locked: readonly string[] = [], seed = 1): Plan => {
  const tidy = tidyWiring(plan, { tries: 60, seeds: [seed], locked });
  if (!tidy.ok) throw new Error(tidy.failure.says);
  return tidy.value.plan;
};

describe('tidying', () => {
  test('two wires that cross within their rows parts them', () => {
    const wires = [
      { id: 'W1', from: 'a1', to: 'e8', colour: 'green' },
      { id: 'W2', from: 'e2', to: 'a7', colour: 'green' },
    ];
    const plan = planWith({ parts: [{ id: 'R1', kind: 'resistor', at: 'b1', to: 'b2' }], wires });
    expect(figures(plan).crossings).toBe(1);
    expect(figures(tidied(plan)).crossings).toBe(0);
  });

  test('of the greenhouse is the same whenever it is asked for, and another with another seed', () => {
    expect(tidied(greenhouse)).toEqual(tidied(greenhouse));
    expect(tidied(greenhouse, [], 2)).not.toEqual(tidied(greenhouse));
  });

  test('leaves what is locked where it is, and the memory, LEDs and their names always', () => {
    const locked = ['W1', 'W20', 'R11', 'S1'];
    const after = tidied(greenhouse, locked);
    const of = (plan: Plan, id: string) => [...plan.parts, ...plan.wires].find((x) => x.id === id);
    for (const id of [...locked, 'U1', 'LED1', 'LED8', 'PS1']) expect(of(after, id)).toEqual(of(greenhouse, id));
    expect(after.parts.filter((p, i) => p !== greenhouse.parts[i]).length).toBeGreaterThan(0);
  });

  test('only moves wires and parts: their values, colours, names and ids are what they were', () => {
    const placeless = ({ parts, wires, ...rest }: Plan) => ({
      ...rest,
      parts: parts.map(({ at, to, ...part }) => ({ ...part, stands: [at !== undefined, to !== undefined] })),
      wires: wires.map(({ id, colour }) => ({ id, colour })),
    });
    expect(placeless(tidied(greenhouse))).toEqual(placeless(greenhouse));
  });

  test('a bench without anything to move leaves it, and says so', () => {
    const plan = planWith({});
    expect(tidied(plan)).toBe(plan);
    expect(sayTidied(figures(plan), figures(plan))).toBe('The wiring is as tidy as this search can make it: nothing was changed.');
  });

  test('refuses a plan whose parts do not fit', () => {
    const plan = planWith({ parts: [{ id: 'R1', kind: 'resistor', at: 'a1', to: 'a99' }] });
    expect(tidyWiring(plan)).toMatchObject({ ok: false, failure: { code: 'plan/unknown-hole' } });
  });
});
