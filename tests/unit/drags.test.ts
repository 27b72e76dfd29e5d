/** Drags on the bench do what they show: wires and their ends, a part's leg, a board, a frame that selects. */
// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import { by, withLed as opened, R1, W1 } from '../support/led-bench.ts';

describe('dragging a wire', () => {
  test('by its end puts that end into another hole', async () => {
    const bench = await opened();
    bench.drag('b5', ['c5', 'd5'], W1);
    expect([bench.ghost.shows, bench.ghost.refused]).toEqual(['wire', false]);
    bench.release('d5', W1);
    expect(bench.wire('W1')).toMatchObject({ from: 'PS1.+', to: 'd5' });
    expect(bench.said.at(-1)).toBe('W1 now ends at d5.');
    expect(bench.atRest).toBe(true);
  });

  test('by its end onto a hole that is taken is refused, and it stays', async () => {
    const bench = await opened();
    // W2 ends there
    bench.drag('b5', ['c14'], W1);
    expect(bench.ghost.refused).toBe(true);
    bench.release('c14', W1);
    expect(bench.wire('W1')?.to).toBe('b5');
    expect(bench.ghost.note).toBeTruthy();
    expect(bench.live.session.history.at).toBe(0);
  });

  test('by its end onto a leg puts that end into a free hole of its strip, near the other end', async () => {
    const bench = await opened();
    bench.drag('b5', ['b10'], W1);
    expect(bench.ghost.refused).toBe(false);
    bench.release('b10', W1);
    expect(bench.wire('W1')?.to).toMatch(/^[c-e]10$/);
  });

  test('that lies over a terminal is left alone there: a wire begins at the terminal', async () => {
    const bench = await opened();
    bench.drag('PS1.-', ['c20'], W1);
    bench.release('c20', W1);
    expect(bench.wire('W1')).toMatchObject({ from: 'PS1.+', to: 'b5' });
    expect(bench.plan.wires.at(-1)).toMatchObject({ from: 'PS1.-', to: 'c20' });
  });

  test('by its end beside the board leaves it as it was, and so does Escape', async () => {
    const bench = await opened();
    const underWay = () => bench.drawing.wires.get('W1')!.root.classList.contains('under-way');
    bench.drag('b5', [[70, 50]], W1);
    expect(underWay()).toBe(true);
    bench.release([70, 50], W1);
    expect(underWay()).toBe(false);
    expect(bench.wire('W1')?.to).toBe('b5');
    bench.drag('b5', ['d5'], W1);
    expect(bench.states.cancel()).toBe(true);
    bench.release('d5');
    expect(bench.wire('W1')?.to).toBe('b5');
    expect(bench.atRest).toBe(true);
  });

  test('by its end to a terminal joins it to what stands beside the boards', async () => {
    const bench = await opened();
    bench.drag('b5', ['PS1.-'], W1);
    bench.release('PS1.-', W1);
    expect(bench.wire('W1')?.to).toBe('PS1.-');
  });

  test('from a free hole to another lays one, from a terminal too', async () => {
    const bench = await opened();
    bench.drag('c30', ['c33', 'c40']);
    expect(bench.ghost.shows).toBe('wire');
    bench.release('c40');
    expect(bench.plan.wires.at(-1)).toMatchObject({ from: 'c30', to: 'c40' });
    bench.drag('PS1.+', ['c50'], { on: '[data-part="PS1"] [data-pin="+"], [data-part="PS1"][data-pin="+"]' });
    bench.release('c50');
    expect(bench.plan.wires.at(-1)).toMatchObject({ from: 'PS1.+', to: 'c50' });
    expect(bench.live.session.history.at).toBe(2);
  });
});

describe('other drags', () => {
  test('a part’s leg alone is put elsewhere, by its hole', async () => {
    const bench = await opened();
    bench.drag('a5', ['a4', 'a2'], R1);
    expect(bench.ghost.shows).toBe('part');
    bench.release('a2', R1);
    expect([bench.part('R1')?.at, bench.part('R1')?.to]).toEqual(['a2', 'a10']);
    bench.drag('a2', ['a1'], R1);
    bench.states.lost();
    expect([bench.atRest, bench.part('R1')?.at]).toEqual([true, 'a2']);
  });

  test('a board is shifted by its rim, with what stands on it', async () => {
    const bench = await opened();
    const { x, y, height } = bench.drawing.boxOf('B1')!;
    const rim: readonly [number, number] = [x + 0.3, y + height / 2];
    bench.drag(rim, [by(rim, 0, 3)]);
    expect(bench.ghost.shows).toBe('board');
    bench.release(by(rim, 0, 3));
    expect(bench.plan.boards[0]?.spot).toEqual([0, 3]);
    expect(bench.said.at(-1)).toBe('Board B1 moved.');
    bench.drag(by(rim, 0, 3), [by(rim, 0, 8), by(rim, 0, 3)]);
    bench.release(by(rim, 0, 3));
    expect(bench.live.session.history.at).toBe(1);
  });

  test('with Shift a frame selects the parts and wires that are within it', async () => {
    const bench = await opened();
    bench.drag([-20, -20], [by([70, 60], 0)], { add: true });
    expect(bench.ghost.shows).toBe('frame');
    bench.release([70, 60], { add: true });
    expect([...bench.builder.chosen].sort()).toEqual(['LED1', 'PS1', 'R1', 'W1', 'W2']);
    // the supply alone: of its wires only one end is within
    bench.drag([-20, -20], [[-1, 40]], { add: true });
    bench.release([-1, 40], { add: true });
    expect(bench.builder.chosen).toEqual(['PS1']);
  });
});
