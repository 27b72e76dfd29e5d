/** Nothing is lost: a killed tab, a reload, a second tab, another bench, a link, a full storage. */
import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { axeFinds } from './axe-finds.ts';
import { benchTitle, isKept, openText, sensor, showsByte, supply } from './hands.ts';
import { boxOf } from './pointing.ts';

const plan = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;
const menu = async (page: Page) => {
  if ((await benchTitle(page).getByRole('button').getAttribute('aria-expanded')) !== 'true')
    await benchTitle(page).getByRole('button').click();
};
async function rename(page: Page, name: string) {
  await menu(page);
  await page.getByRole('textbox', { name: 'Name' }).fill(name);
  await page.getByRole('textbox', { name: 'Name' }).press('Enter');
  await eventually(benchTitle(page)).toHaveText(name);
  await page.keyboard.press('Escape');
}
/** The address names the kept bench as soon as it has been written. */
const kept = (page: Page) => page.waitForURL(/\?bench=/);
const undo = (page: Page) => page.getByRole('button', { name: /^Undo: / });

/** The page's process dies; no handler of the page runs any more. */
async function crash(context: BrowserContext, page: Page) {
  const cdp = await context.newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  void cdp.send('Page.crash').catch(() => {});
  await crashed;
}

describe('a bench that was changed', () => {
  test('is there again after a crash in the middle: edits, switches, and all of the history', async ({ page, context }) => {
    await page.goto('/');
    await supply(page).click();
    await sensor(page, 'raining').click();
    await rename(page, 'Rain');
    await rename(page, 'Rain and wind');
    await sensor(page, 'windy').click();
    await showsByte(page, plan.wanted!.rows[24]!);
    await kept(page);
    const address = page.url();
    await isKept(page, 'Rain and wind', { S1: [false, false, false, true, true] });
    await crash(context, page);
    await page.close();
    const again = await context.newPage();
    await again.goto(address);
    await eventually(benchTitle(again)).toHaveText('Rain and wind');
    await showsByte(again, plan.wanted!.rows[24]!);
    await again.getByRole('button', { name: 'Undo: rename the bench to Rain and wind' }).click();
    await eventually(benchTitle(again)).toHaveText('Rain');
    await again.keyboard.press('Control+z');
    await eventually(benchTitle(again)).toHaveText('Greenhouse watch');
    await showsByte(again, plan.wanted!.rows[24]!);
    await again.keyboard.press('Control+y');
    await eventually(benchTitle(again)).toHaveText('Rain');
  });

  test('is there again after a reload, with what was undone still to be redone; and at the bare address', async ({ page }) => {
    await page.goto('/');
    await rename(page, 'One');
    await rename(page, 'Two');
    await page.keyboard.press('Control+z');
    await eventually(benchTitle(page)).toHaveText('One');
    await page.reload();
    await eventually(benchTitle(page)).toHaveText('One');
    await page.getByRole('button', { name: 'Redo: rename the bench to Two' }).click();
    await eventually(benchTitle(page)).toHaveText('Two');
    await page.goto('/');
    await eventually(benchTitle(page)).toHaveText('Two');
  });

  test('stays under Recent benches when another one is opened, and goes when it is removed', async ({ page }) => {
    await page.goto('/');
    await rename(page, 'Mine');
    await menu(page);
    await page.getByRole('button', { name: 'New bench: one board and a supply' }).click();
    await eventually(benchTitle(page)).toHaveText('New bench');
    await menu(page);
    const recent = page.getByRole('region', { name: 'Recent benches' });
    await recent.getByRole('button', { name: /^Mine/ }).click();
    await eventually(benchTitle(page)).toHaveText('Mine');
    await eventually(undo(page)).toHaveAttribute('title', 'Undo: rename the bench to Mine');
    await menu(page);
    await recent.getByRole('button', { name: /^Remove New bench/ }).click();
    await eventually(recent).toHaveCount(0);
  });
});

test('in two tabs: the second is told and works on a copy, and both are kept', async ({ page, context }) => {
  await page.goto('/');
  await rename(page, 'Shared');
  await kept(page);
  const second = await context.newPage();
  await second.goto(page.url());
  await eventually(second.getByRole('alert')).toContainText('"Shared" is open in another tab.');
  await eventually(benchTitle(second)).toHaveText('Shared (copy)');
  await rename(second, 'Second');
  await rename(page, 'First');
  for (const [tab, name] of [
    [page, 'First'],
    [second, 'Second'],
  ] as const) {
    await tab.reload();
    await eventually(benchTitle(tab)).toHaveText(name);
    await eventually(tab.getByRole('alert')).toHaveCount(0);
  }
});

test('in two tabs without locks: who writes second is told, and neither version is lost', async ({ context }) => {
  await context.addInitScript(() => Object.defineProperty(Navigator.prototype, 'locks', { value: undefined }));
  const [first, second] = [await context.newPage(), await context.newPage()];
  await first.goto('/');
  await rename(first, 'Shared');
  await kept(first);
  await second.goto(first.url());
  await eventually(benchTitle(second)).toHaveText('Shared');
  await rename(first, 'First');
  await rename(second, 'Second');
  await eventually(second.getByRole('alert')).toContainText('there are now two versions');
  await eventually.poll(() => second.url()).not.toBe(first.url());
  for (const [tab, name] of [
    [first, 'First'],
    [second, 'Second'],
  ] as const) {
    await tab.reload();
    await eventually(benchTitle(tab)).toHaveText(name);
  }
});

describe('a link', () => {
  test('carries the whole bench to another browser, and leaves what was there', async ({ page, context }) => {
    await page.goto('/');
    await sensor(page, 'windy').click();
    await rename(page, 'Sent with ünïcode');
    await menu(page);
    await page.getByRole('button', { name: 'Copy a link' }).click();
    await eventually(page.getByText(/^Link copied: it holds the whole bench in [\d\u202f]+ characters\.$/)).toBeVisible();
    const link = await page.evaluate(() => navigator.clipboard.readText());
    expect(link.length).toBeLessThan(8000);
    await rename(page, 'Changed since');
    const reader = await context.newPage();
    await reader.goto(link);
    await eventually(benchTitle(reader)).toHaveText('Sent with ünïcode');
    await eventually(sensor(reader, 'windy')).toHaveAttribute('aria-checked', 'true');
    await kept(reader);
    expect(reader.url()).not.toContain('#plan=');
    await menu(reader);
    await eventually(reader.getByRole('region', { name: 'Recent benches' }).getByRole('button', { name: /^Changed since/ })).toBeVisible();
  });
  test('that was cut off on the way is refused in words, and a bench stands all the same', async ({ page }) => {
    await page.goto('/#plan=7VdNb9s4EP0rhC67C');
    await eventually(page.getByRole('alert')).toContainText('The link is damaged');
    await supply(page).click();
    await showsByte(page, plan.wanted!.rows[0]!);
  });
});

test('a file saved is the bench as it stands, bit for bit', async ({ page, context }) => {
  await context.addInitScript(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  await page.goto('/');
  await openText(page, 'x.plan.json', JSON.stringify({ ...plan, title: 'From a file' }));
  await eventually(benchTitle(page)).toHaveText('From a file');
  await menu(page);
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save as a file' }).click()]);
  expect(file.suggestedFilename()).toBe('from-a-file.plan.json');
  expect(JSON.parse(readFileSync(await file.path(), 'utf8'))).toEqual({ ...plan, title: 'From a file' });
});

test('a file opened before the first bench has come is not put away by it', async ({ page }) => {
  let come = () => {};
  const late = new Promise<void>((now) => {
    come = now;
  });
  await page.route('**/api/plans/*', async (route) => {
    await late;
    await route.continue();
  });
  await page.goto('/?plan=greenhouse-blank');
  await page.locator('plan-chooser input[type=file]').waitFor({ state: 'attached' });
  const asked = page.waitForResponse('**/api/plans/*');
  await openText(page, 'x.plan.json', JSON.stringify({ ...plan, title: 'From a file' }));
  come();
  await asked;
  await eventually(benchTitle(page)).toHaveText('From a file');
  // it stays: what came late has been read when the bench answers to a hand that came after it
  await (await asked).finished();
  await supply(page).click();
  await eventually(supply(page)).toHaveAttribute('aria-checked', 'true');
  await eventually(benchTitle(page)).toHaveText('From a file');
});

test('where nothing can be kept, that stays said and covers nothing of the bench, until storage is back', async ({ context }) => {
  await context.addInitScript(() => {
    const { open } = IDBFactory.prototype;
    IDBFactory.prototype.open = function (...asked) {
      if (!('storageIsBack' in window)) throw new DOMException('denied', 'SecurityError');
      return open.apply(this, asked);
    };
  });
  const page = await context.newPage();
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('/');
  await supply(page).click();
  const warning = page.getByRole('alert');
  await eventually(warning).toContainText('This browser cannot keep the bench');
  await eventually(warning.getByRole('button')).toHaveText('Save as a file');
  await page.keyboard.press('Escape');
  const [over, bench] = [await boxOf(warning), await boxOf(page.locator('bench-scene'))];
  expect(over.y + over.height).toBeLessThanOrEqual(bench.y);
  expect(await axeFinds(page, '.unkept')).toEqual([]);
  await sensor(page, 'hot').click();
  await showsByte(page, plan.wanted!.rows[1]!);
  await eventually(warning).toHaveCount(1);
  await page.evaluate(() => Object.assign(window, { storageIsBack: true }));
  await eventually(warning).toHaveCount(0);
  await isKept(page, plan.title, { S1: [true, false, false, false, false] });
});

test('the page can be installed: its manifest and its icons are there', async ({ page }) => {
  await page.goto('/');
  const href = await page.locator('link[rel=manifest]').getAttribute('href');
  const manifest = await page.evaluate(async (at) => (await fetch(at)).json(), href!);
  expect(manifest).toMatchObject({ name: 'Lampwright', display: 'standalone', start_url: '/' });
  const sizes = await page.evaluate(
    async (icons) =>
      Promise.all(
        icons.map(async ({ src }) => {
          const picture = new Image();
          picture.src = src;
          await picture.decode();
          return `${picture.naturalWidth}x${picture.naturalHeight}`;
        }),
      ),
    manifest.icons as Array<{ src: string; sizes: string }>,
  );
  expect(sizes).toEqual(manifest.icons.map((i: { sizes: string }) => i.sizes));
});
