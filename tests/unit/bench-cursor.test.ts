/** The cursor that keys move from hole to hole: where arrows lead, what it says there, and what Enter and the space bar do. */
import { describe, expect, test } from 'vitest';
import { BenchCursor } from '../../client/edit/bench-cursor.ts';
import { Builder } from '../../client/edit/builder.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { liveBench } from '../support/live-bench.ts';
import { ledPlan } from '../support/plans.ts';

async function opened(plan = ledPlan(330)) {
  const live = liveBench();
  await live.open(plan);
  const builder = new Builder(live.session);
  const said: string[] = [];
  const cursor = new BenchCursor({
    builder,
    model: () => live.session.model,
    moved: () => {},
    say: (news) => said.push(news),
  });
  let kept = 0;
  const press = (...keys: readonly string[]) => keys.map((key) => cursor.key({ key, preventDefault: () => kept++ })).at(-1);
  const right = (n: number) => press(...Array.from({ length: n }, () => 'ArrowRight'));
  return { live, builder, cursor, said, press, right, kept: () => kept };
}

describe('arrows', () => {
  test('begin at the first hole, and go from hole to hole, over the trench and to the rails', async () => {
    const { press, said, right } = await opened();
    press('ArrowRight');
    expect(said.at(-1)).toMatch(/^row 1 column a/);
    right(3);
    expect(said.at(-1)).toMatch(/^row 4 column a/);
    press('ArrowUp', 'ArrowUp', 'ArrowUp', 'ArrowUp', 'ArrowUp');
    expect(said.at(-1)).toMatch(/^row 4 column f/);
    for (let i = 0; i < 12; i++) press('ArrowUp');
    expect(said.at(-1)).toMatch(/^(plus|minus) rail/);
  });

  test('reach every hole of a bench of several boards and none that is not there', async () => {
    const { live, press, cursor } = await opened(demoPlan('ticket-counter')!);
    const seen = new Set<string>();
    press('ArrowRight');
    for (const turn of ['ArrowDown', 'ArrowRight', 'ArrowUp', 'ArrowLeft'])
      for (let i = 0; i < 80; i++) {
        press(turn);
        seen.add(String(cursor.spot));
        expect(cursor.spot).toBeDefined();
      }
    expect(live.session.model!.plan.boards.length).toBeGreaterThan(1);
    expect(seen.size).toBeGreaterThan(80);
  });

  test('say what is in the hole and whose net it is', async () => {
    const { press, right, said } = await opened();
    press('ArrowRight');
    right(4);
    expect(said.at(-1)).toMatch(/^row 5 column a, taken by R1/);
    expect(said.at(-1)).toContain('connected to');
  });
});

describe('Enter and the space bar', () => {
  test('are not the cursor’s before it is on a hole, nor after it is hidden', async () => {
    const { press, cursor, kept } = await opened();
    expect([press('Enter'), press(' '), press('x')]).toEqual([false, false, false]);
    press('ArrowRight');
    expect(kept()).toBe(1);
    cursor.hide();
    expect([press('Enter'), cursor.spot]).toEqual([false, undefined]);
  });

  test('select what is in the hole, and say that nothing is in an empty one', async () => {
    const { press, right, builder, said } = await opened();
    press('ArrowRight', ' ');
    expect(said.at(-1)).toBe('This hole is empty.');
    right(4);
    press('Enter');
    expect(builder.chosen).toEqual(['R1']);
  });

  test('lay a wire from hole to hole', async () => {
    const { press, right, builder, live } = await opened();
    press('ArrowRight', 'Enter');
    expect(builder.wireFrom).toBe('a1');
    right(2);
    press('Enter');
    expect(live.session.plan?.wires.at(-1)).toMatchObject({ from: 'a1', to: 'a3' });
    expect(builder.wireFrom).toBeUndefined();
  });

  test('set down what is in the hand, and say why where it cannot be', async () => {
    const { press, right, builder, live, said } = await opened();
    builder.hold({ kind: 'resistor' });
    press('ArrowRight');
    right(4);
    press('Enter');
    expect(builder.toPlace).toBeDefined();
    expect(said.at(-1)).toMatch(/\.$/);
    right(15);
    press('Enter');
    expect(live.session.plan?.parts.at(-1)).toMatchObject({ kind: 'resistor', at: 'a20' });
    expect(builder.toPlace).toBeUndefined();
  });
});
