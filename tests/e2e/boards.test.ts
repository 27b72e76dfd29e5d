/** Boards by hand: chosen and moved by the rim, cut at the middle of their rails, mended by a finding's cure, and taken off. */
import type { Page } from 'playwright';
import { eventually, expect, test } from '../support/e2e.ts';
import { led, supply } from './hands.ts';
import { boxOf } from './pointing.ts';

/** The middle of the left rim [px]. */
async function rim(page: Page) {
  const box = await boxOf(page.locator('.board-case').first());
  return { x: box.x + 5, y: box.y + box.height / 2, pitch: box.width / 65 };
}
const card = (page: Page) => page.getByRole('region', { name: 'Selection' });

test('a board is cut by its card; the halves are joined again by what the findings offer', async ({ page }) => {
  await page.goto('/?plan=greenhouse');
  await supply(page).click();
  await eventually(led(page, 'all well')).toHaveAccessibleName(/lit/);
  const { x, y } = await rim(page);
  await page.mouse.click(x, y);
  await eventually(card(page)).toContainText('Board');
  await card(page).getByRole('button', { name: 'Cut rails' }).click();
  await eventually(led(page, 'all well')).toHaveAccessibleName(/dark/);
  await page.getByRole('tab', { name: /^Findings/ }).click();
  const list = page.getByRole('tabpanel', { name: /^Findings/ });
  const cures = list.getByRole('button', { name: /^Connect [+-][aj]\d+ and [+-][aj]\d+ with a wire$/ });
  await eventually(cures.first()).toBeVisible();
  for (let n = await cures.count(); n > 0; n = await cures.count()) {
    await cures.first().click();
    await eventually(cures).toHaveCount(n - 1);
  }
  await eventually(led(page, 'all well')).toHaveAccessibleName(/lit/);
});

test('a board moves by its rim and by arrows, with all that stands on it, and undo puts it back', async ({ page }) => {
  await page.goto('/?plan=greenhouse');
  await supply(page).click();
  await eventually(led(page, 'all well')).toHaveAccessibleName(/lit/);
  const away = async () => {
    const [board, light] = [await boxOf(page.locator('.board-case')), await boxOf(led(page, 'all well'))];
    // in parts of the board: the bench is shown whole again after the move
    return ((light.x - board.x) / board.width).toFixed(2);
  };
  const [apart, spot] = [await away(), () => page.locator('.board-case').getAttribute('x')];
  const at = await spot();
  const { x, y, pitch } = await rim(page);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 2 * pitch, y + pitch, { steps: 4 });
  await page.mouse.move(x + 3 * pitch, y + 2 * pitch, { steps: 4 });
  await page.mouse.up();
  const undo = page.getByRole('button', { name: 'Undo: move board B1' });
  await eventually(undo).toBeVisible();
  expect(Number(await spot()) - Number(at)).toBe(60);
  expect(await away()).toBe(apart);
  await eventually(led(page, 'all well')).toHaveAccessibleName(/lit/);
  await undo.click();
  await eventually.poll(spot).toBe(at);
  const again = await rim(page);
  await page.mouse.click(again.x, again.y);
  await page.keyboard.press('ArrowRight');
  await eventually.poll(async () => Number(await spot()) - Number(at)).toBe(20);
});
