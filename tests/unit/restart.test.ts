/** A simulation that throws, is silent, or takes long: it is restarted with the bench as it stood, or stopped, and said in a sentence; the queue goes on. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { type Change, partLookup, setLabel } from '../../sim-core/index.ts';
import { type LineSetting, type LiveBench, liveBench } from '../support/live-bench.ts';
import { expectOneSentence } from '../support/one-sentence.ts';
import { ledPlan } from '../support/plans.ts';

const supply = (live: LiveBench, on: boolean) => live.session.act({ do: 'set', part: 'PS1', pole: 0, closed: on });
const amps = ({ session }: LiveBench) => session.readings?.leds[0]?.amps ?? Number.NaN;
const codes = (live: LiveBench) => live.refused.map((f) => f.code);
function change({ session }: LiveBench, text: string): Change {
  const made = setLabel({ plan: session.plan!, layout: session.model!.layout, kinds: partLookup }, 'LED1', text);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
}
const label = ({ session }: LiveBench) => session.plan?.parts.find((p) => p.id === 'LED1')?.label;
const plan = (over: object = {}) => ({ ...ledPlan(330), ...over });

async function opened(line: LineSetting): Promise<LiveBench> {
  const live = liveBench(line);
  expect(await live.open(plan())).toBe(true);
  return live;
}

describe.each([
  ['throws', 'page/simulation-error', /^The simulation failed with an error and was restarted: your last action was not done/],
  ['silent', 'page/simulation-silent', /^The simulation gave no answer for 15 s and was restarted: your last action was not done/],
] as const)('a worker that %s', (failure, code, says) => {
  test('at an act is restarted: the bench, its switches and its supply are as before, and it answers to the next act', async () => {
    let broken = true;
    const live = await opened({ fails: ({ ask }) => (broken && ask === 'act' ? failure : undefined) });
    const before = live.session.plan;
    supply(live, false);
    live.clock.pass(17_000);
    expect(codes(live)).toEqual([code]);
    expectOneSentence(live.refused[0]!);
    expect(live.refused[0]!.says).toMatch(says);
    expect([live.session.plan, live.session.status]).toEqual([before, 'live']);
    expect(amps(live)).toBeGreaterThan(5e-3);
    broken = false;
    supply(live, false);
    live.clock.pass(100);
    expect(amps(live)).toBeLessThan(1e-9);
  });

  test('at an edit is restarted: the edit is taken off the bench and off its history, and those that waited behind it too', async () => {
    const live = await opened({ fails: ({ ask }, worker) => (worker === 1 && ask === 'edit' ? failure : undefined) });
    live.session.edit(change(live, 'one'));
    live.session.edit(change(live, 'two'));
    expect(label(live)).toBe('two');
    live.clock.pass(17_000);
    expect([label(live), live.session.history.changes]).toEqual([undefined, []]);
    expect(codes(live)).toEqual([code]);
    live.session.edit(change(live, 'three'));
    live.clock.pass(100);
    expect([label(live), live.session.history.changes.length]).toEqual(['three', 1]);
  });

  test('as it opens a plan is restarted with the bench before; whoever waits for the plan is answered, and so is the next', async () => {
    const live = await opened({ fails: (ask) => (ask.ask === 'open' && ask.text.includes('Bad') ? failure : undefined) });
    const stands = Promise.all(['Bad', 'Good'].map((title) => live.session.open(JSON.stringify(plan({ title })))));
    live.clock.pass(17_000);
    expect(codes(live)).toEqual([code]);
    expect(live.refused[0]!.says).toMatch(/^The plan was not opened: .* The bench before it was restarted\.$/);
    expect(await stands).toEqual([false, false]);
    const again = live.session.open(JSON.stringify(plan({ title: 'Good' })));
    live.clock.pass(100);
    expect([await again, live.session.plan?.title]).toEqual([true, 'Good']);
  });

  test('before any bench stands answers whoever waits, and the next plan opens', async () => {
    const live = liveBench({ fails: (ask) => (ask.ask === 'open' && ask.text.includes('Bad') ? failure : undefined) });
    const bad = live.session.open(JSON.stringify(plan({ title: 'Bad' })));
    live.clock.pass(17_000);
    expect([await bad, codes(live)]).toEqual([false, [code]]);
    expect(await live.open(plan())).toBe(true);
  });

  test('again and again on the same plan is not restarted for ever: that is said, and an undo simulates it again', async () => {
    const workers = new Set<number>();
    const live = await opened({
      fails: (ask, worker) => {
        workers.add(worker);
        const bad = (ask.ask === 'open' && ask.text.includes('"bad"')) || (ask.ask === 'act' && label(live) === 'bad');
        return bad ? failure : undefined;
      },
    });
    live.session.edit(change(live, 'bad'));
    live.clock.pass(100);
    supply(live, false);
    live.clock.pass(60_000);
    expect([workers.size, live.session.status]).toEqual([2, 'failed']);
    expect(codes(live)).toEqual([code, code]);
    expect(live.refused[1]!.says).toMatch(/again on this bench and is off: undo the last change, or open another bench\.$/);
    supply(live, false);
    expect(codes(live).at(-1)).toBe('page/not-simulated');
    live.session.tryAgain();
    live.clock.pass(60_000);
    expect(live.session.status).toBe('failed');
    live.session.undo();
    live.clock.pass(100);
    expect([live.session.status, label(live), live.session.history.at]).toEqual(['live', undefined, 0]);
    supply(live, false);
    live.clock.pass(100);
    expect(amps(live)).toBeLessThan(1e-9);
  });
});

test('an error that nobody asked for, as in a tick, restarts once and not for ever', async () => {
  const live = await opened({ fails: ({ ask }, worker) => (ask === 'why' && worker < 9 ? 'throws' : undefined) });
  live.session.why('LED1');
  live.clock.pass(60_000);
  expect(codes(live)).toEqual(['page/simulation-error', 'page/simulation-error']);
  expect(live.session.status).toBe('failed');
  // the question is what it failed at
  live.session.tryAgain();
  live.clock.pass(100);
  expect(live.session.status).toBe('live');
});

test('what was asked of every bench is asked of the next worker too', async () => {
  const live = await opened({ fails: ({ ask }, worker) => (ask === 'act' && worker === 1 ? 'throws' : undefined) });
  const said: string[] = [];
  live.session.on('why', ({ about }) => said.push(about));
  live.session.why('LED1');
  live.clock.pass(100);
  said.length = 0;
  supply(live, false);
  live.clock.pass(100);
  expect(said).toContain('LED1');
});

test('a page that slept does not take that for silence', async () => {
  const live = await opened({});
  supply(live, false);
  live.clock.spend(60_000);
  live.clock.pass(100);
  expect([live.refused, live.session.status]).toEqual([[], 'live']);
  expect(amps(live)).toBeLessThan(1e-9);
});

describe('an act that takes long', () => {
  const greenhouse = demoPlan('greenhouse')!;
  const lit = ({ session }: LiveBench) => session.readings?.leds.filter((l) => l.brightness === 'lit').length;
  /** A bench whose worker's machine takes so long from one look at the clock to the next. */
  async function slowBench(fails: LineSetting['fails'] = () => undefined) {
    let ms = 0;
    const live = liveBench({ workMs: () => ms, fails });
    await live.open(greenhouse);
    live.clock.pass(1000);
    const seen: string[] = [];
    live.session.on('status', (status) => seen.push(status));
    const slow = (next: number) => {
      ms = next;
    };
    return { live, seen, slow };
  }
  const isComputing = (live: LiveBench) => expect(live.session.status).toBe('computing');

  test('is told after a second, is not ended as silent, and ends as it does on a fast machine', async () => {
    const { live, seen, slow } = await slowBench();
    slow(900);
    supply(live, true);
    live.clock.pass(3000);
    isComputing(live);
    live.clock.pass(600_000);
    slow(0);
    live.clock.pass(1000);
    expect([live.refused, seen]).toEqual([[], ['computing', 'live']]);
    const fast = liveBench();
    await fast.open(greenhouse);
    supply(fast, true);
    fast.clock.pass(1000);
    expect(lit(live)).toBe(lit(fast));
    expect(lit(live)).toBeGreaterThan(0);
  });

  test('can be stopped: the bench is where it is then, and goes on from there', async () => {
    const { live, slow } = await slowBench();
    slow(900);
    supply(live, true);
    live.clock.pass(3000);
    isComputing(live);
    live.session.stop();
    live.clock.pass(3000);
    slow(0);
    live.clock.pass(1000);
    expect(codes(live)).toEqual(['page/action-stopped']);
    expectOneSentence(live.refused[0]!);
    expect([live.session.status, live.session.plan?.switches.PS1]).toEqual(['live', [true]]);
    live.clock.pass(60_000);
    expect(lit(live)).toBeGreaterThan(0);
  });

  test('whose worker does not hear that it should stop is ended with it within a second, and the bench is as before the act', async () => {
    const { live } = await slowBench(({ ask }, worker) => (worker === 1 && ask === 'act' ? 'silent' : undefined));
    supply(live, true);
    live.clock.pass(1500);
    isComputing(live);
    live.session.stop();
    live.clock.pass(1100);
    expect(codes(live)).toEqual(['page/simulation-stopped']);
    expect(live.refused[0]!.says).toMatch(/^The simulation did not stop when asked and was restarted: your last action was not done/);
    live.clock.pass(100);
    expect([live.session.status, live.session.plan?.switches.PS1]).toEqual(['live', greenhouse.switches.PS1]);
  });

  test('a stop while nothing is under way does nothing, then or later', async () => {
    const { live, seen } = await slowBench();
    live.session.stop();
    live.clock.pass(15_000);
    supply(live, false);
    live.clock.pass(15_000);
    expect([live.refused, seen]).toEqual([[], []]);
  });
});
