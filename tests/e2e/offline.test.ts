/** After the first visit the page needs no network: the bench that was open last comes back and is live. */
import { readFileSync } from 'node:fs';
import { expect as eventually } from 'playwright/test';
import type { Plan } from '../../shared/plan.ts';
import { test } from '../support/e2e.ts';
import { sensor, showsByte, supply } from './hands.ts';

const plan = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;

test('a reload without a network brings the last bench back', async ({ page, context }) => {
  await eventually(page.getByRole('heading', { level: 1 })).toHaveText('Greenhouse watch');
  await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);
  await context.setOffline(true);
  await page.reload();
  await eventually(page.getByRole('heading', { level: 1 })).toHaveText('Greenhouse watch');
  await supply(page).click();
  await showsByte(page, plan.wanted!.rows[0]!);
  await sensor(page, 'raining').click();
  await showsByte(page, plan.wanted!.rows[16]!);
});
