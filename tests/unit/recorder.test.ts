/** What the recorder keeps of a write and a read: the physics' own samples, as much as was asked for, and nothing that changes the bench. */
import { describe, expect, test } from 'vitest';
import { dumpTrace, type Simulation, type Trace } from '../../sim-core/index.ts';
import { LED_ON_D0, MEMORY, READ_BY_S3, READY_TO_WRITE, start, writeNetwork } from '../support/bench.ts';
import { readVcd } from '../support/vcd.ts';

const BENCH = `${MEMORY}${LED_ON_D0}${READY_TO_WRITE}
  dip-switch S3 at e30 with poles 1
  wire L32 black from a30 to -a30
  wire L33 yellow from g30 to a19
  resistor R33 10k from b19 to h33
  wire L34 red from j33 to +j18
  ${writeNetwork()}`;
const VIL = 0.8;

const traceOf = (sim: Simulation): Trace => {
  expect(sim.traces).toHaveLength(1);
  return sim.traces[0]!;
};
const pin = (t: Trace, name: string) => t.pins.find((p) => p.name === name)!;
/** How long a pin is below a voltage, its samples joined by straight lines [s]. */
function below(t: Trace, name: string, volts: number): number {
  let sum = 0;
  const v = pin(t, name).volts;
  for (let i = 1; i < v.length; i++) {
    const [a, b, long] = [v[i - 1]!, v[i]!, t.times[i]! - t.times[i - 1]!];
    if (a < volts && b < volts) sum += long;
    else if (a < volts !== b < volts) sum += (long * Math.abs((a < volts ? a : b) - volts)) / Math.abs(a - b);
  }
  return sum;
}
function written(bounce = false): Simulation {
  const sim = start(BENCH, { bounce, seed: 2 });
  sim.watch(['U1']);
  sim.wait(0.01);
  sim.act({ do: 'press', part: 'SB1' });
  return sim;
}

describe('a write by hand', () => {
  test('is kept with the pulse that the report measured', () => {
    const trace = traceOf(written());
    expect(trace.what).toBe('write');
    expect(trace.report?.outcome).toBe('stored');
    expect(below(trace, '/WE', VIL)).toBeCloseTo(trace.report!.guaranteedLow, 9);
    expect(pin(trace, '/WE').levels).toMatch(/^H+X*L+X+H+$/);
  });

  test('shows when address and data were latched: the one at the fall, the other at the rise', () => {
    const { states, times, pins } = traceOf(written());
    const we = pins.find((p) => p.name === '/WE')!.levels;
    const fall = times[we.indexOf('L')]!;
    const rise = times[we.lastIndexOf('L') + 1]!;
    const address = states.find((s) => s.state.latched)!;
    const data = states.find((s) => s.state.latched?.data)!;
    expect(address.time).toBeCloseTo(fall, 10);
    expect(address.state.latched?.data).toBeUndefined();
    expect(Math.abs(data.time - rise)).toBeLessThan(5e-9);
    expect(states.at(-1)!.state).toMatchObject({ doing: 'storing' });
    expect(states.at(-1)!.state.until! - rise).toBeGreaterThan(0.9e-3);
  });

  test('is not lost to the chatter of the button after it', () => {
    const sim = written(true);
    expect(sim.events.length).toBeGreaterThan(1);
    expect(traceOf(sim).report?.outcome).toBe('stored');
  });

  test('has few enough samples to be sent and drawn', () => {
    const trace = traceOf(written(true));
    expect(trace.times.length).toBeLessThan(1500);
    expect(trace.times).toEqual([...trace.times].sort((a, b) => a - b));
    for (const p of trace.pins) expect([p.volts.length, p.levels.length]).toEqual([trace.times.length, trace.times.length]);
  });
});

/** No moment twice, and no four successive samples within 20 mV of the first of them; the last two close the trace. */
function isThin({ times, pins }: Trace): boolean {
  const near = (i: number, j: number) => pins.every((p) => p.levels[i] === p.levels[j] && Math.abs(p.volts[i]! - p.volts[j]!) < 0.019);
  return times.slice(0, -4).every((t, i) => times[i + 1]! > t && !(near(i, i + 1) && near(i, i + 2) && near(i, i + 3)));
}

describe('the samples of a trace', () => {
  test('leave out what moves nowhere, and begin and end with the stretch that is shown', () => {
    const sim = written();
    const trace = traceOf(sim);
    expect(isThin(trace)).toBe(true);
    const { time, guaranteedLow } = trace.report!;
    expect(trace.times[0]).toBeLessThan(time - 0.5 * guaranteedLow);
    expect(trace.times[0]).toBeGreaterThan(time - 3 * guaranteedLow);
    expect(trace.times[1]).toBeGreaterThan(trace.times[0]!);
    expect(trace.times.at(-1)! - time).toBeGreaterThan(1.5 * guaranteedLow);
    expect(trace.times.at(-1)! - time).toBeLessThan(6 * guaranteedLow);
    expect(trace.states[0]!.time).toBe(trace.times[0]);
    expect(trace.states.map((s) => s.time)).toEqual([...trace.states.map((s) => s.time)].sort((a, b) => a - b));
  });

  test('end where the pins are then', () => {
    const sim = start(`${BENCH.replace('switch S2 set 0', 'switch S2 set 1')}\n  memory U1 000 00FF`, { bounce: false });
    sim.watch(['U1']);
    sim.act({ do: 'set', part: 'S3', pole: 0, closed: true });
    const trace = traceOf(sim);
    const read = sim.readings().chips.find((c) => c.part === 'U1')!.pins;
    expect(trace.pins.map((p) => p.pin)).toEqual(read.map((p) => p.pin));
    for (const [i, p] of trace.pins.entries()) {
      expect(p.volts.at(-1), p.name).toBeCloseTo(read[i]!.volts, 1);
      expect(p.levels.at(-1), p.name).toBe(read[i]!.level ?? '-');
    }
    expect(pin(trace, 'VCC').volts[0]).toBeGreaterThan(4.9);
    expect(pin(trace, 'VCC').levels[0]).toBe('-');
  });

  test('of a second write hold nothing of the first', () => {
    const sim = written();
    sim.act({ do: 'release', part: 'SB1' });
    sim.wait(0.05);
    const before = sim.now;
    sim.act({ do: 'press', part: 'SB1' });
    const trace = traceOf(sim);
    expect(sim.events).toHaveLength(2);
    expect(trace.times[0]).toBeGreaterThan(before - 1e-6);
    expect(trace.times[1]).toBeGreaterThan(trace.times[0]!);
    expect(pin(trace, '/WE').levels).toMatch(/^H+X*L+X+H+$/);
    expect(isThin(trace)).toBe(true);
  });

  test('are kept for those who are watched only, and go with the watch', () => {
    const sim = written();
    sim.watch(['R20']);
    expect(sim.traces).toEqual([]);
    sim.watch(['U1']);
    expect(sim.traces).toEqual([]);
    sim.act({ do: 'release', part: 'SB1' });
    sim.wait(0.05);
    sim.act({ do: 'press', part: 'SB1' });
    expect(traceOf(sim).what).toBe('write');
    sim.watch([]);
    expect(sim.traces).toEqual([]);
  });
});

test('a read is kept from the address that moved last to the byte that followed, within the access time', () => {
  const sim = start(`${BENCH.replace('switch S2 set 0', 'switch S2 set 1')}\n  memory U1 000 00FF`, { bounce: false });
  sim.watch(['U1']);
  sim.act({ do: 'set', part: 'S3', pole: 0, closed: true });
  const trace = traceOf(sim);
  expect(trace.what).toBe('read');
  expect(pin(trace, 'A0').levels).toMatch(/^H+X*L+$/);
  const d = pin(trace, 'D0').levels;
  const moved = trace.times[pin(trace, 'A0').levels.indexOf('L')]!;
  const valid = trace.times[d.lastIndexOf('X') + 1]!;
  expect(valid - moved).toBeGreaterThan(0);
  expect(valid - moved).toBeLessThanOrEqual(150e-9 + 1e-12);
});

test('watching changes nothing, to the bit, and who does not watch keeps nothing', () => {
  const watched = written(true);
  const alone = start(BENCH, { bounce: true, seed: 2 });
  alone.wait(0.01);
  alone.act({ do: 'press', part: 'SB1' });
  expect(alone.traces).toEqual([]);
  expect(alone.readings()).toEqual(watched.readings());
  expect(alone.events).toEqual(watched.events);
  expect(alone.now).toBe(watched.now);
});

test('as a value change dump it says the same', () => {
  const trace = traceOf(written());
  const dump = dumpTrace(trace);
  if (!dump.ok) throw new Error(dump.failure.says);
  const read = readVcd(dump.value);
  expect(read.picoseconds).toBe(1);
  const we = read.signals.get('U1.WE_n')!;
  // it begins at its own first moment, not at the bench's
  expect(we[0]!.tick).toBe(0);
  expect(we.at(-1)!.tick * 1e-12).toBeLessThan(trace.times.at(-1)! - trace.times[0]! + 1e-11);
  expect(
    we
      .map((c) => c.value)
      .filter((v, i, all) => v !== all[i - 1])
      .join(''),
  ).toMatch(/^1x?0x1$/);
  const low = we.findIndex((c) => c.value === '0');
  expect((we[low + 1]!.tick - we[low]!.tick) * 1e-12).toBeCloseTo(trace.report!.guaranteedLow, 9);
  const volts = read.signals.get('U1.WE_n_volts')!.map((c) => Number(c.value));
  expect(Math.min(...volts)).toBeLessThan(VIL);
  expect(Math.max(...volts)).toBeGreaterThan(4);
});

describe('what is kept of a read', () => {
  /** D0 is on LED1, and goes from 00 to FF as S3 pulls A0 low for the second time. */
  const read = () => {
    const sim = start(MEMORY + LED_ON_D0 + READ_BY_S3, { bounce: false });
    sim.watch(['U1']);
    for (const closed of [true, false, true]) {
      sim.act({ do: 'set', part: 'S3', pole: 0, closed });
      sim.wait(1e-6);
    }
    return traceOf(sim);
  };
  const moves = ({ times, pins }: Trace, names: RegExp) =>
    pins
      .filter((p) => names.test(p.name))
      .flatMap(({ levels }) => times.filter((_, k) => k > 0 && levels[k] !== levels[k - 1]))
      .sort((a, b) => a - b);

  test('begins 120 ns before the address moved last, and ends 120 ns after the last output did', () => {
    const t = read();
    expect((moves(t, /^A/).at(-1)! - t.times[0]!) * 1e9).toBeCloseTo(120, 5);
    expect((t.times.at(-1)! - moves(t, /^D/).at(-1)!) * 1e9).toBeCloseTo(120, 5);
  });

  test('has an output that begins to drive as a jump: at one time it is where it was, and where it goes', () => {
    const t = read();
    const driven = moves(t, /^D0/).at(-1)!;
    const there = pin(t, 'D0').volts.filter((_, k) => Math.abs(t.times[k]! - driven) < 1e-15);
    expect(there[0]).toBeLessThan(1);
    expect(there.at(-1)).toBeGreaterThan(2);
  });

  test('tells of each state once: from one to the next it does another thing, or a pin has another level; so of a write', () => {
    for (const t of [read(), traceOf(written(true))]) {
      const seen = t.states.map(({ time, state }) => {
        const k = t.times.findLastIndex((x) => x <= time);
        return `${state.doing} ${t.pins.map((p) => p.levels[k]).join('')}`;
      });
      expect(seen.length).toBeGreaterThan(2);
      expect(seen.filter((s, i) => s === seen[i - 1])).toEqual([]);
    }
  });
});
