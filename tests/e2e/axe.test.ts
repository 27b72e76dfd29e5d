/** axe (WCAG 2.2 A and AA, and its best practice) finds nothing against the page: at two widths, on every page of the panel, in both themes; colours, which no width changes, in the dark theme at one. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { eventually, expect, test } from '../support/e2e.ts';
import { AXE_RULES, violationsOf } from './axe-finds.ts';
import { benchTitle, showsByte, supply } from './hands.ts';

/** Dark colours are looked at here only. */
const WIDE = 1440;
async function turnTo(page: Page, name: string) {
  const tab = page.getByRole('tab', { name: new RegExp(`^${name}`) });
  await tab.click();
  await eventually(tab).toHaveAttribute('aria-selected', 'true');
}

describe.each([
  [WIDE, 900],
  [390, 844],
])('%i wide', (width, height) => {
  test('axe finds nothing', async ({ page }) => {
    await page.setViewportSize({ width, height });
    await page.goto('/?plan=greenhouse-blank');
    await supply(page).focus();
    await page.keyboard.press('Space');
    await showsByte(page, 0xff);
    // the whole once; then the panel's other pages; then in the other theme what a theme can change
    expect(await violationsOf(new AxeBuilder({ page }).withTags(AXE_RULES))).toEqual([]);
    const panel = () => new AxeBuilder({ page }).include('aside');
    for (const name of ['Findings', 'Table', 'Lists']) {
      await turnTo(page, name);
      expect(await violationsOf(panel().withTags(AXE_RULES)), name).toEqual([]);
    }
    await page.getByRole('link', { name: 'What is computed' }).click();
    await eventually(page.getByRole('tabpanel', { name: 'Limits of what is computed' })).toBeVisible();
    expect(await violationsOf(panel().withTags(AXE_RULES)), 'Limits').toEqual([]);
    if (width !== WIDE) return;
    await page.getByRole('button', { name: 'Dark theme' }).click();
    await eventually(page.locator('html')).toHaveAttribute('data-theme', 'dark');
    for (const name of ['Lists', 'Table', 'Findings', 'Why']) {
      await turnTo(page, name);
      expect(await violationsOf(panel().withRules(['color-contrast', 'link-in-text-block'])), `${name}, dark`).toEqual([]);
    }
    expect(await violationsOf(new AxeBuilder({ page }).exclude('aside').withRules(['color-contrast'])), 'dark').toEqual([]);
  });

  test('axe finds nothing against the first steps, the help, the examples and what is shared', async ({ page }) => {
    await page.goto('/');
    await page.setViewportSize({ width, height });
    const looks = width === WIDE ? ['Light', 'Dark'] : ['Light'];
    for (const look of looks) {
      if (look === 'Dark') await page.getByRole('button', { name: 'Dark theme' }).click();
      const axe = (where: string) => violationsOf(new AxeBuilder({ page }).include(where).withTags(AXE_RULES));
      await eventually(page.getByRole('region', { name: 'First steps' })).toBeVisible();
      expect(await axe('first-steps'), `first steps, ${look}`).toEqual([]);
      await page.getByRole('button', { name: 'Help', exact: true }).click();
      await eventually(page.getByRole('dialog', { name: 'Help' })).toBeVisible();
      expect(await axe('help-dialog'), `help, ${look}`).toEqual([]);
      await page.getByRole('button', { name: 'Examples and riddles' }).click();
      await eventually(page.locator('.example-picture svg').first()).toBeVisible();
      expect(await axe('plan-gallery'), `examples, ${look}`).toEqual([]);
      await page.keyboard.press('Escape');
      await page.keyboard.press('Control+K');
      await page.keyboard.type('share');
      await page.keyboard.press('Enter');
      await eventually(page.getByRole('img', { name: 'QR code of the link' })).toBeVisible();
      expect(await axe('share-dialog'), `share, ${look}`).toEqual([]);
      await page.keyboard.press('Escape');
    }
  });

  test('axe finds nothing against the menu of benches', async ({ page }) => {
    await page.goto('/');
    await page.setViewportSize({ width, height });
    await benchTitle(page).getByRole('button').click();
    await eventually(page.getByRole('textbox', { name: 'Name' })).toBeVisible();
    expect(await violationsOf(new AxeBuilder({ page }).include('.corner.top').withTags(AXE_RULES))).toEqual([]);
  });

  test('axe finds nothing in the lists, the plan as text, the command line and the key list', async ({ page }) => {
    await page.goto('/');
    await page.setViewportSize({ width, height });
    await supply(page).focus();
    await page.keyboard.press('Space');
    await turnTo(page, 'Lists');
    const lists = page.getByRole('navigation', { name: 'Lists' });
    const everywhere = async (rules: readonly string[], look: string) => {
      const axe = (where: string) => {
        const within = new AxeBuilder({ page }).include(where);
        return violationsOf(look === 'light' ? within.withTags([...rules]) : within.withRules([...rules]));
      };
      for (const name of ['Wires', 'Nets', 'Text']) {
        await lists.getByRole('link', { name: new RegExp(`^${name}`) }).click();
        expect(await axe('aside'), `${name}, ${look}`).toEqual([]);
      }
      await page.getByRole('textbox', { name: 'Plan as text' }).fill('resistor R1 from a1 to a5 4k7');
      await eventually(page.locator('.line-mark')).toHaveCount(1);
      expect(await axe('aside'), `a line that cannot be read, ${look}`).toEqual([]);
      await page.keyboard.press('Control+K');
      await page.keyboard.type('zoom ');
      await page.keyboard.press('ArrowDown');
      await eventually(page.getByRole('option', { selected: true })).toBeVisible();
      expect(await axe('command-line'), `command line, ${look}`).toEqual([]);
      await page.keyboard.press('Control+A');
      await page.keyboard.type('keys');
      await page.keyboard.press('Enter');
      await eventually(page.getByRole('dialog', { name: 'Keys and commands' })).toBeVisible();
      expect(await axe('key-list'), `key list, ${look}`).toEqual([]);
      await page.keyboard.press('Escape');
    };
    await everywhere(AXE_RULES, 'light');
    if (width !== WIDE) return;
    await page.getByRole('button', { name: 'Dark theme' }).click();
    await eventually(page.locator('html')).toHaveAttribute('data-theme', 'dark');
    await everywhere(['color-contrast', 'link-in-text-block'], 'dark');
  });
});
