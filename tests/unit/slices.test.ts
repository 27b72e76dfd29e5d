/** Work in slices: the same to the last bit as the same work at once, and stopped wherever its caller likes. */
import { describe, expect, test } from 'vitest';
import { DATA_5A, memoryBench, ring, writeButton } from '../../sim-core/findings/example-benches.ts';
import { type Action, type Simulation, type Slices, simulateAsFound } from '../../sim-core/index.ts';
import { planOf, start } from '../support/bench.ts';

const WRITE = memoryBench(DATA_5A + writeButton());
const PRESS: Action = { do: 'press', part: 'S9' };

/** Slices of so many turns until it is over; how many slices that took. */
function goThrough(slices: Slices<unknown>, turns: number): number {
  for (let count = 1; ; count++) if (slices.go(turns)) return count;
}
const seen = (sim: Simulation) => JSON.stringify([sim.now, sim.readings(), sim.plan(), sim.events, sim.pending]);

describe('an act in slices', () => {
  test.each([1, 7, 1e6])('of %i turns comes to the same as the act at once', (turns) => {
    const [whole, sliced] = [start(WRITE), start(WRITE)];
    whole.act(PRESS);
    whole.wait(0.02);
    goThrough(sliced.beginInSlices(PRESS), turns);
    const rest = sliced.restInSlices();
    expect(rest.result).toBeUndefined();
    const count = goThrough(rest, turns);
    expect(rest.result).toBe(true);
    expect(count === 1).toBe(turns > 1e5);
    const wait = sliced.waitInSlices(0.02);
    goThrough(wait, turns);
    expect(wait.result).toBe(true);
    expect(sliced.events.length).toBeGreaterThan(0);
    expect(seen(sliced)).toBe(seen(whole));
  });

  test('a bench is opened so as well', () => {
    const found = simulateAsFound(planOf(WRITE));
    if (!found.ok) throw new Error(found.failure.says);
    expect(goThrough(found.value.restInSlices(), 1)).toBeGreaterThan(1);
    expect(seen(found.value)).toBe(seen(start(WRITE)));
  });

  test('nothing is done before the first slice, and nothing after the last', () => {
    const sim = start(WRITE);
    const before = seen(sim);
    const begin = sim.beginInSlices(PRESS);
    expect(seen(sim)).toBe(before);
    expect(begin.go(1)).toBe(true);
    const after = seen(sim);
    expect(begin.go(100)).toBe(true);
    expect(seen(sim)).toBe(after);
    expect(begin.result).toEqual({ ok: true, value: undefined });
  });

  test('what is refused is refused in slices too', () => {
    const sim = start(WRITE);
    const begin = sim.beginInSlices({ do: 'press', part: 'U1' });
    expect(begin.go(1)).toBe(true);
    expect(begin.result).toMatchObject({ ok: false, failure: { code: 'run/no-switch', at: 'U1' } });
  });
});

describe('what is stopped', () => {
  test('stays at the moment where it was, goes on if time passes, and is said to be pending', () => {
    const sim = start(WRITE);
    sim.begin(PRESS);
    const rest = sim.restInSlices();
    for (let k = 0; k < 20; k++) expect(rest.go(1)).toBe(false);
    const { now } = sim;
    rest.stop();
    expect([rest.result, sim.now, sim.pending]).toEqual([false, now, true]);
    expect(sim.readings().restless).toBeUndefined();
    expect(sim.rest()).toBe(true);
    const whole = start(WRITE);
    whole.act(PRESS);
    expect(seen(sim)).toBe(seen(whole));
  });

  test('is the former work when another begins', () => {
    const sim = start(ring());
    const rest = sim.restInSlices();
    expect(rest.go(3)).toBe(false);
    const wait = sim.waitInSlices(1e-6);
    expect(rest.result).toBe(false);
    goThrough(wait, 5);
    expect(wait.result).toBe(true);
  });

  test('leaves no wire in the hand', () => {
    // the address swings while the wire is out: 0.3 s are millions of turns
    const sim = start(`${ring()}\nwire WH from c60 to c61`);
    const move = sim.beginInSlices({ do: 'move-wire', wire: 'WH', end: 'to', point: 'c62' });
    expect(move.go(50)).toBe(false);
    expect(sim.plan().wires.some((w) => w.id === 'WH')).toBe(false);
    move.stop();
    expect(move.result?.ok).toBe(true);
    expect(sim.plan().wires.find((w) => w.id === 'WH')).toMatchObject({ from: 'c60', to: 'c62' });
  });
});

test('a wire is moved in no more turns than are waited for rest, whatever swings meanwhile', () => {
  const sim = start(`${ring()}\nwire WH from c60 to c61`);
  expect(goThrough(sim.beginInSlices({ do: 'move-wire', wire: 'WH', end: 'to', point: 'c62' }), 1000)).toBeLessThan(32);
  expect(sim.plan().wires.find((w) => w.id === 'WH')).toMatchObject({ from: 'c60', to: 'c62' });
});

test('light that is taken away early has shone for less', () => {
  const bench = `${memoryBench('').replace('eeprom-2kx8', 'uv-eprom-2kx8')}
    clock-generator CK1 1
    wire X1 from CK1.+ to +j30
    wire X2 from CK1.- to -j30
    memory U1 000 00`;
  const light: Action = { do: 'light', part: 'U1', seconds: 3600, wattsPerCm2: 12e-3 };
  const [whole, stopped] = [start(bench), start(bench)];
  whole.act(light);
  expect(whole.plan().memories.U1).toEqual({});
  const slices = stopped.beginInSlices(light);
  expect(slices.go(100)).toBe(false);
  slices.stop();
  expect(stopped.plan().memories.U1).toMatchObject({ '000': expect.stringMatching(/^00/) });
});

test('a supply has one switch, and no button', () => {
  const sim = start(WRITE);
  expect(sim.act({ do: 'set', part: 'PS1', pole: 1, closed: false })).toMatchObject({
    ok: false,
    failure: { code: 'run/no-switch', at: 'PS1' },
  });
  expect(sim.act({ do: 'press', part: 'PS1' }).ok).toBe(false);
  expect(sim.readings().supplies[0]?.on).toBe(true);
  expect(sim.act({ do: 'set', part: 'PS1', pole: 0, closed: false }).ok).toBe(true);
  expect(sim.readings().supplies[0]?.on).toBe(false);
});
