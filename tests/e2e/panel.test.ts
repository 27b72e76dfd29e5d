/** What the notebook and the meter say agrees with the bench: broken plans mended from Why, rows set from Table, figures measured. */
import { readFileSync } from 'node:fs';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { benchTitle, led, openText, SENSORS, sensor, showsByte, supply } from './hands.ts';
import { boxOf } from './pointing.ts';

const read = (name: string) => JSON.parse(readFileSync(`shared/demos/${name}.plan.json`, 'utf8')) as Plan;

describe('a broken plan is fixed from what Why says', () => {
  test.for([
    ['greenhouse-dark-fan', 'fan', 'dark'],
    ['greenhouse-dark-heater', 'heater', 'dark'],
    ['greenhouse-dark-mister', 'mister', 'dark'],
    ['greenhouse-dark-vent', 'vent', 'dark'],
    ['greenhouse-dim-grow-light', 'grow light', 'dim'],
    ['greenhouse-nothing-lights', 'all well', 'dark'],
  ] as const)('%s', async ([id, name, look], { page }) => {
    await page.goto(`/?plan=${id}`);
    await eventually(benchTitle(page)).toHaveText(read(id).title);
    await eventually(led(page, name)).toHaveAccessibleName(new RegExp(`^${name}, ${look}`));
    await led(page, name).click();
    const why = page.getByRole('tabpanel', { name: 'Why' });
    await eventually(why.getByRole('heading', { level: 2 })).toContainText(new RegExp(`${name}.* is ${look}`));
    // the LED asked about is ringed, and what else the page speaks of is marked; of an LED put in backwards it speaks of nothing else
    await eventually(page.locator('.pointer-ring')).toHaveCount(1);
    if (name !== 'mister') await eventually(page.locator('.spoken-ring, .wire.spoken')).not.toHaveCount(0);
    await why.getByRole('button', { name: 'Apply' }).click();
    await eventually(led(page, name)).toHaveAccessibleName(new RegExp(`^${name}, lit`));
    await eventually(why.getByRole('heading', { level: 2 })).toContainText(new RegExp(`${name}.* is lit`));
    await why.getByRole('button', { name: 'Undo it' }).click();
    await eventually(led(page, name)).toHaveAccessibleName(new RegExp(`^${name}, ${look}`));
  });
});

describe('the page Table', () => {
  test('a row sets the switches, and the LEDs show the byte it wants', async ({ page }) => {
    await page.goto('/');
    const plan = read('greenhouse');
    await supply(page).click();
    await page.getByRole('tab', { name: 'Table' }).click();
    const table = page.getByRole('grid', { name: 'Truth table' });
    const rowOf = (n: number) => table.locator(`tr[data-row="${n}"]`);
    await eventually(page.getByRole('tabpanel', { name: 'Table' }).getByRole('heading', { level: 2 })).toHaveText(
      'All 32 rows are stored and shown as wanted.',
    );
    for (const [row, how] of [
      [13, 'cell'],
      [11, 'button'],
      [6, 'cell'],
      [0, 'button'],
    ] as const) {
      if (how === 'cell') await rowOf(row).getByRole('gridcell').first().click();
      else await rowOf(row).getByRole('button').click();
      for (const [bit, name] of SENSORS.entries())
        await eventually(sensor(page, name)).toHaveAttribute('aria-checked', String(((row >> bit) & 1) === 1));
      await showsByte(page, plan.wanted!.rows[row]!);
      await eventually(rowOf(row)).toHaveAttribute('aria-current', 'true');
    }
  });

  test('of a bench that is wired wrongly says how many rows are not shown', async ({ page }) => {
    await page.goto('/?plan=greenhouse-dark-fan#table');
    await eventually(page.getByRole('tabpanel', { name: 'Table' }).getByRole('heading', { level: 2 })).toHaveText(
      /^All 32 rows are stored as wanted, \d+ are shown as wanted\.$/,
    );
    await eventually(page.locator('.bits .off')).not.toHaveCount(0);
  });
});

test('the meter reads what the LED draws and what Why says of its pin and its resistor', async ({ page }) => {
  await page.goto('/');
  await supply(page).click();
  await eventually(led(page, 'all well')).toHaveAccessibleName(/^all well, lit/);
  await led(page, 'all well').click();
  const amps = /, ([\d.]+ mA)$/.exec((await led(page, 'all well').getAttribute('aria-label')) ?? '')?.[1] ?? 'no amps';
  const why = page.getByRole('tabpanel', { name: 'Why' });
  const figures = why.locator('.chain .figures');
  await eventually(figures.filter({ hasText: ` at ${amps}` })).toHaveCount(1);
  const pinVolts = /([\d.]+ V) at /.exec((await figures.filter({ hasText: ` at ${amps}` }).textContent()) ?? '')?.[1] ?? 'no volts';
  const dropped = /drops ([\d.]+ V)/.exec((await figures.filter({ hasText: 'drops' }).textContent()) ?? '')?.[1] ?? 'no drop';

  await page.getByRole('button', { name: 'Meter', exact: true }).click();
  const panel = page.getByRole('form', { name: 'Meter' });
  const put = async (place: string) => {
    await panel.getByRole('textbox').first().fill(place);
    await panel.getByRole('button', { name: 'Put' }).click();
  };
  const output = page.locator('.meters output');
  // 2Y4 of the buffer is pin 3, in row 28
  await put('c28');
  await eventually(output).toHaveText([pinVolts]);
  // the same meter moves to the top of the LED's resistor, whose other end is at the supply's −
  await put('c61');
  await eventually(output).toHaveText([dropped]);
  await panel.getByRole('radio', { name: 'amps' }).check();
  await put('R8.1');
  await eventually(output).toHaveText([dropped, amps]);
  await page.getByRole('button', { name: 'Remove the meter at R8.1' }).click();
  await eventually(output).toHaveText([dropped]);
  // armed for amps, a touch of an LED measures what goes through it; for volts it still asks why
  const { id } = read('greenhouse').parts.find((part) => part.label === 'all well')!;
  await led(page, 'all well').click();
  await eventually(page.getByRole('button', { name: `Remove the meter at ${id}.1` })).toBeVisible();
  await eventually(output).toHaveText([dropped, amps]);
  await led(page, 'fan').click();
  await eventually(output).toHaveText([dropped, '0 A']);
  await eventually(page).toHaveURL(new RegExp(`#why/${id}$`));
  await panel.getByRole('radio', { name: 'volts' }).check();
  await led(page, 'fan').click();
  await eventually(why.getByRole('heading', { level: 2 })).toContainText(/fan.* is dark/);
  // a link of the time when LED1 was called D1
  await page.evaluate(() => {
    location.hash = '#why/D1';
  });
  await eventually(page).toHaveURL(/#why\/LED1$/);
  await eventually(why.getByRole('heading', { level: 2 })).toContainText('LED1');
});

test('a digit driven by the memory shows its segments, each an LED of its own to ask about', async ({ page }) => {
  await page.goto('/');
  const plan: Plan = {
    ...read('greenhouse'),
    title: 'One segment',
    parts: [
      { id: 'PS1', kind: 'bench-supply' },
      { id: 'DS1', kind: 'seven-segment-common-cathode', at: 'd40', label: 'units' },
      { id: 'R1', kind: 'resistor', at: 'a20', to: 'a30', params: { ohms: 330 } },
    ],
    wires: [
      { id: 'W1', from: 'PS1.+', to: 'b20', colour: 'red' },
      { id: 'W2', from: 'b30', to: 'b40', colour: 'yellow' },
      { id: 'W3', from: 'a42', to: 'PS1.-', colour: 'black' },
    ],
    memories: {},
    meters: [],
    notes: [],
    switches: { PS1: [true] },
  };
  delete (plan as { wanted?: unknown }).wanted;
  await eventually(supply(page)).toBeVisible();
  await openText(page, 'digit.plan.json', JSON.stringify(plan));
  // pin 1 is segment e
  await eventually(led(page, 'units segment e')).toHaveAccessibleName(/^units segment e, lit/);
  await eventually(led(page, 'units segment d')).toHaveAccessibleName(/^units segment d, dark/);
  await eventually(page.getByRole('group', { name: 'units shows segment e only', exact: true })).toBeVisible();
  await led(page, 'units segment e').click();
  await eventually(page.getByRole('tabpanel', { name: 'Why' }).getByRole('heading', { level: 2 })).toContainText('is lit');
  // a supply without a place stands clear of the board
  const [card, board] = [await boxOf(page.locator('.supply-case')), await boxOf(page.locator('.board-case').first())];
  expect(card.y + card.height).toBeLessThanOrEqual(board.y);
});

describe('the page Lists, Wiring', () => {
  test('gives wires and rails resistance, shows how far the supply of a chip then dips, and takes it back', async ({ page }) => {
    await page.goto('/?plan=greenhouse');
    await supply(page).click();
    await page.getByRole('tab', { name: 'Lists' }).click();
    await page.getByRole('link', { name: /^Wires/ }).click();
    const choice = page.getByRole('checkbox', { name: 'Wires and rails have resistance' });
    await sensor(page, SENSORS[0]).click();
    await eventually(page.getByText(/supply dipped/)).toHaveCount(0);
    await choice.check();
    await sensor(page, SENSORS[1]).click();
    // of the memory and of the buffer
    await eventually(page.getByText(/supply dipped to 4\.\d+ V for \d/)).toHaveCount(2);
    await choice.uncheck();
    await eventually(page.getByText(/supply dipped/)).toHaveCount(0);
  });
});
