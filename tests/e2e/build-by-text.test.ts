/** A small bench — switch, memory, LED — made by somebody who types: from its text form, with a mistake on the way, by keys alone; and lists that are written in. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { eventually, expect, test } from '../support/e2e.ts';
import { led, supply } from './hands.ts';
import { away } from './pointing.ts';

const BENCH = `title Switch, memory, LED
B1 board-63
PS1 bench-supply @0,-8
U1 eeprom-2kx8 d12            # 0 stays 0, 1 stays 1
C1 capacitor j12 -j9 farads=100n
S1 dip-switch e50 poles=1 "question"
R1 resistor a50 -a40 ohms=10k
D1 led c40 c41 colour=red "answer"
R2 resistor a41 -a33 ohms=330
W1 wire PS1.+ +j1 red
W2 wire PS1.- -j1 black
W3 wire -j2 -a1 black
W4 wire +j10 i12 red
W5 wire -a18 a23 black
W6 wire -j14 i18 black
W7 wire -j15 i16 black
W8 wire +j11 i15 red
W9 wire -a10 a12 black
W10 wire -a11 a13 black
W11 wire -a12 a14 black
W12 wire -a13 a15 black
W13 wire -a14 a16 black
W14 wire -a15 a17 black
W15 wire -a16 a18 black
W16 wire -j11 i13 black
W17 wire -j12 i14 black
W18 wire -j13 i17 black
W19 wire +j42 j50 red
W20 wire b50 b19 green
W21 wire b20 a40 yellow
U1 memory 000=0001
`;

const type = async (page: Page, line: string) => {
  await page.keyboard.press('Control+K');
  await page.keyboard.type(line);
  await page.keyboard.press('Enter');
};
const title = (page: Page) => page.getByRole('heading', { level: 1 });
const spoken = (page: Page) => page.locator('lampwright-app > [role=status]');

async function toText(page: Page) {
  await eventually(led(page, 'vent')).toBeVisible();
  await type(page, 'bench as text');
  const field = page.getByRole('textbox', { name: 'Plan as text' });
  await eventually(field).toHaveValue(/^bench-text 1\ntitle Greenhouse watch\n/);
  await eventually(page.getByRole('tabpanel')).toBeFocused();
  for (let i = 0; i < 8 && !(await field.evaluate((e) => e === document.activeElement)); i++) await page.keyboard.press('Tab');
  await eventually(field).toBeFocused();
  return field;
}

describe('the bench from its text, by keys alone', () => {
  test('a mistake is shown beside its line and nothing is lost; mended, the bench stands, works, and is undone as one change', async ({
    page,
  }) => {
    await page.goto('/');
    const field = await toText(page);
    await page.keyboard.press('Control+A');
    await page.keyboard.insertText(BENCH.replace('a41 -a33', 'a40 -a33'));
    await eventually(page.locator('.line-says')).toHaveText(
      'a40 is taken by R2 pin 1, so wire W21 cannot go there. Use another hole in the same row.',
    );
    const line = 1 + BENCH.split('\n').findIndex((l) => l.startsWith('W21'));
    await page.keyboard.press('Control+Enter');
    await eventually(title(page)).toHaveText('Greenhouse watch');
    await eventually(page.getByRole('button', { name: `Line ${line}` })).toBeVisible();
    // what is typed is there after looking elsewhere
    await type(page, 'findings');
    await type(page, 'bench as text');
    await eventually(field).toHaveValue(BENCH.replace('a41 -a33', 'a40 -a33'));
    await field.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.insertText(BENCH);
    await eventually(page.locator('.line-mark')).toHaveCount(0);
    await page.keyboard.press('Control+Enter');
    await eventually(title(page)).toHaveText('Switch, memory, LED');
    await eventually(field).toHaveValue(BENCH);

    await type(page, 'switch PS1 on');
    await eventually(led(page, 'answer')).toHaveAccessibleName(/^answer, dark/);
    await type(page, 'switch question on');
    await eventually(led(page, 'answer')).toHaveAccessibleName(/^answer, lit/);
    await eventually(spoken(page)).toHaveText('answer lit');
    await type(page, 'switch question off');
    await eventually(led(page, 'answer')).toHaveAccessibleName(/^answer, dark/);
    await type(page, 'undo');
    await eventually(title(page)).toHaveText('Greenhouse watch');
    await eventually(led(page, 'vent')).toBeVisible();
  });

  test('a .bench.txt file is opened, and its refusal names file and line', async ({ page }) => {
    await page.goto('/');
    await eventually(led(page, 'vent')).toBeVisible();
    const open = (text: string) =>
      page.locator('input[type=file]').setInputFiles({ name: 'small.bench.txt', mimeType: 'text/plain', buffer: Buffer.from(text) });
    await open(BENCH.replace('poles=1', 'poles=one'));
    await eventually(page.getByRole('alert')).toContainText('S1: poles is "one"; give a whole number from 1 to 12.');
    await open(BENCH.replace('ohms=330', '330'));
    await eventually(page.getByRole('alert')).toContainText('Line 9: "330" is neither a tie point');
    await open(BENCH);
    await eventually(title(page)).toHaveText('Switch, memory, LED');
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
    await eventually(page.getByRole('textbox', { name: 'Plan as text' })).toHaveValue(/W6 +wire +b3 +b20 +pink/);
    for (const _ of [1, 2, 3]) await type(page, 'undo');
    await eventually(page.getByRole('textbox', { name: 'Plan as text' })).toHaveValue(/R1 +resistor +b33 +-a26 +ohms=330\n/);
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
    expect(picked.some((t) => /U1 D7/.test(t ?? ''))).toBe(true);
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
