/** Nothing is lost: a bench is kept after every change, through a crash at any step, a second tab, a full storage, and a page that goes in the middle of a write. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { UnloadBackup } from '../../client/plans/unload-backup.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { NO_HISTORY } from '../../sim-core/index.ts';
import { FakeBrowser, FakeStorage, type Tab } from '../support/fake-browser.ts';
import { call, firstLed, labelOf, ownBench } from '../support/own-bench.ts';
import { ledPlan } from '../support/plans.ts';
import { type StorageFault, withFaultAt } from '../support/storage-faults.ts';

const supply = (tab: Tab, on: boolean) => tab.session.act({ do: 'set', part: 'PS1', pole: 0, closed: on });
const said = (tab: Tab) => tab.refused.map((f) => f.says).join(' ');

test('a bench that an earlier version has kept opens upgraded, and undo begins again there', async () => {
  const browser = new FakeBrowser();
  const old = JSON.parse(readFileSync('tests/fixtures/plans-v1/greenhouse.plan.json', 'utf8'));
  const change = { op: 'add-lead', lead: { id: 'W99', from: 'a1', to: 'a5', colour: 'red' }, index: 0 };
  await browser.store.keep({
    note: { id: 'kept', title: 'Old', savedAt: 1, own: true },
    plan: old,
    history: { changes: [change as never], at: 1 },
    from: 0,
    turn: 0,
  });
  const tab = await browser.visit();
  await tab.until(tab.benches.openKept('kept'));
  expect([tab.session.plan?.version, tab.session.plan?.wires.length, tab.session.history.changes]).toEqual([2, old.leads.length, []]);
  tab.session.undo();
  expect(tab.session.plan?.wires.length).toBe(old.leads.length);
});

describe('a history whose changes this version does not know', () => {
  const plan = demoPlan('greenhouse')!;
  const [wire] = plan.wires;
  const known = { op: 'remove', list: 'wires', item: wire, index: 0 };
  const cases: ReadonlyArray<readonly [string, object, number]> = [
    ['is kept where it knows them all', known, 1],
    ['is dropped: another operation', { op: 'remove-wire', wire, index: 0 }, 0],
    ['is dropped: another list', { ...known, list: 'leads' }, 0],
    ['is dropped: another field', { op: 'set', field: 'subtitle', before: '', after: 'Porch' }, 0],
    ['is dropped: no record of that name', { op: 'set', field: 'title', id: 'U1', before: '', after: 'Porch' }, 0],
    ['is dropped: one among several', { op: 'all', changes: [known, { op: 'all', changes: [{ op: 'set-title' }] }] }, 0],
  ];
  const history = (change: object) => ({ changes: [change as never], at: 1 });

  test.each(cases)('%s', async (_, change, length) => {
    const browser = new FakeBrowser();
    const note = { id: 'kept', title: 'Old', savedAt: 1, own: true };
    await browser.store.keep({ note, plan, history: history(change), from: 0, turn: 0 });
    const tab = await browser.visit();
    await tab.until(tab.benches.openKept('kept'));
    expect([tab.session.plan?.title, tab.session.history.changes.length]).toEqual([plan.title, length]);
  });

  test.each(cases)('left behind by a page that went, %s', async (_, change, length) => {
    const browser = new FakeBrowser();
    const note = { id: 'kept', title: 'Old', savedAt: 1, own: true };
    await browser.store.keep({ note, plan, history: NO_HISTORY, from: 0, turn: 0 });
    new UnloadBackup(() => browser.storage).leave({ id: 'kept', turn: 1, plan: { ...plan, title: 'Left' }, history: history(change) });
    const tab = await browser.visit();
    await tab.until(tab.benches.openKept('kept'));
    expect([tab.session.plan?.title, tab.session.history.changes.length]).toEqual(['Left', length]);
  });
});

describe('a bench that was changed', () => {
  test('is there again after a reload: edits, switches, and its history with what was undone', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    for (const name of ['one', 'two', 'three']) call(tab, name);
    tab.session.undo();
    supply(tab, false);
    await tab.settle();
    tab.close();
    const again = await browser.visit(tab.address());
    expect([labelOf(again), again.session.plan?.switches.PS1, again.session.history.at]).toEqual(['two', [false], 2]);
    again.session.redo();
    expect(labelOf(again)).toBe('three');
    for (let i = 0; i < 3; i++) again.session.undo();
    expect(labelOf(again)).toBeUndefined();
  });

  test('is what stands at the bare address next time, and another one is under Recent benches', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser, 'First');
    await tab.until(tab.benches.openMade(JSON.stringify({ ...ledPlan(470), title: 'Second' })));
    await tab.settle();
    tab.close();
    const again = await browser.visit();
    expect(again.session.plan?.title).toBe('Second');
    const recent = await again.benches.recent();
    expect(recent.map((b) => b.title)).toEqual(['First']);
    await again.until(again.benches.openKept(recent[0]!.id));
    expect(again.session.plan?.title).toBe('First');
    await again.benches.remove((await again.benches.recent())[0]!.id);
    expect(await again.benches.recent()).toEqual([]);
  });

  test('has an address of its own once it is kept; a demonstration that is only looked at has none and is dropped', async () => {
    const browser = new FakeBrowser();
    const tab = await browser.visit();
    expect(tab.session.plan?.title).toBe(demoPlan('greenhouse')!.title);
    expect(tab.address()).toBe('https://bench.test/');
    await tab.until(tab.benches.openDemo('wind-vane'));
    await tab.settle();
    // only the one that stands is kept
    expect(await browser.store.list()).toHaveLength(1);
    supply(tab, true);
    await tab.settle();
    expect(tab.address()).toMatch(/\?bench=\w+$/);
  });

  test('writes only what has changed in its history, and what was undone and replaced goes', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    call(tab, 'one');
    call(tab, 'two');
    await tab.settle();
    tab.session.undo();
    tab.session.undo();
    call(tab, 'three');
    await tab.settle();
    const kept = await browser.store.take(tab.benches.id!);
    expect([kept?.history.changes.length, kept?.history.at]).toEqual([1, 1]);
  });

  test('that is not kept in this browser is said, and the next best stands', async () => {
    const tab = await new FakeBrowser().visit('https://bench.test/?bench=never');
    expect(said(tab)).toContain('not kept in this browser');
    expect(tab.session.plan?.title).toBe(demoPlan('greenhouse')!.title);
  });
});

describe('two tabs on one bench', () => {
  test('the second is told and works on a copy; both are kept', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    call(tab, 'first');
    await tab.settle();
    const second = await browser.visit(tab.address());
    expect(said(second)).toContain('open in another tab');
    expect(second.session.plan?.title).toBe('Porch (copy)');
    call(second, 'second');
    call(tab, 'first again');
    await second.settle();
    await tab.settle();
    expect(second.address()).not.toBe(tab.address());
    for (const [page, name] of [
      [tab, 'first again'],
      [second, 'second'],
    ] as const) {
      page.close();
      expect(labelOf(await browser.visit(page.address()))).toBe(name);
    }
  });

  test('without locks who writes second is told, and neither version is lost', async () => {
    const browser = new FakeBrowser({ locks: false });
    const tab = await ownBench(browser);
    const second = await browser.visit(tab.address());
    expect(said(second)).toBe('');
    call(tab, 'first');
    await tab.settle();
    call(second, 'second');
    await second.settle();
    expect(said(second)).toContain('there are now two versions');
    expect(said(tab)).toBe('');
    expect(second.address()).not.toBe(tab.address());
    for (const [page, name] of [
      [tab, 'first'],
      [second, 'second'],
    ] as const)
      expect(labelOf(await browser.visit(page.address()))).toBe(name);
  });

  test('a tab that is closed lets go of its bench, and the next one works on it and not on a copy', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    tab.close();
    const next = await browser.visit(tab.address());
    expect([said(next), next.session.plan?.title]).toEqual(['', 'Porch']);
  });
});

describe('a page that goes in the middle of a write', () => {
  test('leaves the bench behind, and the next page takes it up, history and all', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    call(tab, 'one');
    await tab.settle();
    await withFaultAt('every', 'dies', async () => {
      call(tab, 'two');
      tab.close();
      await tab.settle();
    });
    expect(browser.storage.items.size).toBe(1);
    expect((await browser.store.take(tab.benches.id!))?.history.at).toBe(1);
    const again = await browser.visit(tab.address());
    expect([labelOf(again), again.session.history.at]).toEqual(['two', 2]);
    expect(browser.storage.items.size).toBe(0);
    expect((await browser.store.take(again.benches.id!))?.history.at).toBe(2);
  });

  test('whose write was done all the same is taken up no other way', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    call(tab, 'one');
    tab.close();
    await tab.settle();
    expect(browser.storage.items.size).toBe(1);
    expect(labelOf(await browser.visit(tab.address()))).toBe('one');
  });

  test('leaves nothing that is taken up once somebody has gone on from the kept bench', async () => {
    const browser = new FakeBrowser({ locks: false });
    const tab = await ownBench(browser);
    call(tab, 'late');
    tab.close();
    await tab.settle();
    const [[place, moment]] = [...browser.storage.items] as [[string, string]];
    const next = await browser.visit(tab.address());
    for (const name of ['gone on', 'and on']) {
      call(next, name);
      await next.settle();
    }
    browser.storage.setItem(place, moment);
    expect(labelOf(await browser.visit(tab.address()))).toBe('and on');
  });

  test('leaves nothing behind with nothing under way, nor fails where there is no room', async () => {
    const browser = new FakeBrowser({ storage: new FakeStorage(10) });
    const tab = await ownBench(browser);
    tab.close();
    expect(browser.storage.items.size).toBe(0);
    call(tab, 'one');
    tab.close();
    await tab.settle();
    expect(browser.storage.items.size).toBe(0);
    expect(labelOf(await browser.visit(tab.address()))).toBe('one');
  });

  test('with what nobody can read left behind, opens the bench as it is kept', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    call(tab, 'one');
    await tab.settle();
    tab.close();
    browser.storage.setItem(`lampwright-last-moment-${tab.benches.id}`, '{"id":');
    expect(labelOf(await browser.visit(tab.address()))).toBe('one');
  });
});

describe('a fault at any step of the store', () => {
  /** Labels one after the other with undo between, the fault at the nth step. True: it has struck. */
  const work = async (nth: number, fault: StorageFault) => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    call(tab, 'one');
    await tab.settle();
    const struck = await withFaultAt(nth, fault, async () => {
      call(tab, 'two');
      await tab.settle();
      tab.session.undo();
      await tab.settle();
      call(tab, 'three');
      await tab.settle();
    });
    return { browser, tab, struck };
  };

  for (const fault of ['fails', 'dies'] as const)
    test(`leaves a whole bench, one that stood a moment before or after; with the next write all is kept: it ${fault}`, async () => {
      let nth = 0;
      for (let struck = true; struck; ) {
        nth += 1;
        const { browser, tab, struck: now } = await work(nth, fault);
        struck = now;
        const kept = (await browser.store.take(tab.benches.id!))!;
        const led = kept.plan.parts.find((p) => p.id === firstLed(tab));
        const named = kept.history.changes.slice(0, kept.history.at);
        // as many names as changes that stand, and the label is the last one's
        expect([named.length, led?.label]).toBeOneOf([
          [1, 'one'],
          [2, 'two'],
          [2, 'three'],
        ]);
        expect(JSON.stringify(named.at(-1))).toContain(`"${led?.label}"`);
        expect(kept.history.changes.length).toBeLessThanOrEqual(2);
        // the page goes on: one more edit, and everything is kept
        call(tab, 'four');
        await tab.settle();
        tab.close();
        const again = await browser.visit(tab.address());
        expect([labelOf(again), again.session.history.at]).toEqual(['four', 3]);
        for (let i = 0; i < 3; i++) again.session.undo();
        expect(labelOf(again)).toBeUndefined();
      }
      // every write looks, deletes, and puts a change or the bench: ten steps at least in three writes
      expect(nth).toBeGreaterThan(8);
    });

  test('while a bench is opened leaves what stands, and it is said', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser, 'First');
    const firstId = tab.benches.id!;
    await tab.until(tab.benches.openMade(JSON.stringify({ ...ledPlan(470), title: 'Second' })));
    await tab.settle();
    await withFaultAt(1, 'fails', () => tab.until(tab.benches.openKept(firstId)));
    expect(tab.session.plan?.title).toBe('Second');
    expect(said(tab)).toContain('no longer kept here');
  });
});
