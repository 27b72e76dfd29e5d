/** Meters on the bench in a browser: several at once, moved, named, kept in the plan, live. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { sensor, supply } from './hands.ts';
import { boxOf } from './pointing.ts';

const panel = (page: Page) => page.locator('meter-panel');
const tag = (page: Page, name: string) => page.locator('.meter-tag', { hasText: name });

async function put(page: Page, measures: string, place: string) {
  await panel(page).getByRole('radio', { name: measures }).check();
  await panel(page)
    .getByRole('textbox', { name: measures === 'amps' ? 'through' : /^at/ })
    .fill(place);
  await panel(page).getByRole('button', { name: 'Put' }).click();
  await eventually(tag(page, place)).toHaveCount(1);
}

test('a voltmeter, a clamp and a probe stand on the bench together and follow the switches', async ({ page, context }) => {
  await context.addInitScript(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
  await page.setViewportSize({ width: 1440, height: 1000 });
  await page.goto('/?plan=greenhouse');
  await supply(page).click();
  await page.getByRole('button', { name: 'Meter', exact: true }).click();
  // A0 of the memory is in row 20
  await put(page, 'volts', 'b20');
  await put(page, 'amps', 'PS1.+');
  await put(page, 'level', 'c20');
  await eventually(tag(page, 'b20').locator('.tag-figure')).toHaveText(/^\d[\d.]* [µm]V$|^0 V$/);
  await eventually(tag(page, 'c20').locator('.tag-figure')).toHaveText('L');
  await eventually(tag(page, 'PS1.+')).toContainText(/\d mA/);
  await sensor(page, 'hot').click();
  await eventually(tag(page, 'b20')).toContainText(/[45](\.\d+)? V/);
  await eventually(tag(page, 'c20').locator('.tag-figure')).toHaveText(/^H/);

  // named in the panel, moved on the drawing
  await panel(page).getByRole('textbox', { name: 'Name of the meter at b20' }).fill('hot line');
  await page.keyboard.press('Enter');
  await eventually(tag(page, 'hot line')).toHaveCount(1);
  const card = await boxOf(tag(page, 'hot line').locator('.tag-card'));
  await page.mouse.move(card.x + 20, card.y + 10);
  await page.mouse.down();
  await page.mouse.move(card.x + 90, card.y + 70, { steps: 4 });
  await page.mouse.up();
  await eventually.poll(async () => Math.round((await boxOf(tag(page, 'hot line').locator('.tag-card'))).x - card.x)).toBeGreaterThan(55);

  // and all of it is in the saved plan
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+k');
  await page.keyboard.type('save');
  const [file] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  const { meters } = JSON.parse(readFileSync(await file.path(), 'utf8')) as Plan;
  expect(meters.map((m) => m.measures).sort()).toEqual(['amps', 'level', 'volts']);
  const kept = meters.find((m) => m.label === 'hot line');
  expect(kept).toMatchObject({ measures: 'volts', at: 'b20' });
  expect(kept?.tag?.[0]).toBeGreaterThan(1);
});
