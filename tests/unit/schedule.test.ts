/** What is due on a bench is taken once each, in order of time and then of asking, however records are used again; and hands keep what they were told. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { ChipSlot } from '../../sim-core/run/digital/chip-slot.ts';
import { Schedule } from '../../sim-core/run/digital/schedule.ts';
import { SwitchStates } from '../../sim-core/run/digital/switch-state.ts';

const slots = [{}, {}] as ChipSlot[];
const asking = fc.record({ time: fc.nat(4), slot: fc.constantFrom(0, 1), background: fc.boolean(), hand: fc.boolean() });

test('alarms and moves come off as from a list that is sorted again each time, and what is taken stays as it is while others are asked for', () => {
  fc.assert(
    fc.property(fc.array(fc.option(asking), { maxLength: 60 }), (requests) => {
      const schedule = new Schedule();
      let list: { time: number; hand?: string; name?: string; slot?: ChipSlot; background: boolean }[] = [];
      let taken: ReturnType<typeof schedule.take>;
      let as: (typeof list)[number] | undefined;
      const stays = () => {
        if (taken && as && 'hand' in taken) expect(taken.hand).toBe(as.hand);
        else if (taken && as) expect({ ...taken }).toEqual({ slot: as.slot, alarm: as.name, background: as.background });
        else expect(taken).toBe(as);
      };
      for (const [i, request] of requests.entries()) {
        if (!request) {
          taken = schedule.take();
          [as, ...list] = list;
        } else if (request.hand) {
          schedule.move(request.time, { hand: `S${i}`, pole: 0, closed: true, turn: i });
          list.push({ time: request.time, hand: `S${i}`, background: false });
        } else {
          const slot = slots[request.slot]!;
          schedule.alarm(request.time, slot, `alarm ${i}`, request.background);
          list.push({ time: request.time, name: `alarm ${i}`, slot, background: request.background });
        }
        list.sort((a, b) => a.time - b.time);
        stays();
        expect(schedule.next()).toBe(list[0]?.time ?? Number.POSITIVE_INFINITY);
        expect(schedule.foreground()).toBe(list.some((d) => !d.background));
      }
    }),
    { numRuns: 300 },
  );
});

test('a pole stands as it was told, whatever its neighbours do', () => {
  const states = new SwitchStates({ S1: [false, true, false] });
  states.set('S1', 0, true);
  states.set('S1', 1, true);
  states.set('S2', 0, true);
  expect(states.switches).toEqual({ S1: [true, true, false], S2: [true] });
  states.set('S1', 0, false);
  states.set('S1', 2, true);
  expect(states.switches).toEqual({ S1: [false, true, true], S2: [true] });
});

test('a hand that moves a pole again ends what is left of its last move, on that pole alone', () => {
  const states = new SwitchStates({ S1: [false, false] });
  const [first = [], other = []] = [states.move('S1', 0, true, 2), states.move('S1', 1, true, 0)];
  expect(first.map((m) => m.closed)).toEqual([true, false, true]);
  expect(other.map((m) => m.closed)).toEqual([true]);
  expect([...first, ...other].map((m) => states.isLast(m))).toEqual([true, true, true, true]);
  const [again] = states.move('S1', 0, false, 0);
  expect([...first, ...other, again!].map((m) => states.isLast(m))).toEqual([false, false, false, true, true]);
});

test('so does a bench that is put together again with the pole elsewhere; one that stands as it stood goes on', () => {
  const states = new SwitchStates({ S1: [false, true] });
  const [one, two] = [states.move('S1', 0, true, 0)[0]!, states.move('S1', 1, false, 0)[0]!];
  states.begin({ S1: [true, true] });
  expect([states.isLast(one), states.isLast(two)]).toEqual([false, true]);
  expect(states.switches).toEqual({ S1: [true, true] });
  const [third] = states.move('S2', 0, true, 0);
  states.begin({ S1: [true, true] });
  expect(states.isLast(third!)).toBe(true);
});

test('poles that have been handed out stay as they were, and the first bench keeps its own', () => {
  const first = { S1: [false, false] };
  const states = new SwitchStates(first);
  states.set('S1', 0, true);
  const one = { ...states.switches };
  states.set('S1', 1, true);
  states.set('S1', 0, false);
  const two = { ...states.switches };
  states.set('S1', 2, true);
  expect([first, one, two, states.switches]).toEqual([
    { S1: [false, false] },
    { S1: [true, false] },
    { S1: [false, true] },
    { S1: [false, true, true] },
  ]);
});
