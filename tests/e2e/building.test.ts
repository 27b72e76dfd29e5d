/** The page Build: what hangs on the outputs is chosen, output by output where wanted; the bench that follows opens, proves and prints. */
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { eventually, expect, test } from '../support/e2e.ts';
import { benchTitle } from './hands.ts';

const notebook = (page: Page) => page.locator('aside');
const output = (page: Page, name: string) => page.locator('.singly li').filter({ has: page.getByText(name, { exact: true }) });

async function openForm(page: Page, plan: string, called: string) {
  // a page that is on this bench already would only turn to Build, and keep what was built on it
  await page.goto('about:blank');
  await page.goto(`/?plan=${plan}#build`);
  await eventually(benchTitle(page)).toHaveText(called);
  await eventually(page.getByRole('button', { name: 'Build the bench' })).toBeVisible();
}
const radio = (page: Page, name: string) => page.getByRole('radio', { name: new RegExp(`^${name}`) }).check();

/** Builds with the image loaded, proves every row, prints the sheet, and answers the bench as text. */
async function buildAndProve(page: Page, called: string, rows: number) {
  await radio(page, 'loaded');
  await page.getByRole('button', { name: 'Build the bench' }).click();
  await eventually(benchTitle(page)).toHaveText(called);
  await page.getByRole('button', { name: 'Prove all rows' }).click();
  await eventually(notebook(page)).toContainText(`All ${rows} rows are right: 100 %.`);
  await page.getByRole('tab', { name: 'Lists' }).click();
  await page.getByRole('navigation', { name: 'Lists' }).getByRole('link', { name: /^Text/ }).click();
  const text = await page.getByRole('textbox', { name: 'Plan as text' }).inputValue();
  await page.getByRole('tab', { name: 'Build' }).click();
  // the tab goes back to the view that was left
  await eventually(page.getByRole('link', { name: 'Proof' })).toHaveAttribute('aria-current', 'page');
  await page.getByRole('link', { name: 'Build sheet' }).click();
  await eventually(page.getByRole('heading', { name: 'Parts' })).toBeVisible();
  await page.emulateMedia({ media: 'print' });
  await eventually(page.getByRole('img', { name: /^The bench / })).toBeVisible();
  await page.emulateMedia({ media: 'screen' });
  return text;
}

describe('a bench built from the table', () => {
  test('has for each LED the colour and the current that were chosen, and says the resistor before it is built', async ({ page }) => {
    await openForm(page, 'greenhouse', 'Greenhouse watch');
    // it begins with what the bench has: a buffer drives its LEDs
    await eventually(page.getByRole('radio', { name: /^a buffer/ })).toBeChecked();
    await page.getByRole('combobox', { name: /^Current in an LED/ }).selectOption({ label: '2 mA' });
    await page.getByRole('combobox', { name: /^Colour of the LEDs/ }).selectOption({ label: 'green' });
    await page.getByLabel('Colour of fan').selectOption({ label: 'red' });
    await page.getByLabel('Current of fan').selectOption({ label: '5 mA' });
    // (5 V − what the LED and the buffer keep) / 2 mA and 5 mA, the next of E12: 3.1 V / 2 mA is 1.5 kΩ, 3.3 V / 5 mA is 660 Ω; and what then flows
    await eventually(output(page, 'vent').locator('output')).toHaveText('1.5 kΩ, 1.96 mA');
    await eventually(output(page, 'fan').locator('output')).toHaveText('680 Ω, 4.34 mA');
    await page.getByLabel('Current of alarm').selectOption({ label: '15 mA' });
    // the buffer's pins bear less, and what can be had is said
    await eventually(output(page, 'alarm').locator('output')).not.toHaveText(/, 15 mA$/);
    const text = await buildAndProve(page, 'Greenhouse watch, built', 32);
    expect(text).toMatch(/led \S+ green .* called "vent"/);
    expect(text).toMatch(/led \S+ red .* called "fan"/);
    expect(text.match(/^resistor \S+ 1k5 /gm)?.length).toBe(6);
    expect(text.match(/^resistor \S+ 680 /gm)?.length).toBe(1);
  });

  test('shows a digit, or a bar, or switches loads that hang from plus', async ({ page }) => {
    for (const [table, called, shows, rows, kind] of [
      ['Bakery ticket counter', 'Bakery ticket counter', '7-segment display', 100, /^seven-segment-common-/m],
      ['Adding machine', 'Adding machine', 'LED bar graph', 256, /^led-bar-graph /m],
      ['The table of this bench: Greenhouse watch', 'Greenhouse watch, built', 'loads', 32, /^darlington-array-8 /m],
    ] as const) {
      await openForm(page, 'greenhouse', 'Greenhouse watch');
      const offered = await page
        .getByRole('combobox', { name: /^Table/ })
        .locator('option')
        .allTextContents();
      await page.getByRole('combobox', { name: /^Table/ }).selectOption({ label: offered.find((o) => o.startsWith(table))! });
      await radio(page, shows);
      if (shows === 'loads') {
        await page.getByRole('combobox', { name: /^Current in an LED/ }).selectOption({ label: '15 mA' });
        await eventually(page.getByLabel('Colour of fan')).toBeVisible();
        await eventually(page.getByText('Driven by')).toHaveCount(0);
      }
      expect(await buildAndProve(page, called, rows), shows).toMatch(kind);
    }
  });

  test('is refused with the cure where the choices cannot go together', async ({ page }) => {
    await openForm(page, 'ferry-ramp', 'Ferry ramp signals');
    await radio(page, 'the memory itself');
    await page.getByRole('button', { name: 'Build the bench' }).click();
    await eventually(page.locator('.form-refusal')).toHaveText(
      'Active-low LEDs directly on the memory pull its data pins up during a write. Add a buffer.',
    );
  });
});
