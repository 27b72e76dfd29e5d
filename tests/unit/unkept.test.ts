/** Whether what is shown is written: told from the edit on until it is, and while nothing can be kept until storage is back. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { FakeBrowser, type Tab } from '../support/fake-browser.ts';
import { call, labelOf, ownBench } from '../support/own-bench.ts';
import { withFaultAt } from '../support/storage-faults.ts';

/** What was told of keeping, without the writes that are under way. */
function warnings(tab: Tab): readonly unknown[] {
  return tab.keeping.flatMap((k) => (k === 'keeping' ? [] : [k === 'kept' ? k : k.failing])).filter((k, i, all) => k !== all[i - 1]);
}

test('an edit that is shown is being kept from that moment on, until it is written', async () => {
  const browser = new FakeBrowser();
  const tab = await ownBench(browser);
  expect(tab.autosave.keeping).toBe('kept');
  const before = tab.keeping.length;
  let atWrite: unknown;
  const off = tab.session.on('changed', () => {
    atWrite ??= tab.autosave.keeping;
  });
  call(tab, 'one');
  off();
  expect([atWrite, tab.autosave.keeping]).toEqual(['keeping', 'keeping']);
  await tab.settle();
  expect(tab.keeping.slice(before)).toEqual(['keeping', 'kept']);
  expect((await browser.store.take(tab.benches.id!))?.history.changes).toHaveLength(1);
});

describe('where nothing can be kept', () => {
  test('that is said once with its reason, the browser asks before the page goes, and work goes on', async () => {
    const tab = await ownBench(new FakeBrowser());
    expect(tab.asksBeforeItGoes()).toBe(false);
    await withFaultAt('every', 'fails', async () => {
      for (const name of ['one', 'two']) {
        call(tab, name);
        await tab.settle();
      }
    });
    expect(warnings(tab)).toMatchObject(['kept', { code: 'page/not-stored', says: expect.stringContaining('its storage is full') }]);
    expect(tab.asksBeforeItGoes()).toBe(true);
    expect(labelOf(tab)).toBe('two');
    call(tab, 'three');
    await tab.settle();
    expect(tab.asksBeforeItGoes()).toBe(false);
    expect(warnings(tab).at(-1)).toBe('kept');
  });

  test('that stays said until storage is back, which is tried every five seconds, and then all is kept', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    await withFaultAt('every', 'fails', async () => {
      call(tab, 'one');
      await tab.settle();
      tab.clock.pass(20_000);
      await tab.until(tab.autosave.finish());
      expect(tab.autosave.keeping).toMatchObject({ failing: { code: 'page/not-stored' } });
    });
    const kept = async () => (await browser.store.take(tab.benches.id!))?.history.changes.length;
    expect(await kept()).toBe(0);
    tab.clock.pass(5000);
    await tab.until(tab.autosave.finish());
    expect([tab.autosave.keeping, await kept()]).toEqual(['kept', 1]);
  });

  test('what could not be written is left behind as the page goes, and taken up by the next', async () => {
    const browser = new FakeBrowser();
    const tab = await ownBench(browser);
    await withFaultAt('every', 'fails', async () => {
      call(tab, 'one');
      await tab.settle();
    });
    tab.close();
    expect(labelOf(await browser.visit(tab.address()))).toBe('one');
  });

  test('since storage is refused altogether, a demonstration stands and can be worked with', async () => {
    const browser = new FakeBrowser();
    const open = indexedDB.open;
    indexedDB.open = () => {
      throw new DOMException('denied', 'SecurityError');
    };
    try {
      const tab = await browser.visit();
      expect(tab.session.plan?.title).toBe(demoPlan('greenhouse')!.title);
      call(tab, 'one');
      await tab.settle();
      expect(tab.autosave.keeping).toMatchObject({ failing: { says: expect.stringContaining('does not let pages store anything') } });
      expect(labelOf(tab)).toBe('one');
      expect(await tab.benches.recent()).toEqual([]);
    } finally {
      indexedDB.open = open;
    }
  });
});
