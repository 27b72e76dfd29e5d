/** A track of bounded length: whatever is added, no extreme is lost, and nothing is anywhere but where it was. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Track, type TrackSpan } from '../../sim-core/record/track.ts';

const samplesAfter = (...waits: number[]) =>
  fc.array(
    fc.record({
      wait: fc.constantFrom(...waits),
      value: fc.oneof(fc.double({ min: -5, max: 5, noNaN: true }), fc.constantFrom(0, 5)).map((v) => v + 0),
    }),
    { minLength: 1, maxLength: 400 },
  );
const rooms = fc.integer({ min: 4, max: 40 });
const grains = fc.constantFrom(0, 0.01, 1);

function recorded(list: readonly { readonly wait: number; readonly value: number }[], room: number, grain: number) {
  const track = new Track(room, grain);
  let time = 0;
  const taken = list.map(({ wait, value }) => {
    time += wait;
    track.add(time, value);
    return { time, value };
  });
  const spans: TrackSpan[] = Array.from({ length: track.length }, (_, i) => track.at(i));
  return { track, taken, spans };
}

test('each span has the first, least, most and last value of its time, every value is in one, and there are never more than there is room for', () => {
  fc.assert(
    fc.property(samplesAfter(1e-12, 3e-9, 1e-3, 7, 1000), rooms, grains, (list, room, grain) => {
      const { taken, spans } = recorded(list, room, grain);
      expect(spans.length).toBeLessThanOrEqual(room);
      let seen = 0;
      for (const { from, until, first, least, most, last } of spans) {
        const own = taken.filter(({ time }) => time >= from && time <= until).map(({ value }) => value);
        expect([first, least, most, last]).toEqual([own[0], Math.min(...own), Math.max(...own), own.at(-1)]);
        seen += own.length;
      }
      expect(seen).toBe(taken.length);
    }),
    { numRuns: 300 },
  );
});

test('jumps, two values at one time, keep their extremes too', () => {
  fc.assert(
    fc.property(samplesAfter(0, 1e-9), rooms, grains, (list, room, grain) => {
      const { taken, spans } = recorded(list, room, grain);
      const values = taken.map(({ value }) => value);
      expect(Math.min(...spans.map((s) => s.least))).toBe(Math.min(...values));
      expect(Math.max(...spans.map((s) => s.most))).toBe(Math.max(...values));
      expect([spans[0]?.first, spans.at(-1)?.last]).toEqual([values[0], values.at(-1)]);
    }),
  );
});

test('the newest is kept as it was, and the oldest is made coarser', () => {
  const { spans } = recorded(
    Array.from({ length: 1000 }, (_, i) => ({ wait: 1, value: i })),
    16,
    0,
  );
  expect(spans.slice(-4).map((s) => s.moves)).toEqual([1, 1, 1, 1]);
  expect(spans[0]?.moves).toBeGreaterThan(100);
});

test('a stretch of time begins with what stood at its beginning', () => {
  const { track } = recorded(
    [
      { wait: 1, value: 0 },
      { wait: 1, value: 5 },
      { wait: 1, value: 5 },
      { wait: 1, value: 2 },
    ],
    8,
    0,
  );
  expect(track.between(2.5, 3.5).map((s) => s.first)).toEqual([5]);
  expect(track.between(0, 0.5)).toEqual([]);
  expect(track.between(3.5, 9).map((s) => s.first)).toEqual([5, 2]);
});
