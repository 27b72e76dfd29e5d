/** What a running bench answers to an act that makes no sense there: one sentence, and nothing has happened. */
import { expect, test } from 'vitest';
import type { Action } from '../../sim-core/index.ts';
import { MEMORY, start } from '../support/bench.ts';

const BENCH = `${MEMORY.replace('eeprom-2kx8', 'uv-eprom-2kx8')}
  dip-switch S1 at e40 with poles 2
  resistor R1 1k from a40 to a44`;

const light = (seconds: number, wattsPerCm2: number): Action => ({ do: 'light', part: 'U1', seconds, wattsPerCm2 });
const WIRES = 'P1, P2, P3, P4, P5, P6, P7, P8, P9, P10, P11, P12, P13, P14, P15';

test.each<[string, Action, string, string]>([
  [
    'light of less than no time',
    light(-1, 0.012),
    'run/bad-exposure U1',
    'Light needs a time and a strength of 0 or more; these are -1 s and 0.012 W/cm².',
  ],
  [
    'light of less than no strength',
    light(1, -0.5),
    'run/bad-exposure U1',
    'Light needs a time and a strength of 0 or more; these are 1 s and -0.5 W/cm².',
  ],
  [
    'light of no number',
    light(Number.NaN, 1),
    'run/bad-exposure U1',
    'Light needs a time and a strength of 0 or more; these are NaN s and 1 W/cm².',
  ],
  [
    'light on a part that is not there',
    { ...light(1, 1), part: 'U9' } as Action,
    'run/no-window U9',
    'U9 has no window for light. Choose a UV EPROM.',
  ],
  [
    'a wire that is not there',
    { do: 'move-wire', wire: 'P16', end: 'to', point: 'a50' },
    'run/unknown-wire P16',
    `There is no wire P16 on this bench; it has ${WIRES}.`,
  ],
  [
    'a pole too many',
    { do: 'set', part: 'S1', pole: 2, closed: true },
    'run/no-switch S1',
    'S1 has no switch 3 that a hand could move on this bench.',
  ],
  ['a resistor pressed', { do: 'press', part: 'R1' }, 'run/no-switch R1', 'R1 has no switch 1 that a hand could move on this bench.'],
])('%s', (_, act, where, says) => {
  const sim = start(BENCH);
  const before = [sim.now, sim.plan()];
  const answer = sim.act(act);
  expect(answer.ok ? answer : [`${answer.failure.code} ${answer.failure.at}`, answer.failure.says]).toEqual([where, says]);
  expect([sim.now, sim.plan()]).toEqual(before);
});

test('no light for some time, and light for no time, are both allowed: time passes, and nothing is erased', () => {
  const sim = start(`${BENCH}\nmemory U1 000 00`);
  expect(sim.act(light(60, 0)).ok).toBe(true);
  expect(sim.now).toBeCloseTo(60, 6);
  expect(sim.act(light(0, 1)).ok).toBe(true);
  expect(sim.now).toBeCloseTo(60, 6);
  expect(sim.plan().memories).toEqual({ U1: { '000': `00${'FF'.repeat(15)}` } });
});

test('a wire that is moved is off the bench for the time a hand needs, and stays where it was if its new hole is taken', () => {
  const sim = start(
    `${MEMORY}\n  led LED1 from a50 to a55\n  resistor R1 330 from b55 to b60\n  wire W1 from c60 to -a25\n  wire W2 from +j20 to b50`,
  );
  expect(sim.readings().leds[0]?.brightness).toBe('lit');
  expect(sim.act({ do: 'move-wire', wire: 'W2', end: 'to', point: 'a50' }).ok).toBe(false);
  expect(sim.readings().leds[0]?.brightness).toBe('lit');
  const before = sim.now;
  expect(sim.begin({ do: 'move-wire', wire: 'W2', end: 'to', point: 'c50' }).ok).toBe(true);
  expect(sim.now - before).toBeCloseTo(0.3, 6);
  expect(sim.plan().wires.find((w) => w.id === 'W2')).toMatchObject({ from: '+j20', to: 'c50' });
  expect(sim.readings().leds[0]?.brightness).toBe('lit');
});
