/** The page Table from nothing to LEDs: rules, cells, paste, storing, files of bytes and the words on how a read-out differs. */
import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from 'playwright';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { benchTitle, openText, SENSORS, sensor, showsByte, supply } from './hands.ts';

const greenhouse = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;
const headline = (page: Page) => page.getByRole('tabpanel', { name: 'Table' }).getByRole('heading', { level: 2 });
const grid = (page: Page) => page.getByRole('grid', { name: 'Truth table' });
const row = (page: Page, n: number) => grid(page).locator(`tr[data-row="${n}"]`);
const wantedOf = async (page: Page, n: number) => (await row(page, n).locator('.want').allTextContents()).join('');
const unfold = (page: Page, name: string) => page.locator('summary', { hasText: name }).click();

/** The greenhouse's wiring with an erased memory, with or without its table. */
async function openErased(page: Page, wanted: Plan['wanted'] | undefined): Promise<void> {
  const { wanted: _, ...bare } = greenhouse;
  const plan = { ...bare, title: 'Erased', memories: {}, ...(wanted ? { wanted } : {}) };
  await openText(page, 'erased.plan.json', JSON.stringify(plan));
  await eventually(benchTitle(page)).toHaveText('Erased');
  await page.getByRole('tab', { name: 'Table' }).click();
}

async function fillRules(page: Page, text: string): Promise<void> {
  await page.getByLabel('Rules for the outputs, one per line').fill(text);
  await page.getByRole('button', { name: /^Fill the table/ }).click();
}

async function saved(page: Page, press: () => Promise<void>): Promise<Buffer> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return readFileSync(await download.path());
}

describe('a table', () => {
  test('is started from the bench, filled by rules, stored at once, and shown by the LEDs', async ({ page }) => {
    await page.goto('/');
    await openErased(page, undefined);
    await page.getByRole('button', { name: 'Start a table' }).click();
    await eventually(headline(page)).toHaveText('32 rows, none wanted yet.');
    const rules = [
      'vent = (A0 or A1) and not A3 and not A4',
      'fan = (A0 or A1) and (A3 or A4)',
      'mister = A0 and not A1 and not A2',
      'heater = A2 and not A0',
      'blind = A0 and not A2 and not A3',
      '"grow light" = (A2 or A4) and not A0',
      'alarm = A3 and A4 or A0 and A2',
      '"all well" = not (vent or fan or mister or heater or blind or "grow light" or alarm)',
    ];
    await fillRules(page, rules.join('\n'));
    await eventually(headline(page)).toHaveText(
      /^None of the 32 rows is stored as wanted, nor shown as wanted with the supply on\.$|^\d+ of 32/,
    );
    for (const n of [0, 5, 13, 31])
      await eventually
        .poll(() =>
          row(page, n)
            .count()
            .then((c) => (c ? wantedOf(page, n) : greenhouse.wanted!.rows[n]!.toString(2).padStart(8, '0'))),
        )
        .toBe(greenhouse.wanted!.rows[n]!.toString(2).padStart(8, '0'));
    await page.getByRole('button', { name: 'Store it in U1' }).click();
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
    await supply(page).click();
    await row(page, 13).getByRole('button').click();
    // the poles keep their names; the inputs of this table were not given any
    for (const [bit, name] of SENSORS.entries())
      await eventually(sensor(page, name)).toHaveAttribute('aria-checked', String(((13 >> bit) & 1) === 1));
    await showsByte(page, greenhouse.wanted!.rows[13]!);
    // one act each: storing is taken back, then the rules
    await page.getByRole('button', { name: /^Undo/ }).click();
    await eventually(headline(page)).toHaveText(/stored as wanted|None of the 32 rows is stored/);
    await page.getByRole('button', { name: /^Undo/ }).click();
    await eventually(headline(page)).toHaveText('32 rows, none wanted yet.');
  });

  test('is changed by clicks and keys, each undone by itself', async ({ page }) => {
    await page.goto('/?plan=greenhouse#table');
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
    await eventually.poll(() => wantedOf(page, 0)).toBe('10000000');
    // a click only selects
    await row(page, 0).locator('.want').nth(7).click();
    await eventually(row(page, 0).locator('.want').nth(7)).toHaveAttribute('aria-selected', 'true');
    await eventually.poll(() => wantedOf(page, 0)).toBe('10000000');
    await page.getByRole('button', { name: 'Set to 1', exact: true }).click();
    await eventually.poll(() => wantedOf(page, 0)).toBe('10000001');
    await eventually(headline(page)).toHaveText('31 of 32 rows are stored as wanted, and shown as wanted with the supply on.');
    await eventually(row(page, 0).locator('.off')).toHaveCount(2);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('-');
    await eventually.poll(() => wantedOf(page, 1)).toBe('000101––');
    await eventually.poll(() => wantedOf(page, 2)).toBe('000000––');
    await page.getByRole('button', { name: /^Undo/ }).click();
    await eventually.poll(() => wantedOf(page, 2)).toBe('00000001');
    await page.getByRole('button', { name: /^Undo/ }).click();
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
  });

  test('says which cells depart from the rules, and goes back to them in one act', async ({ page }) => {
    await page.goto('/?plan=greenhouse#table');
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
    const note = page.getByRole('region', { name: 'Set by hand, against the rules' });
    await fillRules(page, 'vent = (hot or damp) and not windy and not raining');
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
    await eventually(note).toHaveCount(0);
    // vent is the last column: row 0 becomes 1, row 1 becomes free
    await row(page, 0).locator('.want').nth(7).click();
    await page.keyboard.press('1');
    await row(page, 1).locator('.want').nth(7).click();
    await page.getByRole('button', { name: "Set to don't care" }).click();
    await eventually(note).toContainText('vent in rows');
    await eventually(row(page, 0).getByRole('gridcell', { name: '1, set by hand; the rules give 0' })).toHaveCount(1);
    await eventually(row(page, 1).getByRole('gridcell', { name: "don't care, set by hand; the rules give 1" })).toHaveCount(1);
    await eventually(page.locator('row-grid [data-by-hand]')).toHaveCount(3);
    await note.getByRole('button', { name: 'Show row 1, vent' }).click();
    await note.getByRole('button', { name: 'vent: back to the rules' }).click();
    await eventually(note).toHaveCount(0);
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
    // one act, taken back as one
    await page.getByRole('button', { name: /^Undo/ }).click();
    await eventually(note).toContainText('vent in rows');
  });

  test('is pasted from a spreadsheet, with a heading or as a block', async ({ page }) => {
    await page.goto('/');
    await openErased(page, greenhouse.wanted);
    await eventually(row(page, 0)).toBeVisible();
    await row(page, 2).locator('.want').nth(6).click();
    await page.evaluate(() => navigator.clipboard.writeText('1\t0\n0\t1\n'));
    await page.keyboard.press('Control+v');
    await eventually.poll(() => wantedOf(page, 2)).toBe('00000010');
    await eventually.poll(() => wantedOf(page, 3)).toBe('00010001');
    await page.evaluate(() => navigator.clipboard.writeText('B\tA\t\tboth\n0\t0\t\t0\n0\t1\t\t0\n1\t0\t\tX\n1\t1\t\t1\n'));
    await page.getByRole('button', { name: 'Paste', exact: true }).click();
    await eventually(row(page, 3)).toBeVisible();
    await eventually(row(page, 4)).toHaveCount(0);
    await eventually.poll(() => Promise.all([0, 1, 2, 3].map((n) => wantedOf(page, n)))).toEqual(['0', '0', '–', '1']);
    await page.evaluate(() => navigator.clipboard.writeText('B\tA\t\tboth\n0\t0\t\t2\n'));
    await page.getByRole('button', { name: 'Paste', exact: true }).click();
    await eventually(page.locator('.table-page > .fault')).toHaveText(/line 2: "2" in column both is no level\. Write 0, 1, or X/);
  });

  test('marks a wrong rule at its place and says the cure', async ({ page }) => {
    await page.goto('/?plan=greenhouse#table');
    await fillRules(page, 'fan = hot\nvent = hot and wimdy');
    const fault = page.locator('#rules-fault');
    await eventually(fault).toContainText('line 2, column 16: nothing is called wimdy. Did you mean windy?');
    await eventually(fault.locator('.fault-place')).toHaveText(/2 │ vent = hot and wimdy\n\s+│ {16}\^{5}/);
    await fault.getByRole('button', { name: 'Go to the place' }).click();
    const marked = await page.evaluate(() => {
      const area = document.querySelector<HTMLTextAreaElement>('#rules-text')!;
      return area.value.slice(area.selectionStart, area.selectionEnd);
    });
    expect(marked).toBe('wimdy');
    // nothing was filled
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
  });

  test('of 65 536 rows is scrolled with only the rows in sight built', async ({ page }) => {
    await page.goto('/');
    const pin = (name: string) => `U1.${name}`;
    const inputs = Array.from({ length: 16 }, (_, i) => ({ name: `I${i}`, pin: pin(`A${i}`) }));
    const rows = Array.from({ length: 65_536 }, (_, r) => r & 1);
    const wanted = { inputs, outputs: [{ name: 'odd', pin: pin('D0') }], rules: [], rows };
    const { wanted: _, ...bare } = greenhouse;
    await openText(page, 'large.plan.json', JSON.stringify({ ...bare, title: 'Large', wanted }));
    await eventually(benchTitle(page)).toHaveText('Large');
    await page.getByRole('tab', { name: 'Table' }).click();
    await eventually(headline(page)).toHaveText(/^65\u202f536 rows/);
    for (const [width, height] of [
      [390, 844],
      [820, 1180],
      [1440, 900],
    ] as const) {
      await page.setViewportSize({ width, height });
      // no name of an input is smaller than can be read, and none reaches into the next
      const heads = await page
        .locator('.heads .head')
        .evaluateAll((all) =>
          all.map((h) => ({ letters: Number.parseFloat(getComputedStyle(h).fontSize), wide: h.getBoundingClientRect().width })),
        );
      expect(heads).toHaveLength(16);
      for (const { letters, wide } of heads) expect([letters > 10.5, wide >= letters - 0.1]).toEqual([true, true]);
    }
    await row(page, 0).locator('.want').focus();
    await page.keyboard.press('Control+End');
    await eventually(row(page, 65_535)).toBeVisible();
    expect(await grid(page).locator('tr[data-row]').count()).toBeLessThan(80);
    await eventually.poll(() => wantedOf(page, 65_535)).toBe('1');
    await eventually(page.locator('.table-main')).toContainText('No output depends on I1, I2');
  });
});

describe('bytes', () => {
  test('go out as Intel HEX and come back into an erased memory', async ({ page }) => {
    await page.goto('/?plan=greenhouse#table');
    await eventually(headline(page)).toHaveText(/^All 32/);
    await unfold(page, 'Bytes');
    const hex = await saved(page, () => page.getByRole('button', { name: 'Save as Intel HEX' }).click());
    expect(hex.toString()).toMatch(/^:10000000/);
    await openErased(page, greenhouse.wanted);
    await page.locator('input[data-for=image]').setInputFiles({ name: 'greenhouse.hex', mimeType: 'text/plain', buffer: hex });
    await eventually(page.locator('.verdict')).toHaveText('Both images are the same in all 32 rows, don’t-care bits aside.');
    await page.getByRole('button', { name: 'Put it into U1' }).click();
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
    const broken = Buffer.from(hex.toString().replace(/^(:.*)(..)$/m, '$100'));
    await page.locator('input[data-for=image]').setInputFiles({ name: 'broken.hex', mimeType: 'text/plain', buffer: broken });
    await eventually(page.locator('.bytes .fault')).toHaveText(
      /^\s*broken\.hex: line 1: its checksum reads 00, but its bytes make [0-9A-F]{2}/,
    );
  });

  test('of a real chip are compared in words, and a row that differs sets the switches', async ({ page }) => {
    const turned = (b: number) => (b & 0x80) | Number.parseInt((b & 0x7f).toString(2).padStart(7, '0').split('').reverse().join(''), 2);
    const seen = Buffer.alloc(2048, 0xff);
    for (const [n, value] of greenhouse.wanted!.rows.entries()) seen[n] = turned(value);
    await page.goto('/?plan=greenhouse#table');
    await eventually(headline(page)).toHaveText(/^All 32/);
    await unfold(page, 'Bytes');
    await page.locator('input[data-for=image]').setInputFiles({ name: 'read-out.bin', mimeType: 'application/octet-stream', buffer: seen });
    await eventually(page.locator('.verdict')).toContainText('D0 to D6 reversed');
    const wrong = page.locator('.wrong-bytes').getByRole('button').first();
    const n = Number(await wrong.textContent());
    await wrong.click();
    for (const [bit, name] of SENSORS.entries())
      await eventually(sensor(page, name)).toHaveAttribute('aria-checked', String(((n >> bit) & 1) === 1));
  });
});

test('what the memory replaces is counted, written and drawn', async ({ page }) => {
  await page.goto('/?plan=greenhouse#table');
  await unfold(page, 'Gates the memory replaces');
  await eventually(page.locator('gates-panel')).toContainText(/8 outputs of \d+ products would take \d+ gates in \d+ packages/);
  await page.getByLabel('Output drawn').selectOption({ label: 'heater' });
  await eventually(page.locator('.sum')).toHaveText('heater = dark AND NOT hot');
  await page.getByLabel('Notation').selectOption({ label: 'textbook' });
  await eventually(page.locator('.sum')).toHaveText("heater = dark·hot'");
  await eventually(page.getByRole('img', { name: /^heater drawn with gates/ })).toBeVisible();
});

/** The greenhouse's bench with a table of so many inputs and outputs. */
const large = (inputs: number, outputs: number, word: (row: number) => number): string => {
  const wanted = {
    inputs: Array.from({ length: inputs }, (_, i) => ({ name: `I${i}`, pin: `U1.A${i}` })),
    outputs: Array.from({ length: outputs }, (_, i) => ({ name: `F${i}`, pin: `U1.D${i}` })),
    rules: [],
    rows: Array.from({ length: 2 ** inputs }, (_, row) => word(row) & (2 ** outputs - 1)),
  };
  return JSON.stringify({ ...greenhouse, title: 'Large', memories: {}, wanted });
};

test('above eight inputs the shortest sum is bounded in words, and the packages are drawn beside the memory', async ({ page }) => {
  await page.goto('/');
  await openText(
    page,
    'large.plan.json',
    large(11, 1, (row) => Math.imul(row + 1, 2654435761) >>> 13),
  );
  await page.getByRole('tab', { name: 'Table' }).click();
  await unfold(page, 'Gates the memory replaces');
  const said = page.locator('gates-panel .shortness');
  await eventually(said).toHaveText(
    /^A short sum of \d+ products\. Any sum needs at least \d+: that many rows of 1 cannot share a product\./,
  );
  const [short, least] = (await said.textContent())!.match(/\d+/g)!.map(Number);
  // this function has no regularity: four fifths of what was found are surely needed
  expect(least! / short!).toBeGreaterThan(0.75);
  expect(least).toBeLessThanOrEqual(short!);
  await eventually(page.getByRole('img', { name: /^\d+ packages of gates beside one memory, drawn to one scale$/ })).toBeVisible();
  await eventually(page.locator('.sum')).toContainText('more products');
});

/** Presses Stop in the moment in which the panel says so: a hand of the test may come when all is done. */
const stopAt = (panel: Locator, says: RegExp) =>
  panel.evaluate(
    (element, pattern) =>
      new Promise<void>((stopped) => {
        const look = () => {
          const stop = [...element.querySelectorAll('button')].find((b) => b.textContent === 'Stop');
          if (!stop || !new RegExp(pattern).test(element.textContent)) return;
          observer.disconnect();
          stop.click();
          stopped();
        };
        const observer = new MutationObserver(look);
        observer.observe(element, { childList: true, subtree: true, characterData: true });
        look();
      }),
    says.source,
  );

test('long work on the sums says which output it is at, and can be stopped and begun again', async ({ page }) => {
  await page.goto('/');
  await openText(
    page,
    'large.plan.json',
    large(16, 8, (row) => Math.imul(row + 1, 2654435761) >>> 13),
  );
  await page.getByRole('tab', { name: 'Table' }).click();
  const panel = page.locator('gates-panel');
  const early = stopAt(panel, /Searching for the shortest sum of F0 …/);
  await unfold(page, 'Gates the memory replaces');
  await early;
  await eventually(panel).toContainText('Stopped.');
  const late = stopAt(panel, /Searching for the shortest sum of F[1-7] …/);
  await panel.getByRole('button', { name: 'Compute' }).click();
  await late;
  await eventually(panel).toContainText('Stopped.');
});

test.for([
  [1440, 900],
  [390, 844],
] as const)('axe finds nothing on the whole page Table, %i wide', async ([width, height], { page }) => {
  await page.setViewportSize({ width, height });
  await page.goto('/?plan=greenhouse-blank#table/wide');
  await eventually(row(page, 0)).toBeVisible();
  for (const name of ['Inputs and outputs', 'Bytes', 'Gates the memory replaces', 'In words']) await unfold(page, name);
  await page.getByLabel('Rules for the outputs, one per line').fill('vent = (');
  await eventually(page.locator('#rules-fault')).toBeVisible();
  const axe = new AxeBuilder({ page }).include('aside').withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']);
  const { violations } = await axe.setLegacyMode().analyze();
  expect(violations.flatMap((v) => v.nodes.map((n) => `${v.id} at ${n.target.join(' ')}`))).toEqual([]);
});
