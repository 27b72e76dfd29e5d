/** What the panel looks for on copies of the bench: the check once the bench is left alone, and a repair that can be stopped and belongs to its bench. */
// @vitest-environment happy-dom
import { afterEach, describe, expect, test, vi } from 'vitest';
import '../../client/panel/build/repair-view.ts';
import type { RepairView } from '../../client/panel/build/repair-view.ts';
import { IdleCheck } from '../../client/panel/idle-check.ts';
import type { Job } from '../../client/worker/jobs.ts';
import { wholeCheck } from '../../client/worker/whole-check.ts';
import { checkPlan } from '../../server/check/check-plan.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { counterClocked } from '../../sim-core/findings/example-benches.ts';
import { plain, SEVERITIES } from '../../sim-core/index.ts';
import { planOf } from '../support/bench.ts';
import { FakeClock } from '../support/fake-clock.ts';

const greenhouse = demoPlan('greenhouse')!;

describe('the check of the whole bench', () => {
  function idle() {
    const clock = new FakeClock();
    const asked: Job[] = [];
    const seen = { ended: 0, drawn: 0 };
    let bench: Plan | undefined = greenhouse;
    const findings = wholeCheck(greenhouse);
    const check = new IdleCheck(
      { requestUpdate: () => (seen.drawn += 1) },
      () => bench,
      {
        begin: ((job: Job) => {
          asked.push(job);
          return Promise.resolve(findings);
        }) as never,
        end: () => (seen.ended += 1),
        close: () => {},
      },
      clock,
    );
    return { check, clock, asked, seen, stands: (plan: Plan | undefined) => (bench = plan) };
  }

  test('begins a second after the last change, once for a bench, wherever its switches stand', async () => {
    const { check, clock, asked, seen, stands } = idle();
    check.hostUpdate();
    clock.pass(900);
    stands({ ...greenhouse, parts: [...greenhouse.parts] });
    check.hostUpdate();
    clock.pass(900);
    expect([asked.length, check.findings]).toEqual([0, undefined]);
    clock.pass(100);
    await Promise.resolve();
    expect(asked.map((j) => j.job)).toEqual(['check']);
    expect([check.findings?.length !== undefined, seen.drawn]).toEqual([true, 1]);
    stands({ ...greenhouse, parts: (asked[0] as { plan: Plan }).plan.parts, switches: { S1: [true] } });
    check.hostUpdate();
    clock.pass(5000);
    expect(asked).toHaveLength(1);
  });

  test('is called off, and what it found is gone, when the bench changes or its supply is off', async () => {
    const { check, clock, asked, stands } = idle();
    check.hostUpdate();
    clock.pass(1000);
    await Promise.resolve();
    stands(undefined);
    check.hostUpdate();
    clock.pass(5000);
    expect([asked.length, check.findings]).toEqual([1, undefined]);
    check.hostDisconnected();
    expect(clock.waiting).toBe(0);
  });

  test('says what the command says, presses included', () => {
    const plan = planOf(counterClocked('resistor RB 10k from i52 to -j45\nwire WC from j52 to a21'));
    const [page, command] = [wholeCheck(plan), checkPlan(plan)];
    if (!page.ok || !command.ok) throw new Error('It cannot be checked.');
    expect(page.value.map((f) => plain(f.says))).toEqual(command.value.findings.map((f) => f.says));
    expect(page.value.some((f) => f.code === 'switch/bounces-on-clock')).toBe(true);
    expect(page.value.every((f) => SEVERITIES.includes(f.severity))).toBe(true);
  });
});

describe('the search for a repair', () => {
  /** It never answers. */
  class DeafWorker {
    static readonly all: DeafWorker[] = [];
    onmessage: ((e: unknown) => void) | null = null;
    ended = false;
    constructor() {
      DeafWorker.all.push(this);
    }
    postMessage() {}
    terminate() {
      this.ended = true;
    }
  }
  afterEach(() => {
    vi.unstubAllGlobals();
    document.body.replaceChildren();
    DeafWorker.all.length = 0;
  });

  async function view() {
    vi.stubGlobal('Worker', DeafWorker);
    const element = document.createElement('repair-view') as RepairView;
    element.plan = greenhouse;
    document.body.append(element);
    const settled = async () => {
      await new Promise((done) => setTimeout(done));
      await element.updateComplete;
    };
    await settled();
    const button = (says: string) => [...element.querySelectorAll('button')].find((b) => b.textContent?.trim() === says);
    return { element, settled, button, text: () => element.textContent?.replace(/\s+/g, ' ').trim() };
  }

  test('is stopped with its worker, and can be begun again', async () => {
    const { settled, button, text } = await view();
    button('Find a repair')!.click();
    await settled();
    expect(text()).toContain('Trying single edits');
    button('Stop the search')!.click();
    await settled();
    expect(DeafWorker.all.map((w) => w.ended)).toEqual([true]);
    expect(button('Find a repair')).toBeDefined();
    button('Find a repair')!.click();
    await settled();
    expect(DeafWorker.all.map((w) => w.ended)).toEqual([true, false]);
  });

  test('of another bench begins from nothing: what was found is not offered there', async () => {
    const { element, settled, button, text } = await view();
    button('Find a repair')!.click();
    await settled();
    const repairs = [{ says: 'Reverse LED3.', change: { op: 'all', changes: [] } }];
    DeafWorker.all[0]!.onmessage?.({ data: { result: { ok: true, value: { tried: 3, repairs } } } });
    await settled();
    expect(text()).toContain('Reverse LED3.');
    element.plan = { ...greenhouse, parts: greenhouse.parts.slice(1) };
    await settled();
    expect(text()).not.toContain('Reverse LED3.');
    expect(button('Find a repair')).toBeDefined();
  });
});
