/** Ids that the program keeps for itself are refused in every list of a plan that is looked up by them, and in no other. */
import { describe, expect, test } from 'vitest';
import { readPlan } from '../../shared/read-plan.ts';
import { emptyPlan } from '../support/plans.ts';

const LISTS: Readonly<Record<string, (id: string) => object>> = {
  boards: (id: string) => ({ id, kind: 'board-63', spot: [0, 0], splitRails: false }),
  parts: (id: string) => ({ id, kind: 'resistor', at: 'a1', to: 'a5' }),
  wires: (id: string) => ({ id, from: 'a1', to: 'a2', colour: 'red' }),
};

describe.each(Object.entries(LISTS))('in %s', (list, entry) => {
  const read = (...ids: string[]) => readPlan(JSON.stringify({ ...emptyPlan, [list]: ids.map((id) => entry(id)) }));

  test.each(['constructor', 'toString', 'hasOwnProperty', '__proto__'])('%s is refused, with its place', (id) => {
    const answer = read('X1', 'X2', id);
    expect(answer).toMatchObject({ ok: false, failure: { at: `${list}/2/id`, says: expect.stringContaining(`${list}/2/id is "${id}"`) } });
  });
  test('an ordinary one is taken', () => {
    expect(read('X1', 'X2').ok).toBe(true);
  });
});
