/** Undo and redo on the page: by button, which says what it would take back, and by key; what hands and chips did meanwhile stays. */
import { eventually, expect, test } from '../support/e2e.ts';
import { led, sensor, showsByte, supply } from './hands.ts';

test('a change is undone and redone, by button and by keys, and the switches stay as they were set since', async ({ page }) => {
  await page.goto('/?plan=greenhouse-dark-vent');
  await led(page, 'vent').click();
  const why = page.getByRole('tabpanel', { name: 'Why' });
  await why.getByRole('button', { name: 'Apply' }).click();
  const undo = page.getByRole('button', { name: /^Undo: / });
  const redo = page.getByRole('button', { name: /^Redo: / });
  await eventually(undo).toHaveAttribute('title', /^Undo: (move|add|remove|set|turn) /);
  const says = (await undo.getAttribute('title'))!.replace('Undo: ', '');
  await sensor(page, 'dark').click();
  await undo.click();
  await eventually(redo).toHaveAttribute('title', `Redo: ${says}`);
  await eventually(undo).toHaveAttribute('title', /^Undo: nothing to undo/);
  await eventually(sensor(page, 'dark')).toHaveAttribute('aria-checked', 'true');
  await page.keyboard.press('Control+Shift+Z');
  await eventually(undo).toHaveAttribute('title', `Undo: ${says}`);
  await page.keyboard.press('Control+z');
  await eventually(redo).toHaveAttribute('title', `Redo: ${says}`);
  await page.keyboard.press('Control+y');
  await eventually(undo).toHaveAttribute('title', `Undo: ${says}`);
  await eventually(supply(page)).toHaveAttribute('aria-checked', 'true');
});

test('a meter put down is one step, and the bytes of a write stay when it is undone', async ({ page }) => {
  await page.goto('/?plan=greenhouse-blank');
  await supply(page).click();
  await page.getByRole('button', { name: 'Meter' }).click();
  await page.getByRole('form', { name: 'Meter' }).getByRole('textbox').first().fill('a3');
  await page.keyboard.press('Enter');
  await eventually(page.getByRole('button', { name: 'Undo: add meter M1' })).toBeVisible();
  await page.keyboard.press('Escape');
  const enable = page.getByRole('group', { name: '/OE high to write', exact: true }).getByRole('switch');
  await showsByte(page, 0xff);
  await enable.click();
  await page.getByRole('button', { name: 'write', exact: true }).click();
  await showsByte(page, 0x00);
  await enable.click();
  await showsByte(page, 0x00);
  await page.getByRole('button', { name: 'Undo: add meter M1' }).click();
  await eventually(page.getByRole('button', { name: 'Redo: add meter M1' })).toBeVisible();
  await showsByte(page, 0x00);
  expect(await page.getByRole('alert').count()).toBe(0);
});
