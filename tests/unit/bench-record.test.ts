/** The record of a bench: what was watched is in the dump as an independent reader finds it, at the moments at which it happened; triggers; edits go on in it. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { BenchRecord, FINGER, type RecordOptions, readTrigger, recordCsv, recordVcd, type Simulation } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';
import { readVcd } from '../support/vcd.ts';

const BUTTON = 'S4';

/** The greenhouse that is still to be written: switched on, its data set, and a byte written by hand. */
function written(words: readonly string[], options: RecordOptions = {}): { sim: Simulation; record: BenchRecord } {
  const sim = start(demoPlan('greenhouse-blank')!);
  const made = BenchRecord.of(words, sim.circuit, options);
  if (!made.ok) throw new Error(made.failure.says);
  sim.tell(made.value);
  sim.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
  sim.wait(0.01);
  sim.act({ do: 'set', part: 'S3', pole: 0, closed: true });
  for (const pole of [0, 2, 4, 6]) sim.act({ do: 'set', part: 'S2', pole, closed: true });
  sim.act({ do: 'press', part: BUTTON });
  sim.wait(FINGER);
  sim.act({ do: 'release', part: BUTTON });
  return { sim, record: made.value };
}

const value = <T>(outcome: { ok: true; value: T } | { ok: false; failure: { says: string } }): T => {
  if (!outcome.ok) throw new Error(outcome.failure.says);
  return outcome.value;
};
const trigger = (text: string) => value(readTrigger(text));

describe('a dump', () => {
  const { record, sim } = written(['U1./WE', 'U1.D', 'U1', 'LED1', 'PS1']);
  const dump = readVcd(value(recordVcd(record)));
  const named = (name: string) => dump.signals.get(name) ?? [];

  test('has every signal under a name of its own', () => {
    expect([...dump.signals.keys()]).toEqual(
      expect.arrayContaining([
        'U1.WE_n',
        'U1.WE_n_volts',
        'U1.D',
        'U1.D0',
        'U1.D7_volts',
        'U1.state',
        'LED1.current_amps',
        'PS1.current_amps',
      ]),
    );
    expect(dump.signals.size).toBe(record.all.length);
  });

  test('has the strobe at the moments that the memory reports, to a picosecond', () => {
    const report = sim.events.find((e) => e.outcome === 'stored');
    if (!report) throw new Error('no byte was stored');
    const from = record.window!.from;
    const falls = named('U1.WE_n')
      .filter((c) => c.value === '0')
      .map((c) => from + c.tick * dump.picoseconds * 1e-12);
    expect(Math.min(...falls.map((t) => Math.abs(t - report.time)))).toBeLessThan(2e-12);
  });

  test('has a bus whose bits are those of its pins', () => {
    const at = (name: string, tick: number) => named(name).findLast((c) => c.tick <= tick)?.value;
    const ticks = named('U1.D').map((c) => c.tick);
    expect(ticks.length).toBeGreaterThan(3);
    for (const tick of ticks) {
      const bits = Array.from({ length: 8 }, (_, i) => at(`U1.D${7 - i}`, tick))
        .join('')
        .replaceAll('z', 'x');
      expect(at('U1.D', tick)).toBe(bits);
    }
  });

  test('has the memory storing between its strobe and the end of the write cycle', () => {
    const storing = named('U1.state').filter((c) => Number.parseInt(c.value, 2) === 5);
    expect(storing.length).toBeGreaterThan(0);
  });
});

describe('two names that come out alike', () => {
  test('are numbered in the dump', () => {
    const { record } = written(['B1:+a1', 'B1:-a1']);
    const names = [...readVcd(value(recordVcd(record))).signals.keys()];
    expect(new Set(names).size).toBe(record.all.length);
  });
});

describe('a trigger', () => {
  test.each([
    ['U1./WE falls', 1e-6, 2e-6],
    ['U1./WE high', 0, 1e-6],
    ['U1.D = 0x55', 0, 1],
    ['U1./WE low shorter than 1us', 1e-6, 0],
  ])('"%s" leaves so much before and after it', (text, before, after) => {
    const { record } = written(['U1./WE'], { trigger: trigger(text), before, after });
    const { triggered, window } = record;
    expect(triggered).toBeGreaterThan(0);
    expect(window!.from).toBeGreaterThanOrEqual(triggered! - before);
    expect(window!.until).toBeLessThanOrEqual(triggered! + after);
    expect(window!.until).toBeGreaterThan(window!.from - 1e-15);
  });

  test('that never comes leaves nothing, and says so', () => {
    const { record } = written(['U1./WE'], { trigger: trigger('U1./WE low longer than 1s') });
    expect(record.triggered).toBeUndefined();
    expect([recordVcd(record), recordCsv(record)]).toMatchObject(Array(2).fill({ ok: false, failure: { code: 'record/not-triggered' } }));
  });

  test('on a finding comes when it is told of it', () => {
    const { record, sim } = written(['U1./WE'], { trigger: trigger('finding led/dim') });
    record.found('led/reversed', sim.now);
    expect(record.triggered).toBeUndefined();
    record.found('led/dim', sim.now);
    expect(record.triggered).toBe(sim.now);
  });

  test.each([['U1./WE'], ['LED1 rises'], ['U1.D falls'], ['U1./WE = 3'], ['U9.D3 rises']])('"%s" is refused with a sentence', (text) => {
    const read = readTrigger(text);
    const { circuit } = start(demoPlan('greenhouse-blank')!);
    const made = read.ok ? BenchRecord.of(['U1'], circuit, { trigger: read.value }) : read;
    expect(made).toMatchObject({ ok: false, failure: { code: expect.stringMatching(/^record\//), says: expect.stringMatching(/\.$/) } });
  });
});

test('a table has a line for every moment at which something moved, with the extremes of what was made coarser', () => {
  const { record } = written(['U1./WE', 'LED1'], { room: 16 });
  const [head = '', ...lines] = value(recordCsv(record)).trimEnd().split('\n');
  expect(head).toBe(
    'time [s],U1./WE,U1./WE [V],U1./WE [V] least,U1./WE [V] most,LED1.current [A],LED1.current [A] least,LED1.current [A] most',
  );
  const rows = lines.map((l) => l.split(',').map(Number));
  expect(rows.every((r, i) => i === 0 || r[0]! > rows[i - 1]![0]!)).toBe(true);
  const most = Math.max(...rows.flatMap((r) => [r[2]!, r[4]!]));
  expect(most).toBeGreaterThan(4.5);
  expect(lines.some((l) => l.split(',')[3] !== '')).toBe(true);
});

test('an edit goes on in the same record: a wire that is taken away and put back', () => {
  const sim = start(demoPlan('greenhouse')!);
  const record = value(BenchRecord.of(['LED1', 'PS1'], sim.circuit));
  sim.tell(record);
  sim.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
  const index = sim.plan().wires.findIndex((w) => w.from === 'PS1.+' || w.to === 'PS1.+');
  const item = sim.plan().wires[index]!;
  sim.act({ do: 'edit', change: { op: 'remove', list: 'wires', item, index } });
  const supply = record.all.find((r) => r.signal.of === 'PS1')!.track;
  const last = () => supply.at(supply.length - 1).last;
  expect(Math.abs(last())).toBeLessThan(1e-6);
  sim.act({ do: 'edit', change: { op: 'insert', list: 'wires', item, index } });
  expect(last()).toBeGreaterThan(1e-3);
});

test('a bench that is recorded does what it does without', () => {
  const { sim } = written(['U1', 'U1.A', 'LED1']);
  const alone = start(demoPlan('greenhouse-blank')!);
  alone.act({ do: 'set', part: 'PS1', pole: 0, closed: true });
  alone.wait(0.01);
  alone.act({ do: 'set', part: 'S3', pole: 0, closed: true });
  for (const pole of [0, 2, 4, 6]) alone.act({ do: 'set', part: 'S2', pole, closed: true });
  alone.act({ do: 'press', part: BUTTON });
  alone.wait(FINGER);
  alone.act({ do: 'release', part: BUTTON });
  expect(JSON.stringify([sim.plan(), sim.readings(), sim.events])).toBe(JSON.stringify([alone.plan(), alone.readings(), alone.events]));
});
