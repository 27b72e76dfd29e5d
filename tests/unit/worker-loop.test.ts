/** The worker's loop on a clock that a test moves: what passes while nobody touches anything, overload, bounces, and a line that has no bench yet. */
import { describe, expect, test } from 'vitest';
import type { Clock } from '../../client/worker/clock.ts';
import { portOf } from '../../client/worker/port.ts';
import type { Ask, Tell } from '../../client/worker/protocol.ts';
import { createWorkerLoop } from '../../client/worker/simulation.ts';
import { makeTimeScale } from '../../client/worker/time-scaling.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { plain, writeBenchText } from '../../sim-core/index.ts';
import { contactBounce } from '../../sim-core/run/digital/contact-bounce.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { MEMORY, planOf, READY_TO_WRITE, writeNetwork } from '../support/bench.ts';
import { FakeClock } from '../support/fake-clock.ts';
import { ledPlan, planWith, ramPlan } from '../support/plans.ts';

/** A loop with what it has told; workMs: how long the machine takes from one look at the clock to the next. */
function loop(workMs: () => number = () => 0) {
  const clock = new FakeClock();
  const told: Tell[] = [];
  let hear: (message: Ask) => void = () => {};
  const slow: Clock = {
    now() {
      clock.spend(workMs());
      return clock.now();
    },
    after: (ms, does) => clock.after(ms, does),
  };
  createWorkerLoop({
    port: {
      post: (message) => told.push(structuredClone(message)),
      listen: (listener) => {
        hear = listener;
      },
    },
    clock: slow,
  });
  /** beside what says that the worker is there and has done what it was asked */
  const said = () => told.filter((t) => t.tell !== 'alive' && t.tell !== 'done');
  const kinds = () => said().map((t) => t.tell);
  const last = <K extends Tell['tell']>(tell: K) => told.findLast((t) => t.tell === tell) as Extract<Tell, { tell: K }> | undefined;
  return {
    clock,
    told,
    kinds,
    last,
    ask: (message: Ask) => hear(message),
    open: (plan: Plan) => hear({ ask: 'open', text: JSON.stringify(plan), name: '' }),
  };
}

/** A clock generator of so many hertz, and nothing else. */
const ticking = (hertz: number): Plan =>
  planWith({
    parts: [
      { id: 'PS1', kind: 'bench-supply', spot: [-12, 4] },
      { id: 'PG1', kind: 'clock-generator', spot: [-12, 12], params: { hertz } },
    ],
    wires: [
      { id: 'W1', from: 'PS1.+', to: 'PG1.+', colour: 'red' },
      { id: 'W2', from: 'PS1.-', to: 'PG1.-', colour: 'black' },
    ],
    switches: { PS1: [true] },
  });

describe('a bench that nobody touches', () => {
  test('says its readings at once and its findings later, and then nothing more if nothing changes by itself', () => {
    const { ask: _, ...bench } = loop();
    bench.open(ledPlan(330));
    expect(bench.kinds()).toEqual(['bench', 'readings', 'pins']);
    bench.clock.pass(29);
    expect(bench.kinds()).toHaveLength(3);
    bench.clock.pass(10_000);
    expect(bench.kinds()).toEqual(['bench', 'readings', 'pins', 'findings']);
    expect(bench.clock.waiting).toBe(0);
  });

  test('is read twenty times a second where a clock ticks, and its findings are told twice a second', () => {
    const bench = loop();
    bench.open(ticking(2));
    bench.clock.pass(1000);
    const before = bench.kinds().length;
    bench.clock.pass(5000);
    const since = bench.kinds().slice(before);
    expect(since.filter((k) => k === 'readings')).toHaveLength(100);
    const findings = since.filter((k) => k === 'findings').length;
    expect(findings).toBeGreaterThan(7);
    expect(findings).toBeLessThan(11);
  });

  test('has its simulated time pass like the wall clock’s', () => {
    const bench = loop();
    bench.open(ticking(2));
    bench.clock.pass(2000);
    const before = bench.last('readings')!.readings.time;
    bench.clock.pass(3000);
    expect(bench.last('readings')!.readings.time - before).toBeCloseTo(3, 6);
    expect(bench.kinds()).not.toContain('pace');
  });

  test('makes up for no more than a quarter of a second that its page has slept', () => {
    const bench = loop();
    bench.open(ticking(2));
    bench.clock.pass(2000);
    const before = bench.last('readings')!.readings.time;
    bench.clock.spend(60_000);
    bench.clock.pass(0);
    expect(bench.last('readings')!.readings.time - before).toBeLessThan(0.26);
  });

  test('loses an LED to its overload and says by what', () => {
    const bench = loop();
    bench.open(ledPlan(1));
    bench.clock.pass(10_000);
    const worn = bench.told.find((t) => t.tell === 'bench' && t.after === 'wear');
    expect(worn?.tell === 'bench' && worn.plan.parts.find((p) => p.id === 'LED1')?.damaged?.limit).toBeGreaterThan(0);
    // an LED that is damaged may still be asked about
    bench.ask({ ask: 'why', about: 'LED1' });
    bench.clock.pass(1);
    expect(bench.last('why')?.why.about).toBe('LED1');
  });
});

test('an answer that tries edits comes in slices, and what is asked for meanwhile follows it', () => {
  const bench = loop();
  bench.open(demoPlan('greenhouse-dark-vent')!);
  bench.ask({ ask: 'act', act: { do: 'set', part: 'PS1', pole: 0, closed: true } });
  bench.clock.pass(1000);
  bench.ask({ ask: 'why', about: 'LED1' });
  bench.ask({ ask: 'act', act: { do: 'set', part: 'PS1', pole: 0, closed: false } });
  expect(bench.last('why')).toBeUndefined();
  expect(bench.last('readings')?.readings.supplies[0]?.on).toBe(true);
  bench.clock.pass(1000);
  expect(bench.last('why')?.why.about).toBe('LED1');
  expect(bench.last('readings')?.readings.supplies[0]?.on).toBe(false);
});

test('why is answered for a wire, and where there is no answer it is said what can be asked', () => {
  const bench = loop();
  bench.open(ledPlan(330));
  bench.clock.pass(100);
  const says = (about: string) => {
    bench.ask({ ask: 'why', about });
    const { why } = bench.last('why')!;
    expect(why.about).toBe(about);
    return plain(why.headline);
  };
  expect(says('W1')).toMatch(/^Wire W1 carries \d/);
  expect(says('R1')).toBe('Resistor R1 has no why of its own. Ask about an LED (LED1) or a wire (W1).');
});

test('a memory that has lost its bytes with its supply is told once, and not again with every act', () => {
  const bench = loop();
  bench.open(ramPlan(true));
  bench.clock.pass(100);
  const set = (closed: boolean) => {
    const before = bench.kinds().length;
    bench.ask({ ask: 'act', act: { do: 'set', part: 'PS1', pole: 0, closed } });
    bench.clock.pass(2000);
    return bench
      .kinds()
      .slice(before)
      .filter((k) => k === 'written').length;
  };
  expect(set(false)).toBe(1);
  expect(set(false)).toBe(0);
});

describe('an overloaded worker', () => {
  test('lets simulated time pass more slowly and says so once it stays slow; with time to spare it is at full speed again', () => {
    let ms = 20;
    const bench = loop(() => ms);
    bench.open(ticking(2));
    bench.clock.pass(5000);
    const slow = bench.told.flatMap((t) => (t.tell === 'pace' ? [t.pace] : []));
    expect(slow.length).toBeGreaterThan(0);
    expect(Math.max(...slow)).toBeLessThan(1e-3);
    const before = bench.last('readings')!.readings.time;
    bench.clock.pass(1000);
    expect(bench.last('readings')!.readings.time - before).toBeLessThan(1e-3);
    ms = 0;
    bench.clock.pass(2000);
    expect(bench.last('pace')?.pace).toBe(1);
  });

  test('is at full speed again when nothing happens by itself any more', () => {
    const bench = loop(() => 20);
    bench.open(ticking(2));
    bench.clock.pass(5000);
    expect(bench.last('pace')!.pace).toBeLessThan(1);
    bench.open(ledPlan(330));
    expect(bench.last('pace')?.pace).toBe(1);
  });

  test('never passes more than real time, and slows down to a tenth a tick at most', () => {
    const told: number[] = [];
    const scale = makeTimeScale((pace) => told.push(pace));
    for (let i = 0; i < 20; i++) scale.took(0.01, 12);
    expect([scale.now, told]).toEqual([1, []]);
    scale.took(1e6, 12);
    expect(scale.now).toBeCloseTo(0.1, 12);
    // 24 ms of work where 12 are allowed: eight tenths of half of it
    const before = scale.now;
    scale.took(24, 12);
    expect(scale.now).toBeCloseTo(before * 0.4, 12);
    expect(told).toEqual([]);
  });
});

test('words that take long let an act through before they are said', () => {
  let ms = 0;
  const bench = loop(() => ms);
  bench.open(ledPlan(330));
  // a slice of them takes longer than it may
  ms = 60;
  bench.clock.pass(30);
  expect(bench.kinds()).not.toContain('findings');
  ms = 0;
  bench.ask({ ask: 'act', act: { do: 'set', part: 'PS1', pole: 0, closed: false } });
  expect(bench.last('switches')?.switches.PS1).toEqual([false]);
  expect(bench.kinds()).not.toContain('findings');
  bench.clock.pass(100);
  expect(bench.kinds().filter((kind) => kind === 'findings')).toHaveLength(1);
});

describe('a contact', () => {
  test('bounces an even number of times, up to six, never less than a microsecond apart', () => {
    const random = makeRandom(7);
    const counts = new Set<number>();
    for (let i = 0; i < 2000; i++) {
      // a contact that may bounce for so short a time that its bounces would fall together
      const times = contactBounce(i % 2 === 0 ? { mean: 1.5e-6, most: 3e-6 } : { mean: 1.5e-3, most: 3e-3 }, random);
      counts.add(times.length);
      let last = 0;
      for (const t of times) {
        expect(t - last).toBeGreaterThan(1e-6 * (1 - 1e-9));
        last = t;
      }
    }
    expect([...counts].sort()).toEqual([2, 4, 6]);
  });

  test('of a write button bounces in the worker too: every press stores, and its reports are told with the bytes', () => {
    const bench = loop();
    bench.open(planOf(`${MEMORY}${READY_TO_WRITE}${writeNetwork()}`));
    bench.clock.pass(100);
    for (let press = 1; press <= 6; press++) {
      const before = bench.told.length;
      bench.ask({ ask: 'act', act: { do: 'press', part: 'SB1' } });
      bench.clock.pass(200);
      bench.ask({ ask: 'act', act: { do: 'release', part: 'SB1' } });
      bench.clock.pass(200);
      const written = bench.told.slice(before).flatMap((t) => (t.tell === 'written' ? [t] : []));
      const reports = written.flatMap((t) => t.reports);
      expect(reports.length).toBeGreaterThan(0);
      expect(reports.every((r) => r.part === 'U1')).toBe(true);
      expect(written.at(-1)?.memories.U1).toBeDefined();
    }
  });
});

describe('the line', () => {
  test('before any bench answers nothing and fails at nothing', () => {
    const bench = loop();
    bench.ask({ ask: 'act', act: { do: 'press', part: 'S1' } });
    bench.ask({ ask: 'edit', change: { op: 'all', changes: [] } });
    bench.ask({ ask: 'why', about: 'LED1' });
    bench.ask({ ask: 'watch', parts: ['U1'] });
    bench.clock.pass(1000);
    expect(bench.told.map((t) => t.tell)).toEqual(['alive', 'done', 'done', 'done', 'done']);
  });

  test('opens a bench from its text as well as from its document, and refuses what is neither', () => {
    const bench = loop();
    bench.ask({ ask: 'open', text: writeBenchText(ledPlan(330)), name: 'bench.plan.txt' });
    expect(bench.last('bench')?.plan.parts).toHaveLength(3);
    bench.ask({ ask: 'open', text: '{', name: '' });
    expect(bench.last('refused')).toMatchObject({ asked: 'open' });
  });

  test('keeps what comes before anyone listens, in its order', () => {
    const listeners: Array<(e: MessageEvent) => void> = [];
    const posted: unknown[] = [];
    const port = portOf<number, string>({
      postMessage: (m) => posted.push(m),
      addEventListener: (_, listener) => listeners.push(listener),
    });
    const send = (data: number) => {
      for (const l of listeners) l({ data } as MessageEvent);
    };
    send(1);
    send(2);
    const heard: number[] = [];
    port.listen((m) => heard.push(m));
    send(3);
    expect(heard).toEqual([1, 2, 3]);
    port.post('answer');
    expect(posted).toEqual(['answer']);
  });
});
