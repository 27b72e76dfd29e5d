/** Every action by name: the command line opened by a key, completed, refused with a cure, done; and the key list. */
import { eventually, test } from '../support/e2e.ts';
import { led, sensor, showsByte, supply } from './hands.ts';

test('with keys alone: supply and switch by name, completed by Tab and by arrows, refused with the cure, and spoken of', async ({
  page,
}) => {
  await page.goto('/');
  await eventually(led(page, 'vent')).toBeVisible();
  await page.keyboard.press('Control+K');
  const field = page.getByRole('combobox', { name: 'Command' });
  await eventually(field).toBeFocused();
  await page.keyboard.type('switch PS1 on');
  await page.keyboard.press('Enter');
  await eventually(supply(page)).toHaveAttribute('aria-checked', 'true');
  await eventually(field).toBeHidden();

  await page.keyboard.press('Control+K');
  await page.keyboard.type('swi');
  await page.keyboard.press('Tab');
  await eventually(field).toHaveValue('switch ');
  await page.keyboard.type('S1 win');
  await page.keyboard.press('ArrowDown');
  await eventually(page.getByRole('option', { name: /switch S1 4/ })).toHaveAttribute('aria-selected', 'true');
  await page.keyboard.press('Enter');
  await eventually(sensor(page, 'windy')).toHaveAttribute('aria-checked', 'true');

  await page.keyboard.press('Control+K');
  await page.keyboard.type('clear');
  await page.keyboard.press('Enter');
  await eventually(page.getByText('No command "clear".')).toBeVisible();
  await page.keyboard.press('Escape');
  await eventually(field).toBeHidden();
  await eventually(sensor(page, 'windy')).toHaveAttribute('aria-checked', 'true');

  await page.keyboard.press('Control+K');
  await page.keyboard.type('switch S1 9 on');
  await page.keyboard.press('Enter');
  await eventually(page.getByText('S1 (sensors) has no pole 9: it has 1 to 5.')).toBeVisible();
  await eventually(field).toHaveValue('switch S1 9 on');
  await page.keyboard.press('Escape');
  await eventually(field).toBeHidden();
  await page.keyboard.press('Control+K');
  await page.keyboard.press('ArrowUp');
  await eventually(field).toHaveValue('switch S1 4');
});

test('the menu at the pointer: an LED is asked why, a name is gone on with in the command line, and the wiring is tidied in one undo', async ({
  page,
}) => {
  await page.goto('/');
  const vent = led(page, 'vent');
  await eventually(vent).toBeVisible();
  await vent.click({ button: 'right' });
  const menu = page.getByRole('menu');
  await eventually(menu.getByRole('menuitem').first()).toBeFocused();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Enter');
  await eventually(menu).toBeHidden();
  await eventually(page).toHaveURL(/#why\/LED1$/);

  await vent.click({ button: 'right' });
  await menu.getByRole('menuitem', { name: 'Name…' }).click();
  await eventually(page.getByRole('combobox', { name: 'Command' })).toHaveValue('call LED1 ');
  await page.keyboard.press('Escape');

  await page.locator('svg.bench').click({ button: 'right', position: { x: 30, y: 120 } });
  await menu.getByRole('menuitem', { name: 'Tidy wiring' }).click();
  await eventually(page.getByText(/Crossings: \d+ before, \d+ now/)).toBeAttached();
  const undo = page.getByRole('button', { name: /^Undo/ });
  await undo.click();
  await eventually(undo).toBeDisabled();
});

test('the panel, a plan and the look by name', async ({ page }) => {
  await page.goto('/');
  await eventually(led(page, 'vent')).toBeVisible();
  const type = async (line: string) => {
    await page.keyboard.press('Control+K');
    await page.keyboard.type(line);
    await page.keyboard.press('Enter');
  };
  await type('findings');
  await eventually(page.getByRole('tab', { name: /^Findings/ })).toHaveAttribute('aria-selected', 'true');
  await type('dark theme');
  await eventually(page.locator('html')).toHaveAttribute('data-theme', 'dark');
  await type('open greenhouse-blank');
  await eventually(page.getByRole('button', { name: /^Greenhouse watch, to be written/ })).toBeVisible();
  await type('switch PS1 on');
  await showsByte(page, 0xff);
  await type('meter volts at +j8');
  await eventually(page.getByRole('button', { name: 'Remove the meter at +j8' })).toBeVisible();
});

test('the key list opens by ? and closes by Escape; single keys can be turned off', async ({ page }) => {
  await page.goto('/');
  await eventually(led(page, 'vent')).toBeVisible();
  const list = page.getByRole('dialog', { name: 'Keys and commands' });
  await page.keyboard.press('?');
  await eventually(list).toBeVisible();
  await eventually(list.getByText('switch SWITCH [POLE] [on or off]')).toBeVisible();
  await list.getByRole('checkbox').uncheck();
  await page.keyboard.press('Escape');
  await eventually(list).toBeHidden();
  await page.keyboard.press('?');
  await page.keyboard.press('Control+K');
  await eventually(page.getByRole('combobox', { name: 'Command' })).toBeFocused();
  await eventually(list).toBeHidden();
});
