/** The slow replay of a recording: every moment in order, a rest at each mark, one pass; frames and time are the test's own. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { makeReplay } from '../../client/timing/replay.ts';
import type { Trace } from '../../sim-core/index.ts';

/** A recording from 1 s to 1 s + 4 µs: the address is latched after 1 µs, the byte after 3 µs. */
const [FIRST, ADDRESS, BYTE, LAST] = [1, 1 + 1e-6, 1 + 3e-6, 1 + 4e-6];
const state = (latched: object) => ({ latched }) as unknown as Trace['states'][number]['state'];
const trace: Trace = {
  part: 'U1',
  what: 'write',
  times: [FIRST, ADDRESS, BYTE, LAST],
  pins: [],
  states: [
    { time: ADDRESS, state: state({ address: 5 }) },
    { time: BYTE, state: state({ address: 5, data: 10 }) },
  ],
};

let now = 0;
let due: ((time: number) => void) | undefined;
let calm = false;
/** Lets so much time pass [ms], in frames of so much. */
function pass(ms: number, frame = 16): void {
  for (const end = now + ms; now < end && due; ) {
    now += frame;
    const step = due;
    due = undefined;
    step(now);
  }
}
function played() {
  const shown: number[] = [];
  const playing: boolean[] = [];
  const replay = makeReplay(
    (time) => shown.push(time),
    (is) => playing.push(is),
  );
  replay.play(trace);
  return { shown, playing, replay };
}

beforeEach(() => {
  [now, due, calm] = [0, undefined, false];
  vi.stubGlobal('performance', { now: () => now });
  vi.stubGlobal('matchMedia', () => ({ matches: calm }));
  vi.stubGlobal('requestAnimationFrame', (step: (time: number) => void) => {
    due = step;
    return 1;
  });
  vi.stubGlobal('cancelAnimationFrame', () => {
    due = undefined;
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('a replay', () => {
  test('passes over the recording once, never back, and ends by itself', () => {
    const { shown, playing } = played();
    pass(60_000);
    expect(shown).toEqual([...shown].sort((a, b) => a - b));
    expect(shown[0]).toBeLessThan(FIRST + 0.1e-6);
    expect(shown.at(-1)).toBe(LAST);
    expect(playing).toEqual([true, false]);
    // 8 s for the whole, and 1.6 s at each of the two marks
    expect(now).toBeGreaterThanOrEqual(11_200);
    expect(now).toBeLessThan(11_232);
  });

  test('rests at each mark for long enough to read what has happened', () => {
    const { shown } = played();
    pass(60_000);
    for (const mark of [ADDRESS, BYTE]) {
      const frames = shown.filter((t) => t === mark).length;
      expect(16 * frames).toBeGreaterThan(1550);
      expect(16 * frames).toBeLessThan(1650);
    }
    // between the marks the address is latched and the byte is not, for a quarter of the way and one rest
    const between = shown.filter((t) => t >= ADDRESS && t < BYTE).length;
    expect(16 * between).toBeGreaterThan(5500);
  });

  test('stops where it is told to, and shows nothing more', () => {
    const { shown, playing, replay } = played();
    pass(1000);
    const so = shown.length;
    replay.stop();
    pass(20_000);
    expect(shown).toHaveLength(so);
    expect(playing).toEqual([true, false]);
    replay.stop();
    expect(playing).toEqual([true, false]);
  });

  test('begins again from the start when it is asked for while it plays', () => {
    const { shown, playing, replay } = played();
    pass(5000);
    replay.play(trace);
    const before = shown.length;
    pass(32);
    expect(shown[before]).toBeLessThan(FIRST + 0.1e-6);
    expect(playing).toEqual([true, false, true]);
  });

  test('without motion shows the first mark and stays there', () => {
    calm = true;
    const { shown, playing } = played();
    pass(20_000);
    expect(shown).toEqual([ADDRESS]);
    expect(playing).toEqual([]);
  });
});
