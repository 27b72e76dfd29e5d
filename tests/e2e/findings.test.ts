/** Findings on the bench: a mark at the thing, the sentence beside it, and the cure in one act that can be taken back. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { readBenchText } from '../../sim-core/index.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { benchTitle, openText } from './hands.ts';

/** An LED between plus and minus with nothing that limits its current; the supply is off. */
const BARE = `
  board-63 B1
  bench-supply PS1 5
  wire WP red from PS1.+ to +j1
  wire WN black from PS1.- to -j1
  led LED1 from a10 to a14
  wire W1 from b10 to +j3
  wire W2 from b14 to -j3`;

async function openBare(page: Page) {
  const plan = readBenchText(BARE);
  if (!plan.ok) throw new Error(plan.failure.says);
  await openText(page, 'bare.plan.json', JSON.stringify({ ...plan.value, title: 'Bare LED' }));
  await eventually(benchTitle(page)).toHaveText('Bare LED');
}
const mark = (page: Page) => page.getByRole('button', { name: /^Damage risk: LED1 has no series resistor/ });
const card = (page: Page) => page.getByRole('group', { name: 'Finding', exact: true });
const cure = /^Add \d+ Ω in series with LED1$/;

test('a mark at the LED tells what is wrong when a hand comes near, and fixes it in one act; undo brings it back', async ({ page }) => {
  await page.goto('/');
  await openBare(page);
  await page.locator('.mark-target').hover();
  await eventually(card(page)).toContainText('Damage risk');
  await eventually(card(page)).toContainText('Add');
  const wires = await page.locator('[data-wire]').count();
  await card(page).getByRole('button', { name: cure }).click();
  await eventually(mark(page)).toHaveCount(0);
  await eventually(card(page)).toHaveCount(0);
  await eventually(page.locator('.bodies [data-part="R1"]')).toHaveCount(1);
  expect(await page.locator('[data-wire]').count()).toBe(wires);
  await page.keyboard.press('Control+z');
  await eventually(mark(page)).toHaveCount(1);
  await eventually(page.locator('.bodies [data-part="R1"]')).toHaveCount(0);
});

test('by keyboard: the mark is reached and opened, and the page Findings fixes it', async ({ page }) => {
  await page.goto('/');
  await openBare(page);
  await mark(page).focus();
  await eventually(card(page)).toBeVisible();
  expect((await new AxeBuilder({ page }).setLegacyMode().include('bench-scene').include('finding-card').analyze()).violations).toEqual([]);
  await page.keyboard.press('Enter');
  const list = page.getByRole('tabpanel', { name: /^Findings/ });
  await list.getByRole('button', { name: cure }).press('Enter');
  await eventually(list).not.toContainText('LED1');
});

test('on a narrow window the mark leaves its LED to be seen', async ({ page }) => {
  await page.goto('/');
  await page.setViewportSize({ width: 390, height: 844 });
  await openBare(page);
  for (const whole of [false, true]) {
    if (whole) await page.getByRole('button', { name: 'Fit', exact: true }).click();
    await eventually
      .poll(async () => {
        const [m, l] = [await mark(page).locator('.mark-body').boundingBox(), await page.locator('.led-glass').boundingBox()];
        if (!m || !l) return 1;
        const over = (a: number, b: number, c: number, d: number) => Math.max(0, Math.min(b, d) - Math.max(a, c));
        return (over(m.x, m.x + m.width, l.x, l.x + l.width) * over(m.y, m.y + m.height, l.y, l.y + l.height)) / (l.width * l.height);
      })
      .toBeLessThan(0.1);
  }
});
