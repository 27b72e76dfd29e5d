/** The page's side of the live bench with its worker, driven without a browser: what a hand does reaches the readings, and edits run ahead of the worker. */
import { describe, expect, test } from 'vitest';
import { makeSharedSnapshot, putIn } from '../../client/worker/shared-snapshot.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Outcome } from '../../shared/outcome.ts';
import { storing } from '../../sim-core/document/memory-writes.ts';
import { addWire, type Change, type EditContext, partLookup, remove, setLabel } from '../../sim-core/index.ts';
import { type LineSetting, type LiveBench, liveBench } from '../support/live-bench.ts';
import { ledPlan, ramPlan } from '../support/plans.ts';

/** One edit of the bench as it stands on the page. */
function edit({ session }: LiveBench, make: (ground: EditContext) => Outcome<Change>) {
  const change = make({ plan: session.plan!, layout: session.model!.layout, kinds: partLookup });
  if (!change.ok) throw new Error(change.failure.says);
  return session.edit(change.value);
}
const label = (text: string) => (ground: EditContext) => setLabel(ground, 'LED1', text);
const labelOf = ({ session }: LiveBench) => session.model?.plan.parts.find((p) => p.id === 'LED1')?.label;
const amps = ({ session }: LiveBench) => session.readings?.leds[0]?.amps ?? Number.NaN;
const supply = (live: LiveBench, on: boolean) => live.session.act({ do: 'set', part: 'PS1', pole: 0, closed: on });
async function opened(plan = ledPlan(330), line: LineSetting = {}): Promise<LiveBench> {
  const live = liveBench(line);
  expect(await live.open(plan)).toBe(true);
  return live;
}

describe('a flip', () => {
  test('reaches the readings: the LED carries nothing with its supply off and milliamperes with it on', async () => {
    const live = await opened(ledPlan(330, false));
    expect(amps(live)).toBeLessThan(1e-9);
    supply(live, true);
    live.clock.pass(3);
    expect(amps(live)).toBeGreaterThan(5e-3);
    expect(live.session.plan?.switches.PS1).toEqual([true]);
  });

  test('is answered with readings first, then with where the switches stand, and with findings last', async () => {
    const live = await opened(ledPlan(330, false));
    const before = live.told.length;
    supply(live, true);
    live.clock.pass(100);
    const kinds = live.told.slice(before).map((t) => t.tell);
    expect(kinds.slice(0, 2)).toEqual(['readings', 'switches']);
    expect(kinds.at(-1)).toBe('findings');
  });

  test('of a part that is not there is refused in a sentence, and the bench goes on', async () => {
    const live = await opened();
    live.session.act({ do: 'set', part: 'PS9', pole: 0, closed: true });
    live.clock.pass(5);
    expect(live.refused).toHaveLength(1);
    supply(live, false);
    live.clock.pass(5);
    expect(amps(live)).toBeLessThan(1e-9);
  });

  test('is drawn from shared memory in the next frame where messages come late, and its message draws it no second time', async () => {
    const live = await opened(ledPlan(330, false), { box: new SharedArrayBuffer(12 + 4_000_000), toPage: 40 });
    live.clock.pass(1000);
    const drawn: number[] = [];
    live.session.on('readings', (r) => drawn.push(r.leds[0]?.amps ?? Number.NaN));
    supply(live, true);
    live.clock.pass(20);
    expect(drawn).toHaveLength(1);
    expect(drawn[0]).toBeGreaterThan(5e-3);
    const { number } = live.told.findLast((t) => t.tell === 'readings')!;
    live.clock.pass(100);
    expect(live.told.findLast((t) => t.tell === 'readings')?.number).toBe(number);
    expect(drawn).toHaveLength(1);
  });

  test('is not drawn from readings of a bench that stood before, however new they are: they have other nets', async () => {
    const box = new SharedArrayBuffer(12 + 4_000_000);
    const live = await opened(ledPlan(330, false), { box });
    live.clock.pass(1000);
    const { number, edition, readings } = live.told.findLast((t) => t.tell === 'readings')!;
    const drawn: number[] = [];
    live.session.on('readings', (r) => drawn.push(r.time));
    putIn(box, { number: number + 5, edition: edition - 1, readings: { ...readings, time: -1 } });
    // the frame comes before the worker has heard of it
    live.clock.spend(16);
    supply(live, true);
    live.clock.pass(0.7);
    expect(drawn).toEqual([]);
    live.clock.pass(100);
    expect(drawn).not.toContain(-1);
  });

  test('is followed by words only after a paint, and a bench that changes by itself is followed no more than four times a second', async () => {
    const live = await opened(ledPlan(330, false));
    let settled = 0;
    live.session.on('settled', () => {
      settled += 1;
    });
    live.clock.pass(1000);
    supply(live, true);
    live.clock.pass(2);
    expect(settled).toBe(0);
    live.clock.pass(40);
    expect(settled).toBeGreaterThan(0);
  });
});

describe('an edit', () => {
  test('is shown at once, before the worker has heard of it, and is confirmed when it answers', async () => {
    const live = await opened();
    edit(live, label('porch'));
    expect(labelOf(live)).toBe('porch');
    expect(live.session.history.at).toBe(1);
    live.clock.pass(100);
    expect(labelOf(live)).toBe('porch');
    const made = live.told.filter((t) => t.tell === 'bench' && typeof t.after === 'object');
    expect(made).toHaveLength(1);
  });

  test('of each of ten in a row reaches the worker, in their order', async () => {
    const live = await opened();
    for (let i = 1; i <= 10; i++) edit(live, label(`name ${i}`));
    expect(labelOf(live)).toBe('name 10');
    live.clock.pass(200);
    const made = live.told.flatMap((t) => (t.tell === 'bench' && typeof t.after === 'object' ? [t.plan.parts] : []));
    expect(made.map((parts) => parts.find((p) => p.id === 'LED1')?.label)).toEqual(Array.from({ length: 10 }, (_, i) => `name ${i + 1}`));
    expect(labelOf(live)).toBe('name 10');
    expect(live.session.history.at).toBe(10);
  });

  test('holds readings back until the worker has made it: those of the bench before would be drawn on another', async () => {
    const live = await opened();
    const drawn: number[] = [];
    live.session.on('readings', (r) => drawn.push(r.nets.length));
    const before = live.session.model!.nets.all.length;
    supply(live, true);
    edit(live, (g) => addWire(g, 'a20', 'a25', 'red'));
    const now = live.session.model!.nets.all.length;
    expect(now).not.toBe(before);
    live.clock.pass(100);
    expect(drawn.length).toBeGreaterThan(0);
    expect(new Set(drawn)).toEqual(new Set([now]));
  });

  test('takes an LED out and undo puts it back, redo takes it out again; the worker follows', async () => {
    const live = await opened();
    const leds = () => [live.session.model?.leds.length, live.session.readings?.leds.length];
    edit(live, (g) => remove(g, ['LED1']));
    live.clock.pass(50);
    expect(leds()).toEqual([0, 0]);
    live.session.undo();
    live.clock.pass(50);
    expect(leds()).toEqual([1, 1]);
    expect(amps(live)).toBeGreaterThan(5e-3);
    live.session.redo();
    live.clock.pass(50);
    expect(leds()).toEqual([0, 0]);
    expect([live.session.history.at, live.session.history.changes.length]).toEqual([1, 1]);
  });

  test('undone with nothing done before changes nothing and asks the worker nothing', async () => {
    const live = await opened();
    const before = live.told.length;
    live.session.undo();
    live.session.redo();
    live.clock.pass(100);
    expect(live.told.length).toBe(before);
    expect(live.refused).toEqual([]);
  });

  test('that cannot be is refused on the page, and what is shown stays', async () => {
    const live = await opened();
    const made = addWire({ plan: live.session.plan!, layout: live.session.model!.layout, kinds: partLookup }, 'a20', 'a25', 'red');
    if (!made.ok) throw new Error(made.failure.says);
    live.session.edit(made.value);
    live.session.edit(made.value);
    expect(live.refused).toHaveLength(1);
    expect(live.session.plan?.wires).toHaveLength(3);
    live.clock.pass(100);
    expect(live.session.plan?.wires).toHaveLength(3);
  });

  test('made while an LED burns out is laid on the damaged bench: both are there in the end, on page and worker', async () => {
    const live = await opened(ledPlan(1, false));
    supply(live, true);
    while (!live.told.some((t) => t.tell === 'bench' && t.after === 'wear')) live.clock.pass(1);
    // the worker's word of the damage is under way
    edit(live, label('porch'));
    live.clock.pass(200);
    const led = live.session.plan?.parts.find((p) => p.id === 'LED1');
    expect(led?.label).toBe('porch');
    expect(led?.damaged?.by).toBeDefined();
    expect(live.session.history.at).toBe(1);
    live.session.undo();
    live.clock.pass(200);
    const after = live.session.plan?.parts.find((p) => p.id === 'LED1');
    expect([after?.label, after?.damaged?.by]).toEqual([undefined, led?.damaged?.by]);
  });

  test('that stores bytes in a memory that forgets, with its supply off, is refused before anything is lost', async () => {
    const live = await opened(ramPlan(false));
    const lost = edit(live, (g) => ({ ok: true, value: storing(g.plan, 'U1', { '000': '5A' }) }));
    expect(lost?.at).toBe('U1');
    expect(live.session.history.at).toBe(0);
    supply(live, true);
    live.clock.pass(100);
    expect(edit(live, (g) => ({ ok: true, value: storing(g.plan, 'U1', { '000': '5A' }) }))).toBeUndefined();
    live.clock.pass(100);
    expect(live.session.memories.U1?.['000']).toMatch(/^5A/);
  });
});

describe('another bench', () => {
  test('drops the edits that wait for this one: none of them is made on it, nor on the other', async () => {
    const live = await opened();
    for (const name of ['one', 'two', 'three']) edit(live, label(name));
    const other = ledPlan(470);
    const stands = live.session.open(JSON.stringify({ ...other, title: 'Another' }));
    live.clock.pass(200);
    expect(await stands).toBe(true);
    const labels = live.told.flatMap((t) => (t.tell === 'bench' ? [t.plan.parts.find((p) => p.id === 'LED1')?.label] : []));
    // the first was at the worker already; two and three were not
    expect(labels).toEqual([undefined, 'one', undefined]);
    expect([live.session.plan?.title, labelOf(live), live.session.history.at]).toEqual(['Another', undefined, 0]);
    edit(live, label('four'));
    live.clock.pass(100);
    expect(live.told.findLast((t) => t.tell === 'bench')?.plan.parts.find((p) => p.id === 'LED1')?.label).toBe('four');
  });

  test('that is refused leaves this one as it stands, its history too', async () => {
    const live = await opened();
    edit(live, label('porch'));
    live.clock.pass(50);
    const stands = live.session.open('{"format":"lampwright-plan"}');
    live.clock.pass(50);
    expect(await stands).toBe(false);
    expect([labelOf(live), live.session.history.at, live.refused.length]).toEqual(['porch', 1, 1]);
  });

  test('of two that are asked for at once each is answered for itself, and the last stands', async () => {
    const live = await opened();
    const first = live.session.open('no plan');
    const second = live.session.open(JSON.stringify({ ...ledPlan(470), title: 'Second' }));
    live.clock.pass(100);
    expect([await first, await second]).toEqual([false, true]);
    expect(live.session.plan?.title).toBe('Second');
  });

  test('takes its history along, so that undo reaches before its opening', async () => {
    const live = await opened();
    edit(live, label('porch'));
    live.clock.pass(50);
    const { plan, history } = live.session;
    const again = liveBench();
    const stands = again.session.open(JSON.stringify(plan), history);
    again.clock.pass(100);
    expect(await stands).toBe(true);
    again.session.undo();
    again.clock.pass(100);
    expect(labelOf(again)).toBeUndefined();
  });
});

describe('what the worker tells', () => {
  test('of the pins of memories and of why an LED is lit reaches whoever listens', async () => {
    const live = liveBench();
    const heard = { why: '', pins: 0 };
    live.session.on('why', (why) => {
      heard.why = why.about;
    });
    live.session.on('pins', () => {
      heard.pins += 1;
    });
    await live.open(demoPlan('greenhouse')!);
    expect(live.session.pins.length).toBeGreaterThan(0);
    const led = live.session.model!.leds[0]!.led;
    live.session.why(led);
    live.clock.pass(5);
    expect(heard).toEqual({ why: led, pins: 1 });
    expect(live.session.findings.length).toBeGreaterThanOrEqual(0);
  });

  test('ends for whoever has stopped listening', async () => {
    const live = await opened(ledPlan(330, false));
    let heard = 0;
    const off = live.session.on('readings', () => {
      heard += 1;
    });
    supply(live, true);
    live.clock.pass(5);
    const then = heard;
    expect(then).toBeGreaterThan(0);
    off();
    supply(live, false);
    live.clock.pass(50);
    expect(heard).toBe(then);
  });

  test('in shared memory needs a page that may share it', () => {
    expect(makeSharedSnapshot()).toBeUndefined();
  });
});
