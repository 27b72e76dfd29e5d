/** Writing bytes by hand as the card says: the next move is in sight, its place can be hit with a finger, and the strip that opens hides nothing of the bench. */
import { describe } from 'vitest';
import { eventually, expect, test } from '../support/e2e.ts';
import { boxOf } from './pointing.ts';

describe('the card followed', () => {
  test('on a telephone names and rings one move after the other, and three bytes are in', async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto('/?plan=wind-vane#build/card');
    await page.getByRole('button', { name: 'Insert an erased memory' }).click();
    await page.getByRole('button', { name: 'Follow the card' }).click();
    const move = page.locator('.follow-now');
    await eventually(move).toBeInViewport();
    await eventually(move).toHaveText('Turn the supply on.');
    await page.getByRole('switch', { name: /supply/ }).tap();
    await eventually(move).toHaveText(/^Close S2/);
    const ring = page.locator('.pointer-ring');
    let presses = 0;
    for (let moves = 0; presses < 3 && moves < 20; moves++) {
      const says = await move.innerText();
      // the first press opens the timing diagram, which takes room from the bench
      const box = await boxOf(ring);
      await eventually(ring).toBeInViewport({ ratio: 1 });
      expect(Math.min(box.width, box.height), says).toBeGreaterThan(24);
      await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
      if (says.startsWith('Press')) presses += 1;
      await eventually(move).not.toHaveText(says);
    }
    await eventually(page.locator('aside')).toContainText('13 of 16 bytes still to write.');
    await eventually(move).toBeInViewport();
  });
});

test('an LED that was asked about, and is in sight, keeps the bench from nothing: it makes room for the timing diagram', async ({
  page,
}) => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.goto('/?plan=wind-vane');
  await page.getByRole('switch', { name: /supply/ }).click();
  await page
    .locator('.bench-room')
    .getByRole('button', { name: /^N, lit/ })
    .click();
  await eventually(page.locator('.pointer-ring')).toBeVisible();
  await page.getByRole('switch', { name: /^\/OE/ }).click();
  await page.getByRole('button', { name: /^write/ }).click();
  await eventually(page.getByRole('region', { name: 'Timing diagram' })).toBeVisible();
  const lowest = async () => {
    const boxes = await Promise.all((await page.locator('.board-case').all()).map((b) => b.boundingBox()));
    return Math.max(...boxes.map((b) => (b ? b.y + b.height : Number.NaN)));
  };
  const tools = page.getByRole('button', { name: 'Zoom in', exact: true });
  await eventually.poll(async () => (await lowest()) < ((await tools.boundingBox())?.y ?? 0)).toBe(true);
});
