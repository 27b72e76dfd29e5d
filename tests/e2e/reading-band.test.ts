/** Least to most of a reading, asked for in the card of an LED, the inside view of a chip and the meter panel. */
import type { Page } from 'playwright';
import { demoPlan } from '../../shared/demo-plans.ts';
import { readingBand, sayBand } from '../../sim-core/index.ts';
import { eventually, test } from '../support/e2e.ts';
import { sensor, supply } from './hands.ts';

const plan = demoPlan('greenhouse')!;
const on = { ...plan, switches: { ...plan.switches, PS1: [true] } };
const said = (of: string): string => {
  const band = readingBand(on, of);
  return band.ok ? sayBand(band.value) : band.failure.says;
};
async function type(page: Page, command: string) {
  await page.keyboard.press('Control+K');
  await page.getByRole('combobox', { name: 'Command' }).fill(command);
  await page.keyboard.press('Enter');
}

test('of an LED, a supply, a pin and a meter; a switch that is moved takes it away', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 1000 });
  await page.goto('/?plan=greenhouse');
  await supply(page).click();
  await eventually(page.locator('.supply-volts').first()).toBeVisible();

  await type(page, 'select LED8');
  const card = page.getByRole('region', { name: 'Selection' });
  await card.getByRole('button', { name: /^Least to most of/ }).click();
  await eventually(card.locator('.band-said')).toHaveText(said('LED8'));
  await sensor(page, 'damp').click();
  await eventually(card.locator('.band-said')).toHaveText('');
  await sensor(page, 'damp').click();

  await type(page, 'select PS1');
  await card.getByRole('button', { name: 'Least to most of current of PS1' }).click();
  await eventually(card.locator('.band-said')).toHaveText(said('PS1'));

  await type(page, 'select U1');
  await card.getByRole('button', { name: /^Inside view/ }).click();
  const inside = page.getByRole('region', { name: 'Inside view of U1' });
  await inside.getByRole('combobox', { name: 'Reading' }).selectOption({ label: 'pin 9 D0' });
  await inside.getByRole('button', { name: 'Least to most of pin 9 D0' }).click();
  await eventually(inside.locator('.band-said')).toHaveText(said('U1.9'));
  await inside.getByRole('button', { name: 'Close' }).click();

  await page.getByRole('button', { name: 'Meter', exact: true }).click();
  const panel = page.locator('meter-panel');
  await panel.getByRole('radio', { name: 'amps' }).check();
  await panel.getByRole('textbox', { name: 'through' }).fill('R8.1');
  await panel.getByRole('button', { name: 'Put' }).click();
  await panel.getByRole('button', { name: 'Least to most of R8.1' }).click();
  await eventually(panel.locator('.band-said')).toHaveText(/ typical, .* to .* over specimens\./);
});
