/** An act that takes seconds on any machine: the page says that it is still computing, and a stop ends it where the bench is. */
import { eventually, expect, test } from '../support/e2e.ts';
import { swingingBench } from '../support/swinging-bench.ts';
import { benchTitle, openText, supply } from './hands.ts';

test('a bench of oscillators that is switched on is still computing until it is stopped, and goes on from there', async ({ page }) => {
  await page.goto('/');
  const plan = swingingBench(16);
  await openText(page, 'oscillators.plan.json', JSON.stringify(plan));
  await eventually(benchTitle(page)).toHaveText(plan.title);
  await supply(page).press('Enter');
  const status = page.getByRole('status');
  await eventually(status).toHaveText('Still computing');
  const stop = page.getByRole('button', { name: 'Stop', exact: true });
  await stop.click();
  const alert = page.getByRole('alert');
  await eventually(alert).toContainText(/^Stopped .* after it began, before everything was at rest\. The bench goes on from there\./);
  await eventually(stop).toHaveCount(0);
  expect(await supply(page).getAttribute('aria-checked')).toBe('true');
  // the next act is heard
  await alert.getByRole('button', { name: 'Close' }).click();
  await supply(page).press('Enter');
  await eventually(supply(page)).toHaveAttribute('aria-checked', 'false');
  await eventually(stop).toHaveCount(0);
});
