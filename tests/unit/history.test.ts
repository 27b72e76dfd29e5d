/** Undo and redo: every gesture is one step, and what the bench did by itself meanwhile stays done. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { after, apply, type Change, changeOf, type History, NO_HISTORY, rebase, type Step, sayChange } from '../../sim-core/index.ts';
import { ledPlan, planWith } from '../support/plans.ts';

interface Desk {
  readonly plan: Plan;
  readonly history: History;
}

const step = ({ plan, history }: Desk, what: Step): Desk => {
  const change = changeOf(history, what);
  if (!change) return { plan, history };
  const made = rebase(plan, change);
  return { plan: apply(plan, made), history: after(history, what, made) };
};
const steps = (desk: Desk, ...all: readonly Step[]): Desk => all.reduce(step, desk);
const fresh = (plan: Plan): Desk => ({ plan, history: NO_HISTORY });

const plan = planWith({
  ...ledPlan(330),
  parts: [...ledPlan(330).parts, { id: 'U1', kind: 'eeprom-2kx8', at: 'd30' }, { id: 'S1', kind: 'dip-switch', at: 'e2' }],
  memories: { U1: { '000': '00FF', '010': 'AA' } },
  switches: { PS1: [true], S1: [true, false, true] },
});
const part = (id: string) => plan.parts.find((p) => p.id === id)!;
const remove = (id: string): Change => ({ op: 'remove', list: 'parts', item: part(id), index: plan.parts.indexOf(part(id)) });
const moveR1: Change = { op: 'replace', list: 'parts', before: part('R1'), after: { ...part('R1'), at: 'a6', to: 'a11' } };

describe('undo and redo', () => {
  const anyChange: fc.Arbitrary<Change> = fc.oneof(
    fc.constantFrom(...plan.parts.map((p) => remove(p.id))),
    fc.constantFrom(...plan.wires.map((wire, index): Change => ({ op: 'remove', list: 'wires', item: wire, index }))),
    fc
      .nat(50)
      .map((n): Change => ({ op: 'insert', list: 'wires', item: { id: `X${n}`, from: `a${n}`, to: `b${n}`, colour: 'red' }, index: 1 })),
    fc.constantFrom('a20', 'b7').map((at): Change => ({ op: 'replace', list: 'parts', before: part('R1'), after: { ...part('R1'), at } })),
    fc
      .constantFrom('vent', 'fan')
      .map((label): Change => ({ op: 'replace', list: 'parts', before: part('LED1'), after: { ...part('LED1'), label } })),
    fc.constant<Change>({ op: 'set', field: 'memories', id: 'U1', before: plan.memories.U1, after: { '000': '55' } }),
    fc.string({ minLength: 1 }).map((title): Change => ({ op: 'set', field: 'title', before: plan.title, after: title })),
    fc.constant<Change>({ op: 'all', changes: [remove('U1'), remove('LED1'), moveR1] }),
  );
  const anyStep: fc.Arbitrary<Step> = fc.oneof({ weight: 3, arbitrary: anyChange }, fc.constantFrom<Step>('undo', 'redo'));

  test('any sequence of steps, undone in full, gives the plan as it was, and redone in full the plan as it became', () => {
    fc.assert(
      fc.property(fc.array(anyStep, { maxLength: 30 }), (all) => {
        const done = steps(fresh(plan), ...all);
        const back = steps(done, ...done.history.changes.map((): Step => 'undo'));
        expect(JSON.stringify(back.plan)).toBe(JSON.stringify(plan));
        expect(back.history.at).toBe(0);
        const again = steps(back, ...done.history.changes.slice(0, done.history.at).map((): Step => 'redo'));
        expect(again.plan).toEqual(done.plan);
        expect(again.history.at).toBe(done.history.at);
      }),
    );
  });
  test('a new change after an undo lets go of what was undone', () => {
    const desk = steps(fresh(plan), moveR1, remove('LED1'), 'undo', remove('S1'));
    expect(desk.history.changes.map(sayChange)).toEqual(['move R1', 'remove S1']);
    expect(step(desk, 'redo')).toEqual(desk);
  });
  test('with nothing to undo or redo nothing happens', () => {
    expect(steps(fresh(plan), 'undo', 'redo', 'undo').plan).toBe(plan);
  });
});

describe('what the bench did meanwhile stays done', () => {
  const meanwhile = (desk: Desk, over: Partial<Plan>): Desk => ({ ...desk, plan: { ...desk.plan, ...over } });

  test('a byte written after an edit of the bytes stays, and the others go back', () => {
    const edit: Change = { op: 'set', field: 'memories', id: 'U1', before: plan.memories.U1, after: { '000': '1122', '010': 'AA' } };
    const written = meanwhile(step(fresh(plan), edit), { memories: { U1: { '000': '1133', '010': 'AA' } } });
    const back = step(written, 'undo');
    expect(back.plan.memories.U1).toEqual({ '000': '0033', '010': 'AA' });
    expect(step(back, 'redo').plan.memories.U1).toEqual({ '000': '1133', '010': 'AA' });
  });
  test('a byte written after a move stays when the move is undone', () => {
    const written = meanwhile(step(fresh(plan), moveR1), { memories: { U1: { '000': '77' } } });
    const back = step(written, 'undo').plan;
    expect(back.memories.U1).toEqual({ '000': '77' });
    expect(back.parts).toEqual(plan.parts);
  });
  test('switches set since stay set; those that the edit itself set go back', () => {
    const edit: Change = { op: 'set', field: 'switches', id: 'S1', before: plan.switches.S1, after: [false, false, true] };
    const set = meanwhile(step(fresh(plan), edit), { switches: { ...plan.switches, S1: [false, true, true] } });
    expect(step(set, 'undo').plan.switches.S1).toEqual([true, true, true]);
  });
  test('a part damaged since stays damaged when its move is undone', () => {
    const damaged = { by: 'current', measured: 1, limit: 0.03 } as const;
    const moved = step(fresh(plan), moveR1);
    const worn = meanwhile(moved, { parts: moved.plan.parts.map((p) => (p.id === 'R1' ? { ...p, damaged } : p)) });
    expect(step(worn, 'undo').plan.parts.find((p) => p.id === 'R1')).toEqual({ ...part('R1'), damaged });
  });
  test('a memory that is taken out again takes its bytes and comes back with them', () => {
    const u2 = { id: 'U2', kind: 'eeprom-2kx8', at: 'd45' };
    const added = step(fresh(plan), { op: 'insert', list: 'parts', item: u2, index: 1 });
    const written = meanwhile(added, { memories: { ...plan.memories, U2: { '000': '5A' } } });
    const back = step(written, 'undo');
    expect(back.plan).toEqual(plan);
    expect(step(back, 'redo').plan).toEqual(written.plan);
  });
  test('a change of a thing that is not there any more changes nothing', () => {
    const without = step(fresh(plan), remove('R1'));
    expect(step(without, moveR1).plan).toEqual(without.plan);
  });
});

describe('a change in words', () => {
  const r1 = part('R1');
  const w1 = plan.wires[0]!;
  const cases: ReadonlyArray<readonly [Change, string]> = [
    [moveR1, 'move R1'],
    [{ op: 'replace', list: 'parts', before: r1, after: { ...r1, params: { ohms: 4700 } } }, 'set R1 to 4.7 kΩ'],
    [{ op: 'replace', list: 'parts', before: part('LED1'), after: { ...part('LED1'), label: 'vent' } }, 'label LED1 vent'],
    [{ op: 'replace', list: 'parts', before: part('U1'), after: { ...part('U1'), rotated: true } }, 'rotate U1'],
    [{ op: 'replace', list: 'parts', before: { ...r1, damaged: { by: 'power', measured: 1, limit: 0.25 } }, after: r1 }, 'replace R1'],
    [{ op: 'replace', list: 'wires', before: w1, after: { ...w1, to: 'c7' } }, 'move wire W1'],
    [{ op: 'replace', list: 'wires', before: w1, after: { ...w1, colour: 'blue' } }, 'colour wire W1 blue'],
    [rebase(plan, remove('U1')), 'remove U1'],
    [
      { op: 'all', changes: [remove('R1'), ...plan.wires.map((wire): Change => ({ op: 'remove', list: 'wires', item: wire, index: 0 }))] },
      'remove R1 and 2 wires',
    ],
    [{ op: 'all', changes: [moveR1, { op: 'replace', list: 'wires', before: w1, after: { ...w1, to: 'c7' } }] }, 'move R1 and wire W1'],
    [{ op: 'set', field: 'title', before: plan.title, after: 'Vents' }, 'rename the bench to Vents'],
    [{ op: 'set', field: 'memories', id: 'U1', before: undefined, after: { '0': '00' } }, 'change the bytes of U1'],
    [
      {
        op: 'all',
        changes: [
          { op: 'remove', list: 'meters', item: { id: 'M1', measures: 'volts', at: 'a1' }, index: 0 },
          { op: 'insert', list: 'meters', item: { id: 'M1', measures: 'volts', at: 'a2' }, index: 0 },
        ],
      },
      'move meter M1',
    ],
  ];
  test.each(cases)('%#', (change, says) => expect(sayChange(change)).toBe(says));
});
