/** The hand on the bench: every state is entered and left by each of its ways out, and each drag does what it shows. */
// @vitest-environment happy-dom
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { remove } from '../../sim-core/index.ts';
import type { DrawnBench } from '../support/drawn-bench.ts';
import { by, middleOf, withLed as opened, R1, W1 } from '../support/led-bench.ts';

describe('at rest', () => {
  test('a click selects a part, a second one with Shift adds, a click on the ground selects nothing', async () => {
    const bench = await opened();
    bench.click(middleOf(bench), R1);
    expect(bench.builder.chosen).toEqual(['R1']);
    bench.click('b5', { ...W1, add: true });
    expect(bench.builder.chosen).toEqual(['R1', 'W1']);
    bench.click('b5', { ...W1, add: true });
    expect(bench.builder.chosen).toEqual(['R1']);
    bench.click([60, -5]);
    expect(bench.builder.chosen).toEqual([]);
  });

  test('a click on an LED is left to the LED, which is asked why; with the list of parts open it is selected', async () => {
    const bench = await opened();
    const led = { on: '[data-led]' };
    const middle = by(bench.spotOf('b12'), 0);
    expect(bench.states.click(bench.at(middle, led))).toBe(false);
    expect(bench.builder.chosen).toEqual([]);
    bench.building = true;
    expect(bench.states.click(bench.at(middle, led))).toBe(true);
    expect([bench.builder.chosen, bench.leds]).toEqual([['LED1'], ['LED1']]);
  });

  test('a press with another button, or while the meter has the pointer, is not the bench’s', async () => {
    const bench = await opened();
    expect(bench.states.down(bench.at(middleOf(bench), { ...R1, button: 2 }))).toBe(false);
    bench.away = true;
    expect(bench.states.down(bench.at(middleOf(bench), R1))).toBe(false);
    expect(bench.states.click(bench.at(middleOf(bench), R1))).toBe(false);
    expect(bench.builder.chosen).toEqual([]);
  });

  test('a press on a hole pans where holes are too small to be meant; one on a terminal never does', async () => {
    const bench = await opened();
    bench.pitch = 6;
    expect(bench.states.down(bench.at('c30'))).toBe(false);
    expect(bench.states.down(bench.at('PS1.+', { on: '[data-part="PS1"] [data-pin="+"], [data-part="PS1"][data-pin="+"]' }))).toBe(true);
    bench.states.lost();
    bench.pitch = 20;
    expect(bench.states.down(bench.at('c30'))).toBe(true);
  });
});

describe('the menu', () => {
  test('is asked for what is under the pointer, which is selected then, unless it is among several that are', async () => {
    const bench = await opened();
    bench.states.menu(bench.at(middleOf(bench), R1));
    expect([bench.menus, bench.builder.chosen]).toMatchObject([[{ on: 'part', id: 'R1' }], ['R1']]);
    bench.builder.select(['R1', 'W1']);
    bench.states.menu(bench.at('b5', W1));
    expect([bench.menus[1], bench.builder.chosen]).toMatchObject([{ on: 'wire', id: 'W1' }, ['R1', 'W1']]);
  });

  test('is not asked for while the meter has the pointer', async () => {
    const bench = await opened();
    bench.away = true;
    bench.states.menu(bench.at(middleOf(bench), R1));
    expect(bench.menus).toEqual([]);
  });
});

describe('pressed', () => {
  test('a press that moves less than five pixels stays a click', async () => {
    const bench = await opened();
    const spot = middleOf(bench);
    bench.drag(spot, [by(spot, 0.2)], R1);
    expect([bench.states.busy, bench.captured]).toEqual([false, 0]);
    bench.release(by(spot, 0.2), R1);
    expect([bench.builder.chosen, bench.part('R1')?.at]).toEqual([['R1'], 'a5']);
  });

  for (const [how, out] of [
    ['Escape', (b: DrawnBench) => expect(b.states.cancel()).toBe(true)],
    ['the window losing the focus', (b: DrawnBench) => b.states.lost()],
    ['the bench being drawn again', (b: DrawnBench) => b.states.renew()],
    ['a second pointer', (b: DrawnBench) => expect(b.states.down(b.at('c30'))).toBe(false)],
  ] as const)
    test(`is left by ${how}: moving on drags nothing`, async () => {
      const bench = await opened();
      bench.drag(middleOf(bench), [], R1);
      out(bench);
      bench.states.move(bench.at(by(middleOf(bench), 3)));
      expect(bench.states.busy).toBe(false);
      expect(bench.atRest).toBe(true);
      expect(bench.states.cancel()).toBe(false);
    });
});

describe('dragging a part', () => {
  test('lifts it with its wires, and puts it down where it was dropped, as one undo', async () => {
    const bench = await opened();
    const spot = middleOf(bench);
    bench.drag(spot, [by(spot, 1), by(spot, 20)], R1);
    expect([bench.states.busy, bench.grabbing, bench.captured]).toEqual([true, true, 1]);
    expect(bench.overlay.childElementCount).toBeGreaterThan(0);
    bench.release(by(spot, 20), R1);
    expect([bench.part('R1')?.at, bench.part('R1')?.to]).toEqual(['a25', 'a30']);
    expect(bench.atRest).toBe(true);
    expect(bench.said.at(-1)).toMatch(/R1 moved\.$/);
    // the click that follows the drop selects nothing else
    expect(bench.builder.chosen).toEqual(['R1']);
    bench.live.clock.pass(100);
    bench.live.session.undo();
    expect(bench.part('R1')?.at).toBe('a5');
    expect(bench.live.session.history.at).toBe(0);
  });

  for (const [how, out] of [
    ['Escape', (b: DrawnBench) => expect(b.states.cancel()).toBe(true)],
    ['a lost pointer', (b: DrawnBench) => b.states.lost()],
    ['a second pointer', (b: DrawnBench) => void b.states.down(b.at('c30'))],
    ['being put back where it was', (b: DrawnBench) => b.states.up(b.at(middleOf(b)))],
  ] as const)
    test(`is left by ${how}: everything is where it was`, async () => {
      const bench = await opened();
      const spot = middleOf(bench);
      bench.drag(spot, [by(spot, 20)], R1);
      if (how.startsWith('being')) bench.states.move(bench.at(spot));
      out(bench);
      expect(bench.atRest).toBe(true);
      expect([bench.part('R1')?.at, bench.live.session.history.at]).toEqual(['a5', 0]);
      // and the next press begins afresh
      bench.drag(spot, [by(spot, 20)], R1);
      bench.release(by(spot, 20), R1);
      expect(bench.part('R1')?.at).toBe('a25');
    });

  test('ends when the part vanishes under the hand: nothing stays lifted, and dropping moves nothing', async () => {
    const bench = await opened();
    const spot = middleOf(bench);
    bench.drag(spot, [by(spot, 20)], R1);
    expect(bench.builder.do((g) => remove(g, ['R1'])).ok).toBe(true);
    expect(bench.states.busy).toBe(false);
    bench.release(by(spot, 20));
    expect(bench.atRest).toBe(true);
    expect(bench.part('R1')).toBeUndefined();
    expect(bench.live.session.history.at).toBe(1);
  });

  test('onto a place that is taken is refused beside the pointer, and dropping it there leaves it where it was', async () => {
    const bench = await opened();
    const spot = middleOf(bench);
    // off the board altogether
    bench.drag(spot, [by(spot, 0, 40)], R1);
    expect(bench.ghost.note).toBeTruthy();
    expect(bench.overlay.classList.contains('refused')).toBe(true);
    bench.release(by(spot, 0, 40), R1);
    expect(bench.atRest).toBe(true);
    expect(bench.part('R1')?.at).toBe('a5');
    expect(bench.overlay.classList.contains('refused')).toBe(false);
  });

  test('and another that is selected moves both', async () => {
    const bench = await opened();
    bench.builder.select(['R1', 'LED1']);
    const spot = middleOf(bench);
    bench.drag(spot, [by(spot, 30)], R1);
    bench.release(by(spot, 30), R1);
    expect([bench.part('R1')?.at, bench.part('LED1')?.at]).toEqual(['a35', 'b40']);
  });
});

describe('a finger', () => {
  const finger = { ...R1, touch: true };
  test('that is held still selects, and then drags; the page’s panning stops', async () => {
    const bench = await opened();
    const spot = middleOf(bench);
    expect(bench.states.down(bench.at(spot, finger))).toBe(false);
    bench.live.clock.pass(449);
    expect(bench.builder.chosen).toEqual([]);
    bench.live.clock.pass(2);
    expect([bench.builder.chosen, bench.panningStopped, bench.captured]).toEqual([['R1'], 1, 1]);
    bench.states.move(bench.at(by(spot, 20), finger));
    bench.release(by(spot, 20), finger);
    expect(bench.part('R1')?.at).toBe('a25');
  });

  test('that is held still and lifted where it was asks for the menu of the thing', async () => {
    const bench = await opened();
    const spot = middleOf(bench);
    bench.states.down(bench.at(spot, finger));
    bench.live.clock.pass(451);
    bench.release(spot, finger);
    expect(bench.menus).toMatchObject([{ on: 'part', id: 'R1' }]);
    bench.states.down(bench.at(spot, finger));
    bench.live.clock.pass(100);
    bench.release(spot, finger);
    expect(bench.menus).toHaveLength(1);
  });

  test('that moves, is lifted or is lost before that pans and selects nothing', async () => {
    const bench = await opened();
    const spot = middleOf(bench);
    for (const end of [
      () => bench.states.move(bench.at(by(spot, 2), finger)),
      () => bench.states.up(bench.at(spot, finger)),
      () => bench.states.lost(),
      () => bench.states.renew(),
      () => void bench.states.cancel(),
    ]) {
      bench.states.down(bench.at(spot, finger));
      end();
      bench.live.clock.pass(1000);
      expect([bench.builder.chosen, bench.panningStopped]).toEqual([[], 0]);
    }
  });

  test('on the ground is left to panning', async () => {
    const bench = await opened();
    bench.states.down(bench.at([60, -5], { touch: true }));
    bench.live.clock.pass(1000);
    expect(bench.panningStopped).toBe(0);
  });
});

describe('with a part in the hand', () => {
  const hold = async () => {
    const bench = await opened();
    bench.builder.hold({ kind: 'resistor' });
    return bench;
  };
  test('it is shown where it would go, and a click sets it down there', async () => {
    const bench = await hold();
    bench.states.move(bench.at('c30'));
    expect([bench.ghost.shows, bench.ghost.refused]).toEqual(['part', false]);
    bench.click('c30');
    expect(bench.plan.parts.at(-1)).toMatchObject({ kind: 'resistor', at: 'c30' });
    expect([bench.builder.toPlace, bench.ghost.shows]).toEqual([undefined, undefined]);
    expect(bench.said.at(-1)).toMatch(/placed at c30 and c34\.$/);
  });

  test('a click with Shift keeps one more of it', async () => {
    const bench = await hold();
    for (const place of ['c30', 'c40']) bench.click(place, { add: true });
    expect(bench.plan.parts.filter((p) => p.kind === 'resistor').map((p) => p.at)).toEqual(['a5', 'c30', 'c40']);
    expect(bench.builder.toPlace).toBeDefined();
  });

  test('several in a row: each click sets one down, until it is put back', async () => {
    const bench = await hold();
    bench.builder.keepSeveral(true);
    const before = bench.plan.parts.length;
    for (const hole of ['b20', 'b30']) bench.click(hole);
    expect(bench.plan.parts.length).toBe(before + 2);
    expect(bench.builder.toPlace).toBeDefined();
    bench.builder.cancel();
    expect(bench.builder.toPlace).toBeUndefined();
  });
  test('where there is no room for it that is said, and it stays in the hand', async () => {
    const bench = await hold();
    bench.click([70, 50]);
    expect(bench.ghost.note).toBe('No hole here.');
    expect(bench.builder.toPlace).toBeDefined();
    expect(bench.live.session.history.at).toBe(0);
  });

  test('Escape lets go of it, and nothing is shown any more', async () => {
    const bench = await hold();
    bench.states.move(bench.at('c30'));
    bench.builder.cancel();
    expect(bench.ghost.shows).toBeUndefined();
    bench.click('c30');
    expect(bench.plan.parts).toHaveLength(3);
  });

  test('dragged here from the list of parts it is set down where it is let go of; let go of elsewhere it is not', async () => {
    const bench = await hold();
    bench.states.carry();
    bench.states.move(bench.at('c30'));
    bench.states.up(bench.at('c30'));
    expect(bench.plan.parts.at(-1)?.at).toBe('c30');
    bench.builder.hold({ kind: 'resistor' });
    bench.states.carry();
    bench.states.carryEnds();
    bench.states.up(bench.at('c40'));
    expect(bench.plan.parts).toHaveLength(4);
  });

  test('leaving the bench takes its preview away', async () => {
    const bench = await hold();
    bench.states.move(bench.at('c30'));
    bench.states.left();
    expect(bench.ghost.shows).toBeUndefined();
  });
});

describe('laying wires by clicks', () => {
  test('with the list of parts open a click begins one, and the next ends it', async () => {
    const bench = await opened();
    bench.building = true;
    bench.click('c30');
    expect([bench.builder.wireFrom, bench.said.at(-1)]).toEqual(['c30', 'Wire from c30. Click its other end.']);
    bench.click('c40');
    expect(bench.plan.wires.at(-1)).toMatchObject({ from: 'c30', to: 'c40' });
    expect(bench.builder.wireFrom).toBeUndefined();
  });

  test('a click where it began takes it back; onto a taken hole is refused and it goes on', async () => {
    const bench = await opened();
    bench.building = true;
    bench.click('c30');
    bench.click('b5');
    expect([bench.builder.wireFrom, bench.ghost.note !== undefined]).toEqual(['c30', true]);
    bench.click('c30');
    expect([bench.builder.wireFrom, bench.ghost.shows]).toEqual([undefined, undefined]);
    expect(bench.plan.wires).toHaveLength(2);
  });

  test("onto a part's leg ends in the nearest free hole of its strip", async () => {
    const bench = await opened();
    bench.building = true;
    bench.click('c30');
    bench.click('b10');
    expect(bench.plan.wires.at(-1)).toMatchObject({ from: 'c30', to: 'c10' });
  });

  test('else a click on a hole selects nothing and begins nothing', async () => {
    const bench = await opened();
    bench.builder.select(['R1']);
    bench.click('c30');
    expect([bench.builder.wireFrom, bench.builder.chosen]).toEqual([undefined, []]);
  });
});

test('a move that the bench refuses before it is drawn again is put back', async () => {
  const bench = await opened();
  const spot = middleOf(bench);
  bench.redraws = false;
  bench.drag(spot, [by(spot, 20)], R1);
  bench.states.up(bench.at(by(spot, 20), R1));
  // it stays lifted until the bench is drawn again
  expect(bench.overlay.childElementCount).toBeGreaterThan(0);
  bench.live.session.refuse({ code: 'edit/gone', at: 'R1', says: 'It was refused.' });
  expect(bench.atRest).toBe(true);
});

test('whatever a hand does, Escape leaves everything drawn in its place and nothing lifted', async () => {
  const places = ['a5', 'a10', 'b5', 'c30', 'd5', 'PS1.+', 'b12'] as const;
  const things = [undefined, '[data-part="R1"]', '[data-wire="W1"]', '[data-led]', '[data-part="PS1"]'] as const;
  const step = fc.record({
    does: fc.constantFrom('down', 'move', 'up', 'click', 'lost', 'left', 'wait', 'hold', 'carry', 'undo', 'remove'),
    place: fc.constantFrom(...places),
    on: fc.constantFrom(...things),
    touch: fc.boolean(),
    add: fc.boolean(),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 25 }), async (steps) => {
      const bench = await opened();
      for (const { does, place, on, touch, add } of steps) {
        if (place.startsWith('PS1') && !bench.part('PS1')) continue;
        const drawn = on !== undefined && bench.surface.querySelector(on) ? { on } : {};
        const input = bench.at(place, { ...drawn, touch, add });
        if (does === 'down' || does === 'move' || does === 'up' || does === 'click') bench.states[does](input);
        if (does === 'lost' || does === 'left' || does === 'carry') bench.states[does]();
        if (does === 'wait') bench.live.clock.pass(500);
        if (does === 'hold') bench.builder.hold({ kind: 'resistor' });
        if (does === 'undo') bench.live.session.undo();
        if (does === 'remove' && bench.builder.selection.size > 0) bench.builder.remove();
      }
      bench.states.cancel();
      bench.builder.cancel();
      bench.live.clock.pass(1000);
      expect(bench.atRest).toBe(true);
      // page and worker agree in the end
      const worker = bench.live.told.findLast((t) => t.tell === 'bench');
      expect(worker?.plan.parts).toEqual(bench.plan.parts);
      expect(worker?.plan.wires).toEqual(bench.plan.wires);
    }),
    { numRuns: 60 },
  );
});
