/** A small bench — switch, memory, LED — made by somebody who types: from its text form, with a mistake on the way, by keys alone; and lists that are written in. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { eventually, expect, test } from '../support/e2e.ts';
import { benchTitle, led, supply } from './hands.ts';
import { away } from './pointing.ts';

const BENCH = `title Switch, memory, LED
board-63 B1
bench-supply PS1 at @0,-8
eeprom-2kx8 U1 at d12            # 0 stays 0, 1 stays 1
capacitor C1 100n from j12 to -j9
dip-switch S1 at e50 with poles 1 called "question"
resistor R1 10k from a50 to -a40
led LED1 red from c40 to c41 called "answer"
resistor R2 330 from a41 to -a33
wire W1 red from PS1.+ to +j1
wire W2 black from PS1.- to -j1
wire W3 black from -j2 to -a1
wire W4 red from +j10 to i12
wire W5 black from -a18 to a23
wire W6 black from -j14 to i18
wire W7 black from -j15 to i16
wire W8 red from +j11 to i15
wire W9 black from -a10 to a12
wire W10 black from -a11 to a13
wire W11 black from -a12 to a14
wire W12 black from -a13 to a15
wire W13 black from -a14 to a16
wire W14 black from -a15 to a17
wire W15 black from -a16 to a18
wire W16 black from -j11 to i13
wire W17 black from -j12 to i14
wire W18 black from -j13 to i17
wire W19 red from +j42 to j50
wire W20 green from b50 to b19
wire W21 yellow from b20 to a40
memory U1 000 0001
`;

const type = async (page: Page, line: string) => {
  await page.keyboard.press('Control+K');
  await page.keyboard.type(line);
  await page.keyboard.press('Enter');
};
const spoken = (page: Page) => page.locator('lampwright-app > [role=status]');

async function toText(page: Page) {
  await eventually(led(page, 'vent')).toBeVisible();
  await type(page, 'bench as text');
  const field = page.getByRole('textbox', { name: 'Plan as text' });
  await eventually(field).toHaveValue(/^lampwright-text 2\ntitle Greenhouse watch\n/);
  await eventually(page.getByRole('tabpanel')).toBeFocused();
  for (let i = 0; i < 8 && !(await field.evaluate((e) => e === document.activeElement)); i++) await page.keyboard.press('Tab');
  await eventually(field).toBeFocused();
  return field;
}

describe('the bench from its text, by keys alone', () => {
  test('a mistake is shown beside its line and nothing is lost; fixed, the bench stands, works, and is undone as one change', async ({
    page,
  }) => {
    await page.goto('/');
    const field = await toText(page);
    await page.keyboard.press('Control+A');
    await page.keyboard.insertText(BENCH.replace('a41 to -a33', 'a40 to -a33'));
    await eventually(page.locator('.line-says')).toHaveText(
      'a40 is taken by R2 pin 1, so wire W21 cannot go there. Use another hole in the same row.',
    );
    const line = 1 + BENCH.split('\n').findIndex((l) => l.startsWith('wire W21'));
    await page.keyboard.press('Control+Enter');
    await eventually(benchTitle(page)).toHaveText('Greenhouse watch');
    await eventually(page.getByRole('button', { name: `Line ${line}` })).toBeVisible();
    // what is typed is there after looking elsewhere
    await type(page, 'findings');
    await eventually(page.getByRole('tabpanel', { name: /^Findings/ })).toBeFocused();
    await type(page, 'bench as text');
    await eventually(page.getByRole('tabpanel', { name: 'Lists' })).toBeFocused();
    await eventually(field).toHaveValue(BENCH.replace('a41 to -a33', 'a40 to -a33'));
    await field.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.insertText(BENCH);
    await eventually(page.locator('.line-mark')).toHaveCount(0);
    await page.keyboard.press('Control+Enter');
    await eventually(benchTitle(page)).toHaveText('Switch, memory, LED');
    await eventually(field).toHaveValue(BENCH);

    await type(page, 'switch PS1 on');
    await eventually(led(page, 'answer')).toHaveAccessibleName(/^answer, dark/);
    await type(page, 'switch question on');
    await eventually(led(page, 'answer')).toHaveAccessibleName(/^answer, lit/);
    await eventually(spoken(page)).toHaveText('answer lit');
    await type(page, 'switch question off');
    await eventually(led(page, 'answer')).toHaveAccessibleName(/^answer, dark/);
    await type(page, 'undo');
    await eventually(benchTitle(page)).toHaveText('Greenhouse watch');
    await eventually(led(page, 'vent')).toBeVisible();
  });

  test('a .plan.txt file is opened, and its refusal names file and line', async ({ page }) => {
    await page.goto('/');
    await eventually(led(page, 'vent')).toBeVisible();
    const open = (text: string) =>
      page.locator('input[type=file]').setInputFiles({ name: 'small.plan.txt', mimeType: 'text/plain', buffer: Buffer.from(text) });
    await open(BENCH.replace('poles 1', 'poles one'));
    await eventually(page.getByRole('alert')).toContainText('S1: poles is "one"; give a whole number from 1 to 12.');
    await open(BENCH.replace('R2 330', 'R2 330 220'));
    await eventually(page.getByRole('alert')).toContainText('Line 9: "220" does not belong there');
    await open(BENCH);
    await eventually(benchTitle(page)).toHaveText('Switch, memory, LED');
    await supply(page).click();
    await type(page, 'switch S1 on');
    await eventually(led(page, 'answer')).toHaveAccessibleName(/^answer, lit/);
  });
});

describe('lists', () => {
  test('values, labels, colours and ends are changed where they stand, and what cannot be is refused there', async ({ page }) => {
    await page.goto('/');
    await eventually(led(page, 'vent')).toBeVisible();
    await type(page, 'part list');
    const cell = (name: string) => page.getByRole('textbox', { name, exact: true });
    await cell('ohms of R1').fill('4k7');
    await cell('ohms of R1').press('Enter');
    await eventually(cell('ohms of R1')).toHaveValue('4.7 kΩ');
    await cell('Label of LED1').fill('flap');
    await cell('Label of LED1').press('Enter');
    await eventually(led(page, 'flap')).toBeVisible();
    await cell('ohms of R1').fill('4 apples');
    await cell('ohms of R1').press('Enter');
    await eventually(page.getByText('4 apples ends in "apples", which is no unit known here: use Ω, or leave it out.')).toBeVisible();
    await eventually(cell('ohms of R1')).toHaveValue('4 apples');
    await type(page, 'wire list');
    await cell('Colour of W6').fill('pink');
    await cell('Colour of W6').press('Enter');
    await cell('W6 from').fill('a3');
    await cell('W6 from').press('Enter');
    await eventually(page.getByText(/^a3 is taken by R11 pin 1/)).toBeVisible();
    await cell('W6 from').press('Escape');
    await eventually(cell('W6 from')).toHaveValue('b3');
    await type(page, 'bench as text');
    await eventually(page.getByRole('textbox', { name: 'Plan as text' })).toHaveValue(/wire W6 pink from b3 to b20/);
    for (const _ of [1, 2, 3]) await type(page, 'undo');
    await eventually(page.getByRole('textbox', { name: 'Plan as text' })).toHaveValue(/resistor R1 470 from a40 to -a32\n/);
  });

  test('a row picks out its thing and net on the bench, and the bench its rows', async ({ page }) => {
    await page.goto('/');
    await eventually(led(page, 'vent')).toBeVisible();
    await type(page, 'wire list');
    const row = page.locator('tr[data-wire=W6]');
    await row.hover();
    await eventually(page.locator('.wire.pointed')).toHaveAttribute('data-wire', 'W6');
    const net = await page.locator('g[data-wire=W6]').getAttribute('data-net');
    expect(await page.evaluate(() => [...document.querySelectorAll<SVGElement>('svg .picked')].map((e) => e.dataset.net))).toContain(net);
    await away(page);
    await eventually(page.locator('svg .picked')).toHaveCount(0);
    const plan = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as { wires: { id: string }[] };
    expect(plan.wires.length).toBeGreaterThan(20);
    await led(page, 'all well').hover();
    await eventually(page.locator('tr.picked-row')).not.toHaveCount(0);
    const picked = await page.locator('tr.picked-row').evaluateAll((rows) => rows.map((r) => r.textContent));
    expect(picked.some((t) => /U2 2Y4/.test(t ?? ''))).toBe(true);
  });
});

test('the same bench by the command line alone, from an empty bench, one line an act', async ({ page }) => {
  await page.goto('/');
  await eventually(led(page, 'vent')).toBeVisible();
  await page.goto('/?plan=greenhouse');
  await eventually(led(page, 'vent')).toBeVisible();
  await type(page, 'new');
  await eventually(page.locator('[data-part]')).not.toHaveCount(0);
  await eventually(led(page, 'vent')).toHaveCount(0);
  const lines = [
    'place eeprom-2kx8 at d12',
    'place dip-switch at e50',
    'place resistor 10k from a50 to -a40',
    'place led from c40 to c41',
    'place resistor 330 from a41 to -a33',
    'wire PS1.+ to +j1 red',
    'wire PS1.- to -j1 black',
    'wire -j2 to -a1 black',
    'wire +j10 to i12 red',
    'wire -a18 to a23 black',
    'wire -j14 to i18 black',
    'wire -j15 to i16 black',
    'wire +j11 to i15 red',
    ...[12, 13, 14, 15, 16, 17, 18].map((row, i) => `wire -a${i + 10} to a${row} black`),
    'wire -j11 to i13 black',
    'wire -j12 to i14 black',
    'wire -j13 to i17 black',
    'wire +j42 to j50 red',
    'wire b50 to b19 green',
    'wire b20 to a40 yellow',
    'switch PS1 on',
  ];
  for (const line of lines) {
    await type(page, line);
    await eventually(
      page.getByRole('combobox', { name: 'Command' }),
      `${line}: ${await page.locator('#command-usage').textContent()}`,
    ).toBeHidden();
  }
  // an erased memory reads FF: the LED on D0 is lit, and what the switch does is seen at the pin that it sets
  await eventually(led(page, 'LED1')).toHaveAccessibleName(/^LED1, lit/);
  await type(page, 'net list');
  const a0 = page.getByRole('row', { name: /U1 A0/ });
  await eventually(a0).toContainText('L');
  await type(page, 'switch S1 1 on');
  await eventually(a0).toContainText('H');
});
