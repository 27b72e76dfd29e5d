/** Long work in a worker of its own: one job at a time, with progress, ended when it is not wanted any more, and shared among workers where that pays. */
import { describe, expect, test } from 'vitest';
import { seeAll } from '../../client/worker/all-rows.ts';
import { JobClient } from '../../client/worker/job-client.ts';
import { createJobLoop } from '../../client/worker/job-worker.ts';
import type { Job, JobMessage, JobWorker } from '../../client/worker/jobs.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { FakeClock } from '../support/fake-clock.ts';
import { wideBuild } from '../support/wide-build.ts';

const greenhouse = demoPlan('greenhouse')!;
/** of twelve inputs */
const PARITY = Array.from({ length: 4096 }, (_, row) => [...row.toString(2)].filter((bit) => bit === '1').length % 2);
const blank = demoPlan('greenhouse-blank')!;

/** A worker that does what it is asked for, in this thread; its answers come later, as copies. */
class OwnWorker implements JobWorker {
  onmessage: JobWorker['onmessage'] = null;
  onerror: JobWorker['onerror'] = null;
  ended = false;
  readonly jobs: Job[] = [];
  private hear: (job: Job) => void = () => {};

  constructor(private readonly deaf = false) {
    const clock = new FakeClock();
    createJobLoop({
      port: { post: (message) => this.answer(message), listen: (hear) => this.take(hear) },
      // each look at the clock finds it a second later, so that all progress is told
      clock: {
        now() {
          clock.spend(1000);
          return clock.now();
        },
        after: clock.after.bind(clock),
      },
      helpers: { cores: 1, start: () => undefined },
      fail: () => this.onerror?.call(this as never, {} as ErrorEvent),
    });
  }
  private take(hear: (job: Job) => void): void {
    this.hear = hear;
  }
  postMessage(job: unknown): void {
    this.jobs.push(job as Job);
    if (!this.deaf) this.hear(structuredClone(job as Job));
  }
  terminate(): void {
    this.ended = true;
  }
  private answer(message: JobMessage): void {
    const copy = structuredClone(message);
    setImmediate(() => !this.ended && this.onmessage?.call(this as never, { data: copy } as MessageEvent<JobMessage>));
  }
}

function client(make: () => OwnWorker = () => new OwnWorker()) {
  const workers: OwnWorker[] = [];
  const progress: number[] = [];
  const clock = new FakeClock();
  const jobs = new JobClient(
    (part) => progress.push(part),
    () => {
      const worker = make();
      workers.push(worker);
      return worker;
    },
    clock,
  );
  return { jobs, workers, progress, clock };
}

describe('a job', () => {
  test('of each kind that a bench can be asked for is answered', async () => {
    const { jobs, workers } = client();
    const plan = greenhouse;
    expect((await jobs.begin({ job: 'prove', plan }))?.ok).toBe(true);
    expect((await jobs.begin({ job: 'shown', plan }))?.ok).toBe(true);
    expect((await jobs.begin({ job: 'card', plan: blank }))?.ok).toBe(true);
    expect((await jobs.begin({ job: 'sheet', plan }))?.ok).toBe(true);
    expect((await jobs.begin({ job: 'rules', inputs: ['a', 'b'], outputs: ['y'], text: 'y = a and b' }))?.ok).toBe(true);
    const { wanted: _, ...unasked } = plan;
    expect((await jobs.begin({ job: 'start', plan: unasked }))?.ok).toBe(true);
    // one worker for all of them, one after the other
    expect(workers).toHaveLength(1);
    expect(jobs.busy).toBe(false);
  });

  test('shows what every row shows, as the proof of it says', async () => {
    const { jobs } = client();
    const shown = await jobs.begin({ job: 'shown', plan: greenhouse });
    if (!shown?.ok) throw new Error('It was not answered.');
    expect([...shown.value.value]).toEqual(greenhouse.wanted!.rows);
    expect(shown.value.inputs).toHaveLength(greenhouse.wanted!.inputs.length);
  });

  test('finds the edit that makes every row right, and says how far it has come', async () => {
    const { jobs, progress } = client();
    const plan = { ...greenhouse, parts: greenhouse.parts.map((p) => (p.id === 'LED3' ? { ...p, at: p.to!, to: p.at! } : p)) };
    const found = await jobs.begin({ job: 'repair', plan });
    if (!found?.ok) throw new Error('It was not answered.');
    expect(found.value.repairs.map((r) => r.says)).toEqual(['Reverse LED3.']);
    expect(found.value.heading).toBe('Every row is right after this:');
    expect(progress.length).toBeGreaterThan(1);
    expect(progress.every((p, i) => p >= (progress[i - 1] ?? 0) && p <= 1)).toBe(true);
    expect((await jobs.begin({ job: 'repair', plan: greenhouse }))?.ok).toBe(true);
  });

  test('that is not wanted any more ends with its worker, and the next one has another', async () => {
    const { jobs, workers } = client(() => new OwnWorker(true));
    const first = jobs.begin({ job: 'prove', plan: greenhouse });
    expect(jobs.busy).toBe(true);
    const second = jobs.begin({ job: 'card', plan: greenhouse });
    expect(await first).toBeUndefined();
    expect(workers.map((w) => w.ended)).toEqual([true, false]);
    jobs.end();
    expect(await second).toBeUndefined();
    expect(jobs.busy).toBe(false);
    jobs.end();
  });

  test('whose worker fails is answered with a sentence, and the next one has another', async () => {
    const { jobs, workers } = client(() => new OwnWorker(true));
    const lost = jobs.begin({ job: 'prove', plan: greenhouse });
    workers[0]!.onerror?.call(workers[0] as never, {} as ErrorEvent);
    expect(await lost).toMatchObject({ ok: false, failure: { code: 'page/job-error', at: 'prove' } });
    expect([workers[0]!.ended, jobs.busy]).toEqual([true, false]);
    void jobs.begin({ job: 'prove', plan: greenhouse });
    expect(workers).toHaveLength(2);
    jobs.end();
  });

  test('whose worker is silent for a minute is ended with a sentence, and one that tells its progress is not', async () => {
    const { jobs, workers, clock } = client(() => new OwnWorker(true));
    const lost = jobs.begin({ job: 'prove', plan: greenhouse });
    clock.pass(50_000);
    workers[0]!.onmessage?.call(workers[0] as never, { data: { part: 0.5 } } as MessageEvent<JobMessage>);
    clock.pass(50_000);
    expect([workers[0]!.ended, jobs.busy]).toEqual([false, true]);
    clock.pass(10_000);
    expect(await lost).toMatchObject({ ok: false, failure: { code: 'page/job-silent', at: 'prove' } });
    expect([workers[0]!.ended, jobs.busy, clock.waiting]).toEqual([true, false, 0]);
  });

  test('of a page that is left takes its worker along', async () => {
    const { jobs, workers } = client();
    await jobs.begin({ job: 'card', plan: greenhouse });
    jobs.close();
    expect(workers[0]!.ended).toBe(true);
  });
});

describe('all rows of a bench', () => {
  /** 4 096 rows */
  const wide = wideBuild({
    inputs: Array.from({ length: 12 }, (_, i) => `in ${i}`),
    outputs: [{ name: 'y' }],
    rows: PARITY,
    memory: 'eeprom-8kx8',
    buffered: false,
  });
  const seen = async (plan: typeof wide, cores: number) => {
    const workers: OwnWorker[] = [];
    const start = () => {
      workers.push(new OwnWorker());
      return workers.at(-1);
    };
    const all = await seeAll(plan, { cores, start }, () => {});
    if (!all.ok) throw new Error(all.failure.says);
    return { ...all.value, shares: workers.map((w) => w.jobs.length) };
  };
  test('are seen by one worker where they are solved without events', async () => {
    const { shares, shown, proof } = await seen(wide, 4);
    expect([shares, [...shown], proof.right]).toEqual([[], PARITY, 4096]);
  });
  test('come out the same alone and shared among as many workers as pay, where each needs the event engine', async () => {
    const real = { ...wide, wiring: 'real' as const };
    const [two, one] = [await seen(real, 4), await seen(real, 1)];
    expect([two.shares, one.shares]).toEqual([[1], []]);
    expect(two.shown).toEqual(one.shown);
    expect(two.proof).toEqual(one.proof);
    expect(one.proof.right).toBe(4096);
  });
});
