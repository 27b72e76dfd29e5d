/** A first visit, from the screen alone: an LED lit from a switch through a memory on an empty bench; a dark LED understood and mended; a byte written and read back. */
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { LINE_Y } from '../../sim-core/board/boards.ts';
import { eventually, test } from '../support/e2e.ts';
import { benchTitle, led, sensor, showsByte, supply } from './hands.ts';
import { drag, onScreen, type Spot, terminal } from './pointing.ts';

const title = (page: Page) => benchTitle(page).getByRole('button');
const shelf = (page: Page) => page.getByRole('region', { name: 'Parts' });
const notebook = (page: Page) => page.getByRole('complementary', { name: 'Panel' });

async function another(page: Page, name: string | RegExp, called = String(name)) {
  await eventually(supply(page)).toBeVisible();
  await title(page).click();
  await page.getByRole('button', { name, exact: typeof name === 'string' }).click();
  await eventually(benchTitle(page)).toHaveText(called);
}

/** Where the eye sees a hole: the line by its letter, the row by its number along the board. */
const hole = (page: Page, line: string, row: number): Promise<Spot> => onScreen(page, row, LINE_Y[line as keyof typeof LINE_Y]);

async function put(page: Page, part: string | RegExp, line: string, row: number) {
  await shelf(page).getByRole('button', { name: part }).click();
  const { x, y } = await hole(page, line, row);
  await page.mouse.click(x, y);
}

type End = readonly [line: string, row: number] | 'PS1.+' | 'PS1.-';
const spot = (page: Page, end: End): Promise<Spot> => (typeof end === 'string' ? terminal(page, end) : hole(page, ...end));
async function wire(page: Page, from: End, to: End) {
  const before = await page.locator('svg.bench .wire').count();
  await drag(page, await spot(page, from), await spot(page, to));
  await eventually(page.locator('svg.bench .wire')).toHaveCount(before + 1);
}

describe('a newcomer', () => {
  test('takes three first steps that tick themselves off, puts them away for good, and opens an example by its picture', async ({
    page,
  }) => {
    await page.goto('/');
    const steps = page.getByRole('region', { name: 'First steps' });
    const isDone = (step: string) => eventually(steps.getByRole('button', { name: `${step}, done` })).toBeVisible();
    await eventually(steps).toContainText('a memory does the work of logic');
    await eventually(steps.getByRole('button', { name: /, done$/ })).toHaveCount(0);
    // the step shows what it is done on
    await steps.getByRole('button', { name: 'Switch the supply on' }).click();
    await eventually(page.locator('.pointer-ring')).toHaveCount(1);
    await supply(page).click();
    await isDone('Switch the supply on');
    await sensor(page, 'damp').click();
    await isDone('Set a switch');
    await led(page, 'vent').click();
    await isDone('Click an LED to ask why');
    await steps.getByRole('button', { name: 'Now see the examples' }).click();
    const examples = page.getByRole('dialog', { name: 'Examples' });
    const adding = examples.getByRole('button', { name: /^Adding machine/ });
    await eventually(adding.locator('svg')).toHaveCount(1);
    await adding.click();
    await eventually(benchTitle(page)).toHaveText('Adding machine');
    await steps.getByRole('button', { name: 'Done', exact: true }).click();
    await eventually(steps).toHaveCount(0);
    await page.reload();
    await eventually(supply(page)).toBeVisible();
    await eventually(steps).toHaveCount(0);
  });

  test('lights an LED from a switch through a memory, on an empty bench with Parts and panel open', async ({ page }) => {
    await page.goto('/');
    await page.setViewportSize({ width: 1440, height: 900 });
    await another(page, /^New bench/, 'New bench');
    await eventually(notebook(page).getByRole('heading', { level: 2 })).toContainText('The bench is empty');
    await notebook(page).getByRole('button', { name: 'Open Parts.' }).click();

    await put(page, /^EEPROM 2K × 8/, 'e', 11);
    await put(page, /^DIP switch/, 'e', 28);
    await put(page, /^LED, 5 mm/, 'c', 40);
    // from the LED's other leg to a row that a wire takes to minus
    await put(page, /^Resistor 330 Ω/, 'b', 41);
    await shelf(page).getByRole('searchbox').fill('10k');
    await put(page, /^Resistor 10 kΩ/, 'a', 18);

    await wire(page, 'PS1.+', ['+j', 3]);
    await wire(page, 'PS1.-', ['-j', 4]);
    await wire(page, ['-j', 7], ['-a', 7]);
    // addresses A1 to A7 low, and the memory's own minus
    for (const row of [11, 12, 13, 15, 16, 17]) await wire(page, ['d', row], ['-a', row]);
    await wire(page, ['d', 14], ['c', 15]);
    await wire(page, ['d', 22], ['-a', 22]);
    // A8, A9, /OE, A10, /CE low; VCC and /WE high
    for (const row of [12, 13, 15, 16, 17]) await wire(page, ['j', row], ['-j', row]);
    await wire(page, ['j', 11], ['+j', 11]);
    await wire(page, ['j', 14], ['+j', 15]);
    // plus through the switch to A0; D0 through the LED to minus
    await wire(page, ['g', 28], ['+j', 28]);
    await wire(page, ['d', 28], ['c', 18]);
    await wire(page, ['c', 19], ['d', 40]);
    await wire(page, ['a', 45], ['-a', 45]);

    await supply(page).click();
    await eventually(led(page, 'LED1')).toHaveAccessibleName(/^LED1, lit/);

    // an erased memory shines at every address: the byte of address 0 is set from the screen
    const chip = await hole(page, 'f', 17);
    await page.mouse.click(chip.x, chip.y + 15);
    await page.getByRole('button', { name: 'Inside view and bytes' }).click();
    const store = page.getByRole('form', { name: 'Store a byte' });
    await store.getByLabel('the byte').fill('FE');
    await store.getByRole('button', { name: 'Store' }).click();
    await eventually(store.getByRole('status')).toHaveText('FE stored at 0x000.');
    await eventually(led(page, 'LED1')).toHaveAccessibleName(/^LED1, dark/);
    await page.getByRole('button', { name: 'Close the inside view' }).click();

    await page.getByRole('switch', { name: /^S1 pole 1/ }).click();
    await eventually(led(page, 'LED1')).toHaveAccessibleName(/^LED1, lit/);
  });

  test('finds why an LED is dark with Parts open, and fixes it', async ({ page }) => {
    await page.goto('/');
    await another(page, 'Greenhouse watch, the vent LED stays dark');
    await eventually(notebook(page).getByRole('region', { name: 'About this bench' })).toContainText('Ask why it does not.');
    await page.getByRole('button', { name: 'Parts', exact: true }).click();
    await led(page, 'vent').click();
    await eventually(notebook(page).getByRole('heading', { level: 2 })).toContainText('is dark');
    await eventually(notebook(page).getByRole('region', { name: 'Tested fix' })).toContainText('All 32 rows of the table are then right.');
    await notebook(page).getByRole('button', { name: 'Apply' }).click();
    await eventually(led(page, 'vent')).toHaveAccessibleName(/^vent, lit/);
  });

  test('writes 5A at address 3 as the bench says, and reads it back', async ({ page }) => {
    await page.goto('/');
    await another(page, 'Greenhouse watch, the vent LED stays dark');
    await page.getByRole('button', { name: 'Parts', exact: true }).click();
    await led(page, 'vent').click();
    await eventually(page.getByRole('region', { name: 'Selection' })).toBeVisible();
    // what was chosen and asked on the bench before does not come along
    await another(page, 'Greenhouse watch, to be written by hand');
    await eventually(page.getByRole('region', { name: 'Selection' })).toHaveCount(0);
    await eventually(notebook(page).getByRole('region', { name: 'About this bench' })).toContainText('To write a byte');
    await page.getByRole('button', { name: 'Parts', exact: true }).click();

    await supply(page).click();
    for (const name of ['hot', 'damp']) await sensor(page, name).click();
    const oe = page.getByRole('switch', { name: /OE high to write/ });
    await oe.click();
    const data = page.getByRole('group', { name: 'data', exact: true });
    for (const name of ['fan', 'heater', 'blind', 'alarm']) await data.getByRole('switch', { name: new RegExp(`\\b${name}\\b`) }).click();
    await eventually(page.locator('svg.bench')).toContainText('ready to write 0x003');
    await page.getByRole('button', { name: /^write/ }).click();
    await eventually(page.locator('timing-diagram')).toContainText('write of 5A at 0x003: stored');
    await oe.click();
    await showsByte(page, 0x5a);
    await eventually(page.locator('svg.bench')).toContainText('reading 0x003 → 5A');
  });

  test('on a small window lays one wire after another from Parts that then folds away', async ({ page }) => {
    await page.goto('/');
    await page.setViewportSize({ width: 390, height: 844 });
    await another(page, /^New bench/, 'New bench');
    await notebook(page).getByRole('button', { name: 'Open Parts.' }).click();
    await shelf(page).getByRole('button', { name: 'Wire', exact: true }).click();
    await eventually(page.getByText('Placing a wire. Click its first hole.')).toBeVisible();
    await eventually(shelf(page)).toHaveCount(0);
    for (const [from, to] of [
      ['PS1.+', ['+j', 3]],
      [
        ['j', 5],
        ['f', 8],
      ],
    ] as const) {
      for (const end of [from, to]) {
        const { x, y } = await spot(page, end);
        await page.mouse.click(x, y);
      }
    }
    await eventually(page.locator('svg.bench .wire')).toHaveCount(2);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await eventually(page.getByText('Placing ')).toHaveCount(0);
  });
});
