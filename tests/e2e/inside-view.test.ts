/** A write seen from near: the close-up of the memory, the waveforms with their figures, the slow replay, and the dump of them. */
import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { eventually, expect, test } from '../support/e2e.ts';
import { readVcd } from '../support/vcd.ts';
import { sensor, supply, tabTo } from './hands.ts';
import { boxOf } from './pointing.ts';

const inside = (page: Page) => page.getByRole('region', { name: 'Inside view of U1' });
const strip = (page: Page) => page.getByRole('region', { name: 'Timing diagram' });
const value = (page: Page, name: string) => inside(page).locator('.block', { hasText: name }).locator('output');

/** The erased bench with the byte 0x0A written at address 5. */
async function write(page: Page) {
  await page.setViewportSize({ width: 1440, height: 1000 });
  await page.goto('/?plan=greenhouse-blank');
  await supply(page).click();
  await page.getByRole('group', { name: '/OE high to write', exact: true }).getByRole('switch').click();
  for (const name of ['hot', 'dark']) await sensor(page, name).click();
  for (const name of ['fan', 'heater'])
    await page
      .getByRole('group', { name: 'data', exact: true })
      .getByRole('switch', { name: new RegExp(`${name}`) })
      .click();
  await page.getByRole('button', { name: 'write', exact: true }).click();
  await eventually(strip(page)).toContainText('write of 0A at 0x005: stored');
  // where it would cover the bench, its first line alone opens by itself
  const open = page.getByRole('button', { name: 'Open the timing diagram' });
  if (await open.isVisible()) await open.click();
}

describe('the inside view of a chip', () => {
  test('opens by double click, shows what the memory does, follows the switches, and closes', async ({ page }) => {
    await page.goto('/?plan=greenhouse');
    await supply(page).click();
    await page.locator('.memory-chip').dblclick();
    await eventually(inside(page)).toContainText('Reading');
    await eventually(value(page, 'address pins')).toHaveText('0x000');
    await eventually(value(page, 'data pins')).toHaveText('80');
    await eventually(inside(page).locator('td[aria-current]')).toHaveText('80');
    await sensor(page, 'hot').click();
    await eventually(value(page, 'address pins')).toHaveText('0x001');
    await eventually(inside(page).getByText('pin 8 A0, high')).toBeAttached();
    await inside(page).getByRole('button', { name: 'Close' }).click();
    await eventually(inside(page)).toHaveCount(0);
  });

  test.for([
    [1440, 900],
    [820, 1180],
    [390, 844],
  ] as const)('at %i × %i leaves its chip in sight, with the panel shown or hidden', async ([width, height], { page }) => {
    await page.setViewportSize({ width, height });
    await page.goto('/?plan=greenhouse');
    const chip = page.locator('[data-part="U1"] .chip-body, .memory-chip .chip-body').first();
    for (const fold of [false, true]) {
      if (fold) await page.getByRole('button', { name: 'Hide panel' }).click();
      await page.locator('.memory-chip').click({ position: { x: 12, y: 12 } });
      await page.getByRole('button', { name: /^Inside view/ }).click();
      await eventually(inside(page)).toBeVisible();
      await eventually
        .poll(async () => {
          const [c, p] = [await chip.boundingBox(), await inside(page).boundingBox()];
          if (!c || !p) return 'not there';
          const apart = c.x + c.width <= p.x || p.x + p.width <= c.x || c.y + c.height <= p.y || p.y + p.height <= c.y;
          return apart && c.x >= 0 && c.y >= 0 && c.x + c.width <= width && c.y + c.height <= height ? 'in sight' : 'hidden';
        })
        .toBe('in sight');
      await inside(page).getByRole('button', { name: 'Close' }).click();
    }
  });

  test('opens by keyboard and by name, and a screen reader finds nothing wrong with it', async ({ page }) => {
    await page.goto('/?plan=greenhouse');
    await eventually(page.getByRole('button', { name: /^U1, EEPROM/ })).toBeVisible();
    await tabTo(page, /^U1, EEPROM/, 40);
    await page.keyboard.press('Enter');
    await eventually(inside(page)).toContainText('No supply: it drives no pin and reads none.');
    await page.keyboard.press('Escape');
    await eventually(inside(page)).toHaveCount(0);
    await page.keyboard.press('Control+k');
    await page.keyboard.type('inside view U1');
    await page.keyboard.press('Enter');
    await eventually(inside(page)).toBeVisible();
    for (const theme of ['Dark theme', 'Light theme']) {
      await page.getByRole('button', { name: theme }).click();
      const { violations } = await new AxeBuilder({ page }).include('inside-view').setLegacyMode().analyze();
      expect(violations.flatMap((v) => v.nodes.map((n) => `${v.id} ${n.target.join(' ')}`))).toEqual([]);
    }
  });
});

describe('the timing diagram', () => {
  test('shows a write with its figures, and at the cursor what was latched then', async ({ page }) => {
    await write(page);
    await eventually(strip(page).locator('.bar', { hasText: '/WE low, guaranteed' })).toContainText(/2\d\d ns\s*at least 100 ns/);
    await eventually(strip(page).locator('.wave-mark')).toHaveText(['address latched', 'data latched']);
    await page.locator('.memory-chip').dblclick();
    await eventually(value(page, 'latched address')).toHaveText('none');
    // to the two moments, by where their lines are drawn
    const at = async (mark: string, past: number) => {
      const line = await boxOf(strip(page).locator('.wave-mark', { hasText: mark }).locator('path'));
      const waves = await boxOf(strip(page).locator('.waves'));
      await page.mouse.click(line.x + past, waves.y + 60);
    };
    await at('address latched', 12);
    await eventually(value(page, 'latched address')).toHaveText('0x005');
    await eventually(value(page, 'latched byte')).toHaveText('none');
    await at('data latched', 12);
    await eventually(value(page, 'latched byte')).toHaveText('0A');
    await strip(page).getByRole('button', { name: 'Back to now' }).click();
    await eventually(value(page, 'latched address')).toHaveText('none');
    await eventually(inside(page).locator('td[aria-current]')).toHaveText('0A');
  });

  test('replays a write: who wants no motion sees the moment at which the address is latched and the byte is not yet', async ({ page }) => {
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await write(page);
    await page.locator('.memory-chip').dblclick();
    await strip(page).getByRole('button', { name: 'Replay slowly' }).click();
    await eventually(inside(page)).toContainText('Write strobe low: address 0x005 is latched');
    await eventually(value(page, 'latched byte')).toHaveText('none');
  });

  test('leaves as a value change dump with the same pulse', async ({ page }) => {
    await write(page);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      strip(page).getByRole('button', { name: 'Save the waveforms as VCD' }).click(),
    ]);
    expect(file.suggestedFilename()).toMatch(/\.vcd$/);
    const { signals } = readVcd(readFileSync(await file.path(), 'utf8'));
    const we = signals.get('U1.WE_n')!;
    const low = we.findIndex((c) => c.value === '0');
    const width = (we[low + 1]!.tick - we[low]!.tick) / 1000;
    const shown = Number(/low, guaranteed\s*(\d+) ns/.exec((await strip(page).locator('.bars').textContent()) ?? '')?.[1]);
    expect(Math.abs(width - shown)).toBeLessThan(1);
  });
});
