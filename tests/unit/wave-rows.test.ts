/** A recorded write as rows to be drawn and replayed: buses, enables, the windows that the data sheet sets, and a cursor that rests where something happens. */
import { afterEach, describe, expect, test, vi } from 'vitest';
import { makeReplay } from '../../client/timing/replay.ts';
import { marksOf, sampleAt, waveRows, windowsOf } from '../../client/timing/wave-rows.ts';
import type { Trace } from '../../sim-core/index.ts';
import { MEMORY, READY_TO_WRITE, start, writeNetwork } from '../support/bench.ts';

const sim = start(`${MEMORY}${READY_TO_WRITE}  wire L33 black from a19 to -a24\n${writeNetwork()}`, { bounce: false });
sim.watch(['U1']);
sim.wait(0.01);
sim.act({ do: 'press', part: 'SB1' });
const trace: Trace = sim.traces[0]!;
const [first, last] = [trace.times[0]!, trace.times.at(-1)!];

describe('rows', () => {
  test('are the address, the enables, and the data, from above to below', () => {
    const rows = waveRows(trace);
    expect(rows[0]).toMatchObject({ kind: 'bus', name: 'A' });
    expect(rows.at(-1)).toMatchObject({ kind: 'bus', name: 'D' });
    expect(rows.slice(1, -1).map((r) => r.name)).toEqual(expect.arrayContaining(['/WE', '/OE', '/CE']));
  });

  test('of a bus go from the first sample to the last without a gap, each span another value', () => {
    for (const row of waveRows(trace)) {
      if (row.kind !== 'bus') continue;
      expect([row.spans[0]!.from, row.spans.at(-1)!.to]).toEqual([first, last]);
      row.spans.slice(1).forEach((s, i) => {
        expect(s.from).toBe(row.spans[i]!.to);
        expect([s.text, s.state]).not.toEqual([row.spans[i]!.text, row.spans[i]!.state]);
      });
      for (const s of row.spans) if (s.state === 'known') expect(s.text).toMatch(/^[0-9A-F]+$/);
    }
  });

  test('of an enable have its voltages and its levels; the write enable goes low and high again', () => {
    const we = waveRows(trace).find((r) => r.name === '/WE');
    if (we?.kind !== 'line') throw new Error('no row for /WE');
    expect(we.volts).toHaveLength(trace.times.length);
    const levels = we.levels.map((l) => l.level).join('');
    expect(levels).toMatch(/H.*L.*H/);
  });

  test('name the byte that is being stored while it is taken', () => {
    const { report } = trace;
    const data = waveRows(trace).at(-1)!;
    if (data.kind !== 'bus' || !report) throw new Error('no data');
    const at = data.spans.find((s) => s.from <= report.time && report.time < s.to);
    expect(at?.text).toBe('00');
  });
});

describe('windows', () => {
  const windows = windowsOf(trace);
  test('are the pulse and what the sheet asks round it, all of them kept in a write that stored', () => {
    expect(trace.report?.outcome).toBe('stored');
    const strobe = windows.filter((w) => w.row === '/WE');
    expect(strobe).toHaveLength(2);
    const [sure, perhaps] = strobe;
    // what is low for sure is within what may be low
    expect(sure!.from).toBeGreaterThanOrEqual(perhaps!.from);
    expect(sure!.to).toBeLessThanOrEqual(perhaps!.to);
    expect(new Set(windows.map((w) => w.row))).toEqual(new Set(['/WE', 'A', 'D', '/OE']));
    expect(windows.filter((w) => !w.kept)).toEqual([]);
    for (const w of windows) expect(w.to).toBeGreaterThanOrEqual(w.from);
  });

  test('that are broken say so: a pulse shorter than the sheet asks', () => {
    const report = { ...trace.report!, guaranteedLow: 1e-9, limits: { ...trace.report!.limits, least: 1e-6 } };
    const sure = windowsOf({ ...trace, report } as Trace).find((w) => w.row === '/WE');
    expect(sure?.kept).toBe(false);
  });

  test('are none where only a read was recorded', () => {
    const { report: _, ...read } = trace;
    expect(windowsOf(read)).toEqual([]);
  });
});

test('the address is latched before the data, and a moment shows the last sample before it', () => {
  const [address, data] = marksOf(trace);
  expect(address!.time).toBeLessThan(data!.time);
  expect(sampleAt(trace, first)).toBe(0);
  expect(sampleAt(trace, last + 1)).toBe(trace.times.length - 1);
  const i = sampleAt(trace, address!.time);
  expect(trace.times[i]!).toBeLessThanOrEqual(address!.time);
});

describe('a replay', () => {
  afterEach(() => vi.unstubAllGlobals());
  /** Frames that a test draws, each so many ms after the one before. */
  const frames = (still = false) => {
    let next: ((now: number) => void) | undefined;
    vi.stubGlobal('requestAnimationFrame', (does: (now: number) => void) => {
      next = does;
      return 1;
    });
    vi.stubGlobal('cancelAnimationFrame', () => {
      next = undefined;
    });
    vi.stubGlobal('matchMedia', () => ({ matches: still }));
    let now = performance.now();
    return {
      draw: (ms: number) => {
        now += ms;
        const does = next;
        next = undefined;
        does?.(now);
        return does !== undefined;
      },
    };
  };
  const made = () => {
    const shown: number[] = [];
    const playing: boolean[] = [];
    return {
      shown,
      playing,
      replay: makeReplay(
        (t) => shown.push(t),
        (is) => playing.push(is),
      ),
    };
  };

  test('passes over all of the recording once, never back, and rests where something is latched', () => {
    const { draw } = frames();
    const { shown, playing, replay } = made();
    replay.play(trace);
    for (let i = 0; i < 1000 && draw(50); i++);
    expect(shown.at(-1)).toBeCloseTo(last, 12);
    expect(shown.every((t, i) => i === 0 || t >= shown[i - 1]!)).toBe(true);
    expect(playing).toEqual([true, false]);
    for (const { time } of marksOf(trace)) expect(shown.filter((t) => t === time).length).toBeGreaterThan(20);
  });

  test('can be stopped, and for those who want no motion shows one moment', () => {
    const moving = frames();
    const { shown, playing, replay } = made();
    replay.play(trace);
    moving.draw(50);
    replay.stop();
    replay.stop();
    expect([playing, moving.draw(50)]).toEqual([[true, false], false]);
    frames(true);
    const before = shown.length;
    replay.play(trace);
    expect(shown.slice(before)).toEqual([marksOf(trace)[0]!.time]);
    expect(playing).toEqual([true, false]);
  });
});
