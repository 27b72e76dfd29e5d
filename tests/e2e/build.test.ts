/** A bench is built from nothing: an LED that a switch lights through a memory, once by mouse, once by keyboard alone; and what hands do to what stands. */
import type { Page } from 'playwright';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { LINE_Y } from '../../sim-core/board/boards.ts';
import { eventually, test } from '../support/e2e.ts';
import { emptyPlan } from '../support/plans.ts';
import { benchTitle, led, openText, supply, tabTo } from './hands.ts';
import { boxOf, drag, onScreen, type Spot, terminal } from './pointing.ts';

const empty: Plan = { ...emptyPlan, title: 'An empty bench', boards: [{ ...emptyPlan.boards[0]!, splitRails: false }] };

async function openEmpty(page: Page) {
  await eventually(supply(page)).toBeVisible();
  await openText(page, 'empty.plan.json', JSON.stringify(empty));
  await eventually(benchTitle(page)).toHaveText('An empty bench');
}

/** Where a hole of the first board, or a terminal, is on the screen. */
async function at(page: Page, name: string): Promise<Spot> {
  if (name.includes('.')) return terminal(page, name);
  const [, line = 'a', number] = /^([+-]?[a-j])(\d+)$/.exec(name)!;
  const k = Number(number);
  const x = line.length > 1 ? 2 + k + Math.floor((k - 1) / 5) : k;
  return onScreen(page, x, LINE_Y[line as keyof typeof LINE_Y]);
}

const connect = async (page: Page, from: string, to: string) => drag(page, await at(page, from), await at(page, to));
const wires = (page: Page) => page.locator('svg.bench .wire');
const pole = (page: Page) => page.getByRole('switch', { name: /^S1 pole 1/ });
const shelf = (page: Page) => page.getByRole('region', { name: 'Parts' });
const news = (page: Page, text: string | RegExp) => eventually(page.getByRole('status').filter({ hasText: text })).toHaveCount(1);

/** Supply and rails; a memory at d12 with all addresses and /CE low, /WE high; a switch at e5 between minus and /OE; an LED at D0. */
const TIES: ReadonlyArray<readonly [from: string, to: string]> = [
  ['PS1.+', '+j2'],
  ['PS1.-', '-j2'],
  ['-j40', '-a40'],
  ['j12', '+j9'],
  ['a23', '-a20'],
  ['j13', '-j11'],
  ['j14', '-j12'],
  ['j15', '+j13'],
  ['j17', '-j14'],
  ['j18', '-j15'],
  ...[12, 13, 14, 15, 16, 17, 18, 19].map((row) => [`a${row}`, `-a${row - 3}`] as const),
  ['j5', '-j3'],
  ['b5', 'g16'],
  ['b20', 'b40'],
];

/** An erased memory shows FF while /OE is low, and lets go of its outputs while it is not. */
async function switchLights(page: Page, press: () => Promise<void>) {
  await eventually(led(page, 'LED1')).toHaveAccessibleName(/^LED1, dark/);
  await press();
  await eventually(pole(page)).toHaveAttribute('aria-checked', 'true');
  await eventually(led(page, 'LED1')).toHaveAccessibleName(/^LED1, lit/);
  await press();
  await eventually(led(page, 'LED1')).toHaveAccessibleName(/^LED1, dark/);
}

describe('an LED that a switch lights through a memory', () => {
  test('is built by mouse from an empty board', async ({ page }) => {
    await page.goto('/');
    await page.setViewportSize({ width: 1600, height: 900 });
    await openEmpty(page);
    await page.getByRole('button', { name: 'Parts', exact: true }).click();
    const take = async (search: string) => {
      await shelf(page).getByRole('searchbox').fill(search);
      return shelf(page).locator('.part-offer').first();
    };
    const put = async (search: string, hole: string) => {
      await (await take(search)).click();
      const { x, y } = await at(page, hole);
      await page.mouse.click(x, y);
    };
    await (await take('supply')).click();
    const above = await at(page, '+j12');
    await page.mouse.click(above.x, above.y - 70);
    await eventually(supply(page)).toBeVisible();
    await page.getByRole('button', { name: 'Hide panel' }).click();
    await page.getByRole('button', { name: 'Fit', exact: true }).click();
    await put('eeprom 2k x 8', 'd12');
    await eventually(page.locator('[data-part=U1]').first()).toBeVisible();
    // carried from the shelf in one drag
    const offer = await boxOf(await take('dip switch 1'));
    await page.mouse.move(offer.x + 20, offer.y + 10);
    await page.mouse.down();
    const hole = await at(page, 'e5');
    await page.mouse.move(hole.x, hole.y, { steps: 8 });
    await page.mouse.up();
    await eventually(pole(page)).toBeVisible();
    await put('led', 'c40');
    await eventually(led(page, 'LED1')).toBeVisible();
    await put('330', 'a41');
    await put('10k resistor', 'i16');
    await eventually(page.locator('svg.bench .resistor')).toHaveCount(2);
    await page.keyboard.press('Escape');
    await connect(page, 'a45', '-a37');
    await connect(page, 'i20', '+j14');
    await page.keyboard.press('Escape');
    for (const [i, [from, to]] of TIES.entries()) {
      await connect(page, from, to);
      await eventually(wires(page)).toHaveCount(i + 1);
    }
    // a switch that was placed is not yet set
    await eventually(page.getByRole('button', { name: 'Set a switch', exact: true })).toBeVisible();
    await supply(page).click();
    await switchLights(page, () => pole(page).click());
  });

  test('is built by keyboard alone', async ({ page }) => {
    await page.goto('/');
    await openEmpty(page);
    const type = async (line: string) => {
      await page.keyboard.press('Control+k');
      await page.keyboard.type(line);
      await page.keyboard.press('Enter');
      await eventually(page.getByRole('dialog', { name: 'Command line' })).toBeHidden();
    };
    // from the shelf: what it is, where it goes
    await page.keyboard.press('b');
    await eventually(shelf(page).getByRole('searchbox')).toBeFocused();
    await page.keyboard.type('eeprom 2k x 8');
    await page.keyboard.press('Tab');
    await page.keyboard.type('D12');
    await page.keyboard.press('Enter');
    await news(page, 'U1 placed at d12.');
    await type('place bench supply');
    await type('place dip switch 1 at e5');
    await type('place 330 resistor from a41 to -a37');
    await type('place 10k resistor from i16 to +j14');
    await type('place red led at c40');
    await eventually(led(page, 'LED1')).toBeVisible();
    // a wire by the cursor, which begins at row 1 of column a
    await page.keyboard.press('Escape');
    await page.locator('svg.bench').focus();
    const keys = async (key: string, times: number) => {
      for (let i = 0; i < times; i++) await page.keyboard.press(key);
    };
    await keys('ArrowUp', 1);
    await news(page, 'row 1 column a');
    await keys('ArrowUp', 1);
    await keys('ArrowRight', 19);
    await news(page, 'row 20 column b, connected to U1 D0');
    await keys('Enter', 1);
    await news(page, 'Wire from b20.');
    await keys('ArrowRight', 20);
    await news(page, 'row 40 column b, connected to LED1 anode');
    await keys('Enter', 1);
    await news(page, 'W1 connects b20 to b40.');
    for (const [from, to] of TIES.filter(([from]) => from !== 'b20')) await type(`wire ${from} to ${to}`);
    await eventually(wires(page)).toHaveCount(TIES.length);
    await tabTo(page, /^Bench supply PS1, off/, 120);
    await page.keyboard.press('Space');
    await tabTo(page, /^S1 pole 1/, 120);
    await switchLights(page, () => page.keyboard.press('Space'));
  });
});

describe('what stands', () => {
  test('a chip is dragged and its wires go along; a value is typed with its unit; what is taken off is gone', async ({ page }) => {
    await page.goto('/');
    await eventually(supply(page)).toBeVisible();
    const chip = page.locator('[data-part=U1] .chip-body').first();
    await supply(page).click();
    await eventually(led(page, 'all well')).toHaveAccessibleName(/^all well, lit/);
    const box = await boxOf(chip);
    const step = (await at(page, 'a12')).x - (await at(page, 'a11')).x;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 0.5 * step, y, { steps: 3 });
    // one row further there is room before the buffer
    await page.mouse.move(x + step, y, { steps: 3 });
    await page.mouse.up();
    await news(page, 'U1 moved.');
    await eventually.poll(async () => Math.round((((await chip.boundingBox())?.x ?? box.x) - box.x) / step)).toBe(1);
    await eventually(led(page, 'all well')).toHaveAccessibleName(/^all well, lit/);

    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+k');
    await page.keyboard.type('select R1');
    await page.keyboard.press('Enter');
    const card = page.getByRole('region', { name: 'Selection' });
    const ohms = card.getByRole('textbox', { name: 'ohms' });
    await ohms.fill('4k7');
    await page.keyboard.press('Enter');
    await eventually(ohms).toHaveValue('4.7 kΩ');
    await eventually(page.locator('[data-part=R1] title').first()).toHaveText(/yellow violet red/);
    await ohms.fill('-3');
    await page.keyboard.press('Enter');
    await eventually(card.getByRole('status')).toHaveText(/R1: ohms is -3/);
    await card.getByRole('button', { name: 'Delete' }).click();
    await eventually(page.locator('[data-part=R1]')).toHaveCount(0);
  });

  test('a hole that is taken is refused beside the pointer, by the name of what is in it', async ({ page }) => {
    await page.goto('/');
    await eventually(supply(page)).toBeVisible();
    await page.getByRole('button', { name: 'Parts', exact: true }).click();
    await shelf(page).getByRole('searchbox').fill('push button');
    await page.keyboard.press('Enter');
    const { x, y } = await at(page, 'e2');
    await page.mouse.move(x, y);
    const beside = page.locator('.beside-pointer');
    await eventually(beside).toHaveText(/^[a-j]\d+ is taken by .+\. Choose another place, or delete that first\.$/);
    await page.mouse.click(x, y);
    await news(page, /is taken by/);
    await page.keyboard.press('Escape');
    await eventually(beside).toBeHidden();
  });
});
