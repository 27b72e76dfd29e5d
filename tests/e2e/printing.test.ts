/** The programming card as pages of its own, and large tables on paper: chosen, with the pages they take told before they are printed. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { buildPlan } from '../../sim-core/index.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { clipped, onPaper, PAPERS, pagesOf } from '../support/paper.ts';
import { benchTitle, openText } from './hands.ts';

const card = (page: Page) => page.getByRole('region', { name: 'Programming card', exact: true });
const rows = (page: Page) => card(page).getByRole('row');

describe('the printed programming card', () => {
  test('is reached from the card, for what is open and for an erased memory, with boxes for writing and for reading back', async ({
    page,
  }) => {
    await page.goto('/?plan=wind-vane#build/card');
    await page.getByRole('link', { name: 'Print the card' }).click();
    await eventually(card(page)).toContainText('This card is for an erased memory');
    await eventually(card(page)).toContainText(/16 bytes, \d+ switch moves \(proven the fewest.*about \d+ (s|min)\./);
    await eventually(card(page)).toContainText('Start with all switches of the bench open.');
    await eventually(rows(page)).toHaveCount(17);
    await eventually(card(page).locator('tbody .box')).toHaveCount(32);
    // row 0 of the vane's table: north alone
    await eventually(rows(page).filter({ hasText: /^\s*000\s*01/ })).toContainText(/^\s*000\s*01\s*close S3 pole 8 \(N\)\s*N\s*$/);
    await page.getByRole('link', { name: 'Back to the bench' }).click();

    const plan = await (await page.request.get('/api/plans/wind-vane')).json();
    plan.memories.U1['000'] = `FFFF${plan.memories.U1['000'].slice(4)}`;
    await openText(
      page,
      'two-open.plan.json',
      JSON.stringify({ ...plan, title: 'Two bytes open', switches: { ...plan.switches, S1: [false, false, false, true] } }),
    );
    await page.getByRole('link', { name: 'Programming card' }).click();
    await page.getByRole('link', { name: 'Print the card' }).click();
    await eventually(rows(page)).toHaveCount(3);
    await eventually(card(page)).toContainText(
      'Start with these switches as they are on this bench: close S1 pole 4 (G0); all others open.',
    );
    await page.getByLabel('all bytes, for an erased memory').check();
    await eventually(rows(page)).toHaveCount(17);
    // the memory in a hand has seen none of these switches
    await eventually(card(page)).toContainText('Start with all switches of the bench open.');
  });

  test('stands in the build sheet too, for an erased memory where this one holds every byte', async ({ page }) => {
    await page.goto('/?plan=wind-vane#sheet');
    const section = page.locator('build-sheet section').filter({ has: page.getByRole('heading', { name: 'Programming card' }) });
    await eventually(section.first()).toContainText('This card is for an erased memory.');
    await eventually(section.first().getByRole('row')).toHaveCount(17);
  });

  test('prints on both papers with nothing clipped, and axe finds nothing', async ({ page }) => {
    await page.goto('/?plan=braille-tutor#sheet/card');
    await eventually(rows(page)).toHaveCount(28);
    for (const paper of PAPERS) {
      await page.getByLabel(paper.name, { exact: true }).check();
      const pages = pagesOf(await page.pdf({ preferCSSPageSize: true }));
      expect(pages.length).toBeLessThan(3);
      for (const size of pages) expect(size).toEqual([paper.width, paper.height]);
      await onPaper(page, paper, async () => {
        expect(await clipped(page), paper.name).toEqual([]);
        await eventually(page.getByRole('button', { name: 'Print', exact: true })).toBeHidden();
      });
    }
    const { violations } = await new AxeBuilder({ page }).include('card-sheet').setLegacyMode().analyze();
    expect(violations.flatMap((v) => v.nodes.map((n) => `${v.id} at ${n.target.join(' ')}`))).toEqual([]);
  });

  test('says what is missing where a bench cannot be written by hand', async ({ page }) => {
    await page.goto('/?plan=ferry-ramp#sheet/card');
    await eventually(card(page)).toContainText('There is no card for this bench. U1 has no write button of its own on this bench');
    await eventually(page.getByRole('button', { name: 'Print', exact: true })).toBeDisabled();
  });
});

describe('a table of 2 048 rows on the build sheet', () => {
  test('is printed as the person chooses, on as many pages as are told', async ({ page }) => {
    await page.goto('/');
    const plan = buildPlan({
      title: 'Many rows',
      inputs: Array.from({ length: 11 }, (_, i) => `a${i}`),
      outputs: Array.from({ length: 8 }, (_, i) => ({ name: `q${i}` })),
      rows: Array.from({ length: 2048 }, (_, r) => (r * 37) & 255),
      memory: 'eeprom-2kx8',
      byHand: false,
      show: 'bar',
      buffered: true,
      amps: 4e-3,
    });
    await openText(page, 'many.plan.json', JSON.stringify(plan.ok && plan.value));
    await eventually(benchTitle(page)).toHaveText('Many rows');
    await page.getByRole('tab', { name: 'Build' }).click();
    await page.getByRole('link', { name: 'Build sheet' }).click();
    const form = page.getByLabel('Truth table');
    await eventually(form).toHaveValue('hex');
    await eventually(form).toContainText('all 2048 rows as hexadecimal numbers: 1 page');
    await eventually(form).toContainText('all 2048 rows bit by bit: 11 pages');
    for (const paper of PAPERS) {
      await page.getByLabel(paper.name, { exact: true }).check();
      const count = async (choice: string) => {
        await form.selectOption(choice);
        const pages = pagesOf(await page.pdf({ preferCSSPageSize: true }));
        await onPaper(page, paper, async () => expect(await clipped(page), `${paper.name}, ${choice}`).toEqual([]));
        return pages.length;
      };
      const without = await count('none');
      expect([(await count('hex')) - without, (await count('bits')) - without]).toEqual([1, 11]);
    }
    await form.selectOption('first');
    await eventually(page.getByRole('listitem').filter({ hasText: /^255 / })).toHaveCount(1);
    await eventually(page.getByText('The first 256 of 2048 rows.')).toBeVisible();
  });
});
