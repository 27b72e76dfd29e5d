/** How often and how fast a contact bounces, drawn from chance: one to three rebounds, an even number of changes, never nearer together than metal can. */
import { describe, expect, test } from 'vitest';
import { buttonContact } from '../../sim-core/parts/figures/contacts.ts';
import { contactBounce } from '../../sim-core/run/digital/contact-bounce.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { start } from '../support/bench.ts';

const BOUNCE = { mean: 1.557e-3, most: 6.2e-3 };

describe('bounces of a contact', () => {
  const drawn = Array.from({ length: 2000 }, (_, seed) => contactBounce(BOUNCE, makeRandom(seed)));

  test('are one, two or three rebounds, each as often as another', () => {
    const counts = new Map<number, number>();
    for (const times of drawn) counts.set(times.length, (counts.get(times.length) ?? 0) + 1);
    expect([...counts.keys()].sort()).toEqual([2, 4, 6]);
    // a third of 2000: sigma is √(2000·2/9) = 21
    for (const n of counts.values()) expect(Math.abs(n - 2000 / 3)).toBeLessThan(5 * 21);
  });
  test('ascend, 1 µs apart at least, and end within the longest', () => {
    for (const times of drawn)
      for (const [i, t] of times.entries()) {
        expect(t - (times[i - 1] ?? 0)).toBeGreaterThan(0.999e-6);
        expect(t).toBeLessThanOrEqual(BOUNCE.most + 6e-6);
      }
    expect(Math.max(...drawn.flat())).toBeGreaterThan(0.9 * BOUNCE.most);
  });
  test('are moved apart to just 1 µs where chance lays them nearer (from memory: metal does not meet again faster)', () => {
    // mean half of most: the last change lies anywhere, uniformly
    const drawnBy = (...values: number[]) =>
      contactBounce({ mean: 0.5e-3, most: 1e-3 }, () => values.shift() ?? 0).map((t) => Number(t.toPrecision(9)));
    expect(drawnBy(0.3, 0, 0)).toEqual([1e-6, 2e-6]);
    expect(drawnBy(0.3, 0.5, 1)).toEqual([5e-4, 5.01e-4]);
    expect(drawnBy(0.3, 0.9, 0.5)).toEqual([4.5e-4, 9e-4]);
    expect(drawnBy(0.99, 0.5, 0.2, 0.4, 0.6, 0.8, 0.1)).toEqual([5e-5, 1e-4, 2e-4, 3e-4, 4e-4, 5e-4]);
  });
});

test('a switch on a bench does as often as drawn, and stands where it was moved to at the end', () => {
  const bench =
    'board-30 B1\nbench-supply PS1\ndip-switch S1 at e1 with poles 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a9\nresistor R1 1k from j1 to b9\nswitch PS1 set 1';
  const changes = (seed: number): boolean[] => {
    const sim = start(bench, { seed });
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
    const seen = [sim.readings().switches.S1?.[0] ?? false];
    for (let t = 0; t < 6.3e-3; t += 0.5e-6) {
      sim.wait(0.5e-6);
      const now = sim.readings().switches.S1?.[0] ?? false;
      if (now !== seen.at(-1)) seen.push(now);
    }
    return seen;
  };
  const all = [1, 2, 3].map(changes);
  for (const seen of all) {
    expect(seen[0]).toBe(true);
    expect(seen.at(-1)).toBe(true);
    expect(seen.length % 2).toBe(1);
    expect(seen.length).toBeLessThanOrEqual(7);
  }
});

// J. Ganssle, "A Guide to Debouncing", as quoted in SOURCES.md S50: 16 switches bounced for 1.557 ms on average, 6.2 ms at most
test('10 000 bounces of a push button have the published mean and most', () => {
  const random = makeRandom(1);
  const lengths = Array.from({ length: 1e4 }, () => contactBounce(buttonContact.bounce, random).at(-1)!);
  const mean = lengths.reduce((a, b) => a + b) / 1e4;
  // sigma of one is 1.75 ms, of the mean 0.0175 ms
  expect(Math.abs(mean - 1.557e-3)).toBeLessThan(4 * 0.0175e-3);
  const most = lengths.reduce((a, b) => Math.max(a, b));
  expect(most).toBeLessThanOrEqual(6.2e-3 + 6e-6);
  expect(most).toBeGreaterThan(6.1e-3);
});
