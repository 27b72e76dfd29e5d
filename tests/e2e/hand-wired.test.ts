/** The page Build on a bench that nobody built from a table: two memories wired by hand, their image loaded at once, proven, and printed. */
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { eventually, test } from '../support/e2e.ts';
import { TWO_BY_HAND } from '../support/two-by-hand.ts';
import { benchTitle, openText } from './hands.ts';

const notebook = (page: Page) => page.getByRole('tabpanel', { name: 'Build' });
async function openCard(page: Page, plan: object, title: string) {
  await openText(page, 'two.plan.json', JSON.stringify(plan));
  await eventually(benchTitle(page)).toHaveText(title);
  await page.getByRole('tab', { name: 'Build' }).click();
  await page.getByRole('link', { name: 'Programming card' }).click();
}

describe('two memories wired by hand', () => {
  test('take their image at once, are proven and printed, and one undo takes the image out', async ({ page }) => {
    await page.goto('/');
    await openCard(page, TWO_BY_HAND, 'Two memories by hand');
    await eventually(notebook(page)).toContainText('U1 has no write button of its own on this bench');
    await eventually(notebook(page)).toContainText("It puts the table's bytes into U1 and U2 in one step");
    await page.getByRole('button', { name: /^Load the image at once/ }).click();
    await eventually(notebook(page)).toContainText('Every byte that the table wants in U1 and U2 is in.');
    await page.getByRole('button', { name: /^Undo/ }).click();
    await page.getByRole('button', { name: /^Load the image at once/ }).click();
    await page.getByRole('link', { name: 'Prove all rows' }).click();
    await page.getByRole('button', { name: 'Prove all rows' }).click();
    await eventually(notebook(page)).toContainText('All 4 rows are right: 100 %.');
    await page.getByRole('link', { name: 'Build sheet' }).click();
    const sheet = page.getByRole('region', { name: 'Build sheet', exact: true });
    await eventually(sheet).toContainText('There is no card for this bench. U1 has no write button');
    await eventually(sheet).toContainText(/U2.{0,12}A0/);
    await eventually(sheet).toContainText('11 110');
  });

  test('with an address wire missing, say which memory cannot be loaded and what it lacks', async ({ page }) => {
    await page.goto('/');
    const wires = TWO_BY_HAND.wires.filter((l) => l.from !== 'b10' || l.to !== 'B2:a9');
    await openCard(page, { ...TWO_BY_HAND, title: 'A wire short', wires }, 'A wire short');
    await eventually(notebook(page)).toContainText('first (U2.D0): not every input of the table (x, y) is on an address pin of U2.');
    await eventually(page.getByRole('button', { name: /^Load the image at once/ })).toHaveCount(0);
  });
});
