/** How often and how fast a contact bounces, drawn from chance: up to three rebounds, an even number of changes, never nearer together than metal can. */
import { describe, expect, test } from 'vitest';
import { contactBounce } from '../../sim-core/run/digital/contact-bounce.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { start } from '../support/bench.ts';

const LONGEST = 1.557e-3;

describe('bounces of a contact', () => {
  const drawn = Array.from({ length: 2000 }, (_, seed) => contactBounce(LONGEST, makeRandom(seed)));

  test('are none, one, two or three rebounds, each as often as another', () => {
    const counts = new Map<number, number>();
    for (const times of drawn) counts.set(times.length, (counts.get(times.length) ?? 0) + 1);
    expect([...counts.keys()].sort()).toEqual([0, 2, 4, 6]);
    // a quarter of 2000: sigma is √(2000·3/16) = 19
    for (const n of counts.values()) expect(Math.abs(n - 500)).toBeLessThan(5 * 19);
  });
  test('ascend, 1 µs apart at least, and end within the longest', () => {
    for (const times of drawn)
      for (const [i, t] of times.entries()) {
        expect(t - (times[i - 1] ?? 0)).toBeGreaterThan(0.999e-6);
        expect(t).toBeLessThanOrEqual(LONGEST + 6e-6);
      }
    expect(Math.max(...drawn.flat())).toBeGreaterThan(0.9 * LONGEST);
  });
  test('are moved apart to just 1 µs where chance lays them nearer (from memory: metal does not meet again faster)', () => {
    const drawnBy = (...values: number[]) => contactBounce(1e-3, () => values.shift() ?? 0).map((t) => Number(t.toPrecision(9)));
    expect(drawnBy(0.3, 1, 0, 0)).toEqual([1e-6, 2e-6]);
    expect(drawnBy(0.3, 1, 0.5, 0.5)).toEqual([5e-4, 5.01e-4]);
    expect(drawnBy(0.3, 1, 0.9, 0.2)).toEqual([2e-4, 9e-4]);
    expect(drawnBy(0.2)).toEqual([]);
    expect(drawnBy(0.99, 0.5, 0.2, 0.4, 0.6, 0.8, 1, 0.1)).toEqual([5e-5, 1e-4, 2e-4, 3e-4, 4e-4, 5e-4]);
  });
});

test('a switch on a bench does as often as drawn, and stands where it was moved to at the end', () => {
  const bench =
    'board-30 B1\nbench-supply PS1\ndip-switch S1 at e1 with poles 1\nwire W1 from PS1.+ to a1\nwire W2 from PS1.- to a9\nresistor R1 1k from j1 to b9\nswitch PS1 set 1';
  const changes = (seed: number): boolean[] => {
    const sim = start(bench, { seed });
    sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
    const seen = [sim.readings().switches.S1?.[0] ?? false];
    for (let t = 0; t < 2e-3; t += 0.5e-6) {
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
