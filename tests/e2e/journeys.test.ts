/** Whole ways through the page with real input, each act counted: one click, one drag, one key chord or one typed line. And nothing moves under the hand meanwhile. */
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { eventually, expect, test } from '../support/e2e.ts';
import { led, sensor, showsByte, supply } from './hands.ts';
import { atRest, boxOf } from './pointing.ts';

/** What a person does, counted. */
function hand(page: Page) {
  let acts = 0;
  return {
    get acts() {
      return acts;
    },
    async click(thing: { click(): Promise<void> }) {
      acts += 1;
      await thing.click();
    },
    async key(chord: string) {
      acts += 1;
      await page.keyboard.press(chord);
    },
    /** at the command line, which is open */
    async line(text: string) {
      acts += 1;
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    },
  };
}

const why = (page: Page) => page.getByRole('tabpanel', { name: 'Why' }).getByRole('heading', { level: 2 });
const group = (page: Page, name: string) => page.getByRole('group', { name, exact: true });

describe('from the first sight', () => {
  test('an LED is lit after 1 act, and after 1 more why it is', async ({ page }) => {
    await page.goto('/');
    const by = hand(page);
    await by.click(supply(page));
    await eventually(led(page, 'all well')).toHaveAccessibleName(/^all well, lit/);
    expect(by.acts).toBeLessThanOrEqual(2);
    await by.click(led(page, 'all well'));
    await eventually(why(page)).toContainText('(all well) is lit');
    expect(by.acts).toBeLessThanOrEqual(3);
  });

  test('nothing shifts after the first paint, at any size', async ({ page }) => {
    await page.addInitScript(() => {
      const shifts: string[] = [];
      Object.assign(window, { shifts });
      new PerformanceObserver((list) => {
        for (const e of list.getEntries() as Array<PerformanceEntry & { value: number; sources: Array<{ node?: Node }> }>)
          shifts.push(`${e.value.toFixed(4)} ${e.sources.map(({ node }) => node?.nodeName).join()}`);
      }).observe({ type: 'layout-shift', buffered: true });
    });
    for (const [width, height] of [
      [1440, 900],
      [820, 1180],
      [390, 844],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.goto('/?plan=greenhouse-nothing-lights');
      await eventually(page.locator('.mark-target').first()).toBeAttached();
      await eventually(page.locator('lampwright-app')).toHaveClass(/ready/);
      await atRest(page);
      expect(await page.evaluate(() => (window as unknown as { shifts: string[] }).shifts)).toEqual([]);
    }
  });
});

test('every control of several benches is hit where a hand presses it', async ({ page }) => {
  for (const plan of ['greenhouse-nothing-lights', 'greenhouse-blank', 'ticket-counter']) {
    await page.goto(`/?plan=${plan}`);
    await eventually(supply(page)).toBeVisible();
    await atRest(page);
    const missed = await page.evaluate(() =>
      [...document.querySelectorAll('.tops :is([role=switch], [role=button]:not(.chip-handle))')].flatMap((control) => {
        const { x, y, width, height } = (control.querySelector('.hit, .cap, .led-glass, .segment-off') ?? control).getBoundingClientRect();
        const hit = document.elementFromPoint(x + width / 2, y + height / 2);
        return control.contains(hit) ? [] : [`${control.getAttribute('aria-label')} is under ${hit?.outerHTML.slice(0, 80)}`];
      }),
    );
    expect(missed, plan).toEqual([]);
  }
});

test('the bench in print is the bench alone, whatever is open beside it', async ({ page }) => {
  await page.goto('/?plan=greenhouse-nothing-lights');
  await page.locator('.memory-chip').click();
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  await eventually(page.getByRole('region', { name: 'Selection' })).toBeVisible();
  await page.emulateMedia({ media: 'print' });
  const seen = await page.evaluate(() =>
    [...document.querySelectorAll('lampwright-app button, lampwright-app input, lampwright-app p, lampwright-app a')]
      .filter((e) => e.checkVisibility({ visibilityProperty: true }) && e.getBoundingClientRect().width > 1)
      .map((e) => e.outerHTML.slice(0, 80)),
  );
  expect(seen).toEqual([]);
  await eventually(page.locator('bench-scene .board-case').first()).toBeVisible();
});

describe('a byte', () => {
  test('is written and read back in as many acts as the bench needs; while the button is held, and after, nothing on the bench moves', async ({
    page,
  }) => {
    await page.goto('/?plan=greenhouse-blank');
    const by = hand(page);
    await by.click(supply(page));
    await by.click(group(page, '/OE high to write').getByRole('switch'));
    for (const name of ['hot', 'dark']) await by.click(sensor(page, name));
    for (const name of ['fan', 'heater']) await by.click(group(page, 'data').getByRole('switch', { name: new RegExp(`\\b${name}\\b`) }));
    const button = page.getByRole('button', { name: 'write', exact: true });
    const before = await boxOf(button);
    await page.mouse.move(before.x + before.width / 2, before.y + before.height / 2);
    await page.mouse.down();
    await eventually(page.locator('timing-diagram')).toContainText('write of 0A at 0x005: stored');
    expect(await boxOf(button)).toEqual(before);
    await page.mouse.up();
    await by.click({ click: async () => {} });
    expect(await boxOf(button)).toEqual(before);
    await by.click(group(page, '/OE high to write').getByRole('switch'));
    await showsByte(page, 0x0a);
    // supply, /OE high, two address bits, two data bits, write, /OE low: none was lost, none was needed twice
    expect(by.acts).toBe(8);
  });
});
