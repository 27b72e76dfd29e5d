/** Past moments of a bench, shown by doing once more what was done: equal to the first run to the bit. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { type Action, BenchRecord, FINGER, RecordedBench, type Simulation } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';

const WATCHED = ['U1./WE', 'U1.D', 'U1', 'LED1', 'PS1'];
const seen = (sim: Simulation) => JSON.stringify([sim.now, sim.readings(), sim.plan(), sim.events]);

function recordOf(bench: RecordedBench): BenchRecord {
  const made = BenchRecord.of(WATCHED, bench.live.circuit);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
}

/** A byte is written by hand, switches bounce, a wire is taken away and put back; after each act, all that can be seen. */
function busy(): { readonly bench: RecordedBench; readonly moments: readonly { readonly turn: number; readonly seen: string }[] } {
  const made = RecordedBench.of(demoPlan('greenhouse-blank')!);
  if (!made.ok) throw new Error(made.failure.says);
  const bench = made.value;
  const { live } = bench;
  const moments = [{ turn: bench.turns, seen: seen(live) }];
  const keep = () => moments.push({ turn: bench.turns, seen: seen(live) });
  const act = (a: Action) => {
    bench.act(a);
    keep();
  };
  act({ do: 'set', part: 'PS1', pole: 0, closed: true });
  bench.wait(0.01);
  keep();
  act({ do: 'set', part: 'S3', pole: 0, closed: true });
  for (const pole of [0, 2, 4, 6]) act({ do: 'set', part: 'S2', pole, closed: true });
  act({ do: 'press', part: 'S4' });
  bench.wait(FINGER);
  act({ do: 'release', part: 'S4' });
  act({ do: 'press', part: 'S99' });
  const index = 12;
  const item = live.plan().wires[index]!;
  act({ do: 'edit', change: { op: 'remove', list: 'wires', item, index } });
  act({ do: 'edit', change: { op: 'insert', list: 'wires', item, index } });
  return { bench, moments };
}

describe('a bench that is recorded', () => {
  const { bench, moments } = busy();

  test('shows after each act, forwards, backwards and in any order, what it showed then', () => {
    const random = makeRandom(3);
    const anyOrder = [...moments].sort(() => random() - 0.5);
    for (const order of [moments, [...moments].reverse(), anyOrder])
      for (const moment of order) expect(seen(bench.atTurn(moment.turn))).toBe(moment.seen);
  });

  test('shows in the middle of a pulse the same, whether it comes there at once or from another moment, and goes on from there to the same end', () => {
    const random = makeRandom(5);
    for (let k = 0; k < 12; k++) {
      const turn = Math.floor(random() * bench.turns);
      const atOnce = busy().bench;
      const there = seen(bench.atTurn(turn));
      expect(seen(atOnce.atTurn(turn))).toBe(there);
      expect(seen(atOnce.atTurn(bench.turns))).toBe(moments.at(-1)!.seen);
    }
  });

  test('is at a time what it was after the last turn until then', () => {
    const { time } = bench.live.events.find((e) => e.outcome === 'stored')!;
    const before = bench.at(time * (1 - 1e-9));
    expect(before.now).toBeLessThan(time);
    expect(
      bench
        .at(time + 1e-3)
        .readings()
        .chips.find((c) => c.part === 'U1')?.state.doing,
    ).toBe('storing');
    expect(seen(bench.at(1e9))).toBe(moments.at(-1)!.seen);
  });

  test('parked at moments all over shows the same', () => {
    bench.park();
    for (const moment of [...moments].reverse()) expect(seen(bench.atTurn(moment.turn))).toBe(moment.seen);
  });

  test('gives another watcher the same record to the bit, however often', () => {
    const [once, again] = [recordOf(bench), recordOf(bench)];
    bench.again(once);
    bench.again(again);
    const spans = (r: BenchRecord) => r.all.map(({ track }) => Array.from({ length: track.length }, (_, i) => track.at(i)));
    expect(spans(once).flat().length).toBeGreaterThan(100);
    expect(spans(again)).toEqual(spans(once));
  });
});
