/** Writing bytes by hand on a telephone: the next move is in sight, its place is large enough for a finger, and the tap there does it. */
import { expect as eventually } from 'playwright/test';
import { describe } from 'vitest';
import { expect, test } from '../support/e2e.ts';

describe('the card followed on a telephone', { timeout: 60_000 }, () => {
  test('names and rings one move after the other, and three bytes are in', async ({ page }) => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto('/?plan=wind-vane#build/card');
    await page.getByRole('button', { name: 'Put an erased memory in' }).click();
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
      await eventually(ring).toBeInViewport({ ratio: 1 });
      const box = await ring.boundingBox();
      if (!box) throw new Error(`nothing is ringed at: ${says}`);
      expect(Math.min(box.width, box.height), says).toBeGreaterThan(24);
      await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
      if (says.startsWith('Press')) presses += 1;
      await eventually(move).not.toHaveText(says);
    }
    await eventually(page.locator('aside')).toContainText('13 of 16 bytes are still to be written.');
    await eventually(move).toBeInViewport();
  });
});
