/** Ways to fill the page Table: number tables, spreadsheets, don't-cares, active-low outputs, wider words; and what is refused, in sight. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { openText } from './hands.ts';

const read = (name: string) => JSON.parse(readFileSync(`shared/demos/${name}.plan.json`, 'utf8')) as Plan;
const headline = (page: Page) => page.getByRole('tabpanel', { name: 'Table' }).getByRole('heading', { level: 2 });
const row = (page: Page, n: number) => page.getByRole('grid', { name: 'Truth table' }).locator(`tr[data-row="${n}"]`);
const wantedOf = async (page: Page, n: number) => (await row(page, n).locator('.want').allTextContents()).join('');
const unfold = (page: Page, name: string) => page.locator('summary', { hasText: name }).click();
const refusal = (page: Page) => page.locator('.table-page > .fault');
const rulesText = (page: Page) => page.getByLabel('Rules for the outputs, one per line');
const rulesFault = (page: Page) => page.locator('#rules-fault');

async function openTable(page: Page, name: string) {
  await page.goto(`/?plan=${name}#table`);
  await eventually(headline(page)).toHaveText(/^(?:All|None|\d).* rows/);
}
async function fillRules(page: Page, text: string) {
  await rulesText(page).fill(text);
  await page.getByRole('button', { name: /^Fill the table/ }).click();
}
const copied = (page: Page, text: string) => page.evaluate((t) => navigator.clipboard.writeText(t), text);

describe('a number table', () => {
  test('fills the columns that there are, adds those that are missing, and says when there are too few pins', async ({ page }) => {
    await openTable(page, 'greenhouse');
    const choose = (title: string) => page.getByLabel('Fill from a number table').selectOption({ label: title });
    await choose('Decimal digit on a 7-segment display');
    // outputs from the right: vent is segment a; the eighth keeps what it had, and numbers above 9 are free
    await eventually.poll(() => wantedOf(page, 1)).toMatch(/^.0000110$/);
    await eventually.poll(() => wantedOf(page, 9)).toMatch(/^.1101111$/);
    await eventually.poll(() => wantedOf(page, 10)).toBe('––––––––');
    await choose('Binary to Gray code');
    await eventually.poll(() => wantedOf(page, 3)).toMatch(/^...00010$/);
    await choose('Square of a number');
    await eventually(refusal(page)).toContainText(
      '"Square of a number" needs 10 outputs, and the bench\'s memories have 8 data pins. Place one more memory on the bench, or remove inputs.',
    );
    await page.getByRole('button', { name: /^Undo/ }).click();
    await page.getByRole('button', { name: /^Undo/ }).click();
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
  });

  test('takes a word wider than one memory: squares of eight bits on two', async ({ page }) => {
    await openTable(page, 'ticket-counter');
    await page.getByLabel('Fill from a number table').selectOption({ label: 'Square of a number' });
    // the digits' rules gave way, the names that only they spoke of went along, and the sixteenth output was added
    await eventually(rulesText(page)).toHaveValue(/^\{Q15, tg, .*ua\} = \{T3, .*U0\} times \{T3, .*U0\}$/);
    await eventually.poll(() => wantedOf(page, 15)).toBe('0000000011100001');
    await page.getByRole('button', { name: 'Store it in U4 and U5' }).click();
    await eventually(headline(page)).toHaveText(/^All 256 rows are stored/);
  });
});

describe('a spreadsheet', () => {
  test('with number columns, don’t-cares and quoted names makes another table', async ({ page }) => {
    await openTable(page, 'greenhouse');
    await copied(page, 'A1..A0\t\t"too much"\tS1..S0\n0\t\t0\t0\n1\t\t0\t1\n2\t\t-\t2\n3\t\t1\tX\n');
    await page.getByRole('button', { name: 'Paste', exact: true }).click();
    await eventually(row(page, 4)).toHaveCount(0);
    await eventually.poll(() => Promise.all([0, 1, 2, 3].map((n) => wantedOf(page, n)))).toEqual(['000', '001', '–10', '1––']);
    await eventually(page.locator('.grid-scroll thead')).toContainText('too much');
  });

  test('goes out as CSV and comes back the same, don’t-cares included; a wrong line is named', async ({ page }) => {
    await openTable(page, 'greenhouse');
    await row(page, 3).locator('.want').nth(2).click();
    await page.keyboard.press('1');
    await eventually.poll(() => wantedOf(page, 3)).toBe('00110001');
    await page.keyboard.press('-');
    await eventually.poll(() => wantedOf(page, 3)).toBe('00–10001');
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save CSV' }).click()]);
    const csv = readFileSync(await download.path(), 'utf8');
    expect(csv.split('\n')[0]).toBe('raining,windy,dark,damp,hot,,all well,alarm,grow light,blind,heater,mister,fan,vent');
    await fillRules(page, 'vent = hot\nfan = vent');
    const open = (text: string) =>
      page.locator('input[data-for=table]').setInputFiles({ name: 'table.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await open(csv);
    await eventually.poll(() => wantedOf(page, 3)).toBe('00–10001');
    await open(csv.replace(/^0,0,0,1,1,.*$/m, '0,0,0,1,1,,0,0,0,2,0,0,0,1'));
    await eventually(refusal(page)).toContainText('line 5: "2" in column blind is no level. Write 0, 1, or X for don’t care.');
    await open(csv.replace(/^0,0,0,1,1,/m, '0,0,0,1,0,'));
    await eventually(refusal(page)).toContainText('line 5 gives row 2, and so does line 4. Remove one of them.');
  });
});

describe('a rule', () => {
  test('that cannot be is told with place and cure, and fills nothing', async ({ page }) => {
    await openTable(page, 'greenhouse');
    for (const [rules, says] of [
      [
        'vent = fan\nfan = vent',
        'line 1: this is circular, vent needs fan needs vent. A memory has no past: give one of them by inputs only.',
      ],
      ['vnet = hot', 'line 1: vnet is no output, and no other line speaks of it. Did you mean vent?'],
    ] as const) {
      await fillRules(page, rules);
      await eventually(rulesFault(page)).toContainText(says);
      await eventually(rulesFault(page).locator('.fault-place')).toHaveText(/\d │ .+\n\s+│ +\^/);
    }
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
  });

  test('leaves rows free where it says so', async ({ page }) => {
    await openTable(page, 'greenhouse');
    await fillRules(page, 'vent = hot\nvent dontcare when raining and windy');
    await eventually.poll(() => wantedOf(page, 1)).toMatch(/1$/);
    await page.getByRole('grid').locator('.want').first().focus();
    await page.keyboard.press('Control+End');
    await eventually.poll(() => wantedOf(page, 31)).toMatch(/–$/);
  });
});

describe('inputs and outputs', () => {
  test('two names alike are refused where the hand is, and the name stays what it was', async ({ page }) => {
    await openTable(page, 'greenhouse');
    await unfold(page, 'Inputs and outputs');
    const name = page.getByLabel('Name of output fan');
    await name.fill('vent');
    await name.press('Enter');
    await eventually(refusal(page)).toContainText('Two outputs are called vent: numbers 1 and 2. Rename one.');
    await eventually(refusal(page)).toBeInViewport({ ratio: 0.9 });
    await eventually(name).toHaveValue('fan');
    await name.fill('');
    await name.press('Enter');
    await eventually(refusal(page)).toContainText('has no name. Give it one');
    await eventually(name).toHaveValue('fan');
  });

  test('a pin that another column has is exchanged with it', async ({ page }) => {
    await openTable(page, 'greenhouse');
    await unfold(page, 'Inputs and outputs');
    await page.getByLabel('Pin of output fan').selectOption('U1.D0');
    await eventually(page.getByLabel('Pin of output vent')).toHaveValue('U1.D1');
    await page.getByRole('button', { name: /^Undo/ }).click();
    await eventually(page.getByLabel('Pin of output vent')).toHaveValue('U1.D0');
  });

  test('an active-low output is stored inverted and shown the other way round by an LED that hangs from minus', async ({ page }) => {
    await openTable(page, 'greenhouse');
    await unfold(page, 'Inputs and outputs');
    await page.getByLabel('active low').first().check();
    await eventually(headline(page)).toHaveText('None of the 32 rows is stored as wanted, 32 are shown as wanted with the supply on.');
    await page.getByRole('button', { name: 'Store it in U1' }).click();
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, none is shown as wanted with the supply on.');
  });

  test('of a bench whose drivers are active low agree in all three columns', async ({ page }) => {
    await openTable(page, 'ferry-ramp');
    await unfold(page, 'Inputs and outputs');
    await eventually
      .poll(() => page.getByLabel('active low').evaluateAll((all) => all.some((c) => (c as HTMLInputElement).checked)))
      .toBe(true);
    await eventually(headline(page)).toHaveText('All 128 rows are stored as wanted, and shown as wanted with the supply on.');
    // another rule for one of them, stored: the LED follows
    await row(page, 0).locator('.want').first().click();
    await page.keyboard.press((await wantedOf(page, 0)).startsWith('1') ? '0' : '1');
    await eventually(headline(page)).toHaveText('127 of 128 rows are stored as wanted, and shown as wanted with the supply on.');
    await page.getByRole('button', { name: /^Store it in/ }).click();
    await eventually(headline(page)).toHaveText('All 128 rows are stored as wanted, and shown as wanted with the supply on.');
  });
});

test('a plan with two memories shows which of them holds which output', async ({ page }) => {
  await page.goto('/');
  const plan = read('ticket-counter');
  await openText(page, 'two.plan.json', JSON.stringify(plan));
  await page.getByRole('tab', { name: 'Table' }).click();
  await unfold(page, 'Inputs and outputs');
  const pins = await page.getByLabel(/^Pin of output/).evaluateAll((all) => all.map((s) => (s as HTMLSelectElement).value));
  expect(pins).toEqual(plan.wanted!.outputs.map((o) => o.pin));
  expect(new Set(pins.map((p) => p.split('.')[0])).size).toBe(2);
});
