/** A simulation that does not answer: what is under way can be stopped, and a worker that throws is restarted with the bench as it was. */
import type { Page } from 'playwright';
import { eventually, expect, test } from '../support/e2e.ts';
import { axeFinds } from './axe-finds.ts';
import { sensor, supply } from './hands.ts';

/** From then on the simulation's worker does not hear of acts; 'throws': it throws instead. */
const breakActs = (page: Page, how: 'deaf' | 'throws' | 'heals') =>
  page.evaluate((now) => {
    Object.assign(window, { actsAre: now });
  }, how);

test('an act that is not answered shows that it is being computed and can be stopped by key; a worker that throws is restarted; both are said', async ({
  page,
}) => {
  await page.addInitScript(() => {
    const { postMessage } = Worker.prototype;
    Worker.prototype.postMessage = function (this: Worker, message: { ask?: string }) {
      const how = message.ask === 'act' ? (window as { actsAre?: string }).actsAre : undefined;
      if (how === 'throws') this.dispatchEvent(new ErrorEvent('error'));
      else if (how !== 'deaf') postMessage.call(this, message);
    };
  });
  await page.goto('/?plan=greenhouse');
  await supply(page).click();
  await sensor(page, 'hot').click();
  await eventually(sensor(page, 'hot')).toHaveAttribute('aria-checked', 'true');
  const lit = () => page.locator('bench-scene [aria-label*=", lit"]').count();
  await eventually.poll(lit).toBeGreaterThan(0);
  const before = await lit();
  await breakActs(page, 'deaf');
  await supply(page).click();
  const stop = page.getByRole('button', { name: 'Stop', exact: true });
  await eventually(stop).toBeVisible();
  await eventually(page.getByRole('status').filter({ hasText: 'Still computing' })).toHaveCount(1);
  expect(await axeFinds(page, '.simulating')).toEqual([]);
  await breakActs(page, 'heals');
  await stop.press('Enter');
  const alert = page.getByRole('alert');
  await eventually(alert).toContainText('did not stop when asked and was restarted');
  await eventually(supply(page)).toHaveAttribute('aria-checked', 'true');
  await eventually(sensor(page, 'hot')).toHaveAttribute('aria-checked', 'true');
  await eventually.poll(lit).toBe(before);
  await alert.getByRole('button', { name: 'Close' }).click();
  await breakActs(page, 'throws');
  await sensor(page, 'hot').click();
  await eventually(alert).toContainText('failed with an error and was restarted: your last action was not done');
  await breakActs(page, 'heals');
  await alert.getByRole('button', { name: 'Close' }).click();
  await eventually(sensor(page, 'hot')).toHaveAttribute('aria-checked', 'true');
  await sensor(page, 'hot').click();
  await eventually(sensor(page, 'hot')).toHaveAttribute('aria-checked', 'false');
});
