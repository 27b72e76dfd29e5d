/** After the first visit the page needs no network: the bench that was open last, or the one the address names, comes back and is live. */
import { readFileSync } from 'node:fs';
import type { Plan } from '../../shared/plan.ts';
import { eventually, test } from '../support/e2e.ts';
import { benchTitle, isKept, sensor, showsByte, supply } from './hands.ts';

const plan = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;

test('a reload without a network brings the last bench back', async ({ page, context }) => {
  await page.goto('/');
  await eventually(benchTitle(page)).toHaveText('Greenhouse watch');
  await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);
  await context.setOffline(true);
  await page.reload();
  await eventually(benchTitle(page)).toHaveText('Greenhouse watch');
  await supply(page).click();
  await showsByte(page, plan.wanted!.rows[0]!);
  await sensor(page, 'raining').click();
  await showsByte(page, plan.wanted!.rows[16]!);
});

test('without a network the address brings back the demonstration it names, and says so if it is not kept', async ({ page, context }) => {
  const title = benchTitle(page);
  const dim = JSON.parse(readFileSync('shared/demos/greenhouse-dim-grow-light.plan.json', 'utf8')) as Plan;
  await page.goto('/?plan=greenhouse');
  await eventually(title).toHaveText('Greenhouse watch');
  await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);
  await context.setOffline(true);
  await page.goto('/?plan=greenhouse-dim-grow-light');
  await eventually(title).toHaveText(dim.title);
  await isKept(page, dim.title);
  // kept no more, as where the browser has cleared its storage
  await page.evaluate(async () => (await caches.open('lampwright-plans')).delete('/api/plans/greenhouse-dark-vent'));
  await page.goto('/?plan=greenhouse-dark-vent');
  await eventually(title).toHaveText(dim.title);
  await eventually(page.getByRole('alert')).toContainText('The server cannot be reached.');
  // the examples as well, with their pictures
  await page.getByRole('button', { name: 'Help', exact: true }).click();
  await page.getByRole('button', { name: 'Examples and riddles' }).click();
  const examples = page.getByRole('dialog', { name: 'Examples' });
  await eventually(examples.locator('[data-demo=wind-vane] svg')).toHaveCount(1);
  await examples.getByRole('button', { name: /^Wind vane/ }).click();
  await eventually(title).toHaveText('Wind vane');
});
