/** Where benches come from: an address, a link, a file, a demonstration; what cannot be had is said, and what was asked for last stands in the end. */
import { describe, expect, test } from 'vitest';
import { demoPlan } from '../../shared/demo-plans.ts';
import { done, failed, setField, writeBenchText } from '../../sim-core/index.ts';
import { FakeBrowser, type Tab } from '../support/fake-browser.ts';
import { ledPlan } from '../support/plans.ts';

const greenhouse = demoPlan('greenhouse')!;
const title = (tab: Tab) => tab.session.plan?.title;
const said = (tab: Tab) => tab.refused.map((f) => f.says).join(' ');
const fileOf = (name: string, text: string) => new File([text], name);

describe('an address', () => {
  test('that asks for nothing has the first demonstration standing', async () => {
    const tab = await new FakeBrowser().visit();
    expect(title(tab)).toBe(greenhouse.title);
    expect(tab.benches.demos.length).toBeGreaterThan(5);
  });

  test('that names a demonstration has that one standing; one that is not there is said, and another stands', async () => {
    expect(title(await new FakeBrowser().visit('https://bench.test/?plan=wind-vane'))).toBe(demoPlan('wind-vane')!.title);
    const tab = await new FakeBrowser().visit('https://bench.test/?plan=never');
    expect(said(tab)).toContain('no such demonstration');
    expect(title(tab)).toBe(greenhouse.title);
  });

  test('with nothing to be had at all says so', async () => {
    const none = failed('page/no-bench', '', 'The server cannot be reached.');
    const tab = await new FakeBrowser({ demos: { titles: async () => none, text: async () => none } }).visit();
    expect(tab.session.plan).toBeUndefined();
    expect(said(tab)).toContain('no bench to start with');
  });
});

describe('a link', () => {
  test('carries the bench as it stands to another browser, which keeps it as its own', async () => {
    const tab = await new FakeBrowser().visit();
    tab.session.act({ do: 'set', part: 'S1', pole: 0, closed: true });
    await tab.settle();
    const link = await tab.benches.link();
    if (!link.ok) throw new Error(link.failure.says);
    const reader = await new FakeBrowser().visit(link.value);
    expect(reader.session.plan?.switches).toEqual(tab.session.plan?.switches);
    expect(title(reader)).toBe(greenhouse.title);
    expect(reader.address()).toMatch(/\?bench=/);
    expect(reader.address()).not.toContain('#plan=');
  });

  test('that is read-only has a bench standing that can be operated and measured, not edited, also after a reload; its copy can', async () => {
    const tab = await new FakeBrowser().visit();
    const link = await tab.benches.link('operate');
    if (!link.ok) throw new Error(link.failure.says);
    const browser = new FakeBrowser();
    const first = await browser.visit(link.value);
    expect([first.session.readOnly, first.address().includes('#view=')]).toEqual([true, false]);
    await first.settle();
    first.close();
    const reader = await browser.visit(first.address());
    const { session } = reader;
    expect(session.readOnly).toBe(true);
    const before = session.plan!;
    const refused = session.edit(setField(before, 'title', 'mine'));
    expect(refused).toMatchObject({ code: 'page/read-only', says: expect.stringContaining('Make a copy') });
    session.act({ do: 'move-wire', wire: 'W1', end: 'to', point: 'a1' });
    expect(reader.refused.map((f) => f.code)).toEqual(['page/read-only', 'page/read-only']);
    const meter = { id: 'M1', measures: 'volts', at: 'a1' } as const;
    expect(session.edit({ op: 'insert', list: 'meters', item: meter, index: 0 })).toBeUndefined();
    session.act({ do: 'set', part: 'S1', pole: 0, closed: true });
    await reader.settle();
    expect([session.plan?.title, session.plan?.wires, session.plan?.meters]).toEqual([before.title, before.wires, [meter]]);
    expect(session.plan?.switches.S1?.[0]).toBe(true);

    await reader.until(reader.benches.copy());
    expect([title(reader), session.readOnly]).toEqual([`${before.title} (copy)`, false]);
    expect(session.plan?.switches.S1?.[0]).toBe(true);
    expect(session.edit(setField(session.plan!, 'title', 'mine'))).toBeUndefined();
    // another bench is not locked either
    await reader.until(reader.benches.openDemo('wind-vane'));
    expect(session.readOnly).toBe(false);
  });

  test('that was cut off is refused in words, and a bench stands all the same', async () => {
    const tab = await new FakeBrowser().visit('https://bench.test/#plan=7VdNb9s4EP0rhC67C');
    expect(said(tab)).toContain('damaged');
    expect(title(tab)).toBe(greenhouse.title);
  });

  test('before any bench stands says why there is none', async () => {
    expect((await new FakeBrowser().tab().benches.link()).ok).toBe(false);
  });
});

describe('a file', () => {
  test('stands as it is, from its document or its text', async () => {
    const tab = await new FakeBrowser().visit();
    await tab.until(tab.benches.openFile(fileOf('x.plan.json', JSON.stringify({ ...ledPlan(330), title: 'From a file' }))));
    expect(title(tab)).toBe('From a file');
    await tab.until(tab.benches.openFile(fileOf('x.plan.txt', writeBenchText({ ...ledPlan(330), title: 'From its text' }))));
    expect(title(tab)).toBe('From its text');
  });

  test('that is too large or no plan is refused, and what stands stays', async () => {
    const tab = await new FakeBrowser().visit();
    await tab.until(tab.benches.openFile(fileOf('large.plan.json', ' '.repeat(5_000_001))));
    await tab.until(tab.benches.openFile(fileOf('none.plan.json', '{}')));
    expect(tab.refused).toHaveLength(2);
    expect(title(tab)).toBe(greenhouse.title);
  });

  test('opened before the first bench has come is not put away by it', async () => {
    let come = () => {};
    const late = new Promise<void>((now) => {
      come = now;
    });
    const demos = {
      titles: async () => done([]),
      text: async () => {
        await late;
        return done(JSON.stringify(greenhouse));
      },
    };
    const tab = new FakeBrowser({ demos }).tab('https://bench.test/?plan=greenhouse');
    const begun = tab.benches.begin();
    const opened = tab.benches.openFile(fileOf('x.plan.json', JSON.stringify({ ...ledPlan(330), title: 'From a file' })));
    come();
    await tab.until(begun);
    await tab.until(opened);
    expect(title(tab)).toBe('From a file');
  });
});

test('an empty bench has a board and a supply, and is its reader’s own', async () => {
  const browser = new FakeBrowser();
  const tab = await browser.visit();
  await tab.until(tab.benches.openEmpty());
  await tab.settle();
  expect(tab.session.plan?.boards).toHaveLength(1);
  expect((await browser.store.list()).map((b) => b.own)).toEqual([true]);
});
