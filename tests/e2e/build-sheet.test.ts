/** From a table to a bench that works, in a browser: built, written from its card, proven, and its sheet printed. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { textOfLink } from '../../client/plans/plan-link.ts';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { clipped, onPaper, PAPERS, pagesOf } from '../support/paper.ts';
import { wideBuild } from '../support/wide-build.ts';
import { benchTitle, openText, supply } from './hands.ts';

const notebook = (page: Page) => page.getByRole('tabpanel', { name: 'Build' });
const follow = (page: Page) => notebook(page).locator('.follow-now');

/** The plan in a link. */
async function planIn(link: string): Promise<Plan> {
  const text = await textOfLink(new URL(link).hash);
  if (!text.ok) throw new Error(text.failure.says);
  return JSON.parse(text.value) as Plan;
}

/** Does what the card asks for next: "Close S1 pole 3 (calm).", "Press S4 and release it: …" */
async function doNext(page: Page): Promise<string> {
  const says = (await follow(page).textContent()) ?? '';
  if (says.startsWith('Turn')) await supply(page).click();
  else if (says.startsWith('Press')) await page.getByRole('button', { name: 'write', exact: true }).click();
  else {
    const [, what = '', part = '', pole = '1'] = /^(Close|Open) (\w+)(?: pole (\d+))?/.exec(says) ?? [];
    const label = { S1: 'inputs', S2: '/OE', S3: 'data' }[part] ?? '';
    const toggle = page
      .getByRole('group', { name: label, exact: true })
      .getByRole('switch')
      .nth(Number(pole) - 1);
    await eventually(toggle).toHaveAttribute('aria-checked', String(what !== 'Close'));
    await toggle.click();
  }
  await eventually(follow(page)).not.toHaveText(says);
  return says;
}

async function openSheet(page: Page, plan: string) {
  await page.goto(`/?plan=${plan}#sheet`);
  await eventually(page.getByRole('heading', { name: 'Parts' })).toBeVisible();
  await eventually(page.getByRole('img', { name: /^The bench / })).toBeVisible();
}

describe('the ferry ramp', () => {
  test('is built from its table, written for three bytes by its card, with what goes wrong said', async ({ page }) => {
    await page.goto('/?plan=greenhouse#build');
    await page.getByRole('combobox', { name: /^Table/ }).selectOption({ label: 'Ferry ramp signals' });
    await eventually(notebook(page)).toContainText('7 inputs, 8 outputs, 128 rows');
    await page.getByRole('button', { name: 'Build the bench' }).click();
    await eventually(benchTitle(page)).toHaveText('Ferry ramp signals');
    await eventually(notebook(page)).toContainText('128 of 128 bytes still to write');
    await eventually(notebook(page)).toContainText(/128 bytes, \d+ switch moves \(at most \d+ more than the fewest/);

    await page.getByRole('button', { name: 'Follow the card' }).click();
    await eventually(follow(page)).toHaveText('Turn the supply on.');
    await eventually(page.locator('.pointer-ring')).toBeVisible();
    let presses = 0;
    for (let k = 0; presses < 3 && k < 40; k++) if ((await doNext(page)).startsWith('Press')) presses += 1;
    await eventually(notebook(page)).toContainText('125 of 128 bytes still to write');
    await eventually(notebook(page).getByRole('checkbox', { checked: true })).toHaveCount(3);
    await eventually(notebook(page).locator('.follow-wrong')).toHaveCount(0);

    // a pole that the card did not ask for: the byte goes elsewhere, and that is said
    const says = await follow(page).textContent();
    expect(says).toMatch(/^(Close|Open) /);
    // the view is at the pole that is next, on another board
    await page.getByRole('button', { name: /^Fit/ }).first().click();
    await page.getByRole('button', { name: 'write', exact: true }).click();
    await eventually(notebook(page).locator('.follow-wrong')).toContainText(/the card asks for/);
  });

  test('is proven in every row, and a byte that is changed is found, shown on the bench and asked about', async ({ page }) => {
    await page.goto('/?plan=ferry-ramp#build/proof');
    await page.getByRole('button', { name: 'Prove all rows' }).click();
    await eventually(notebook(page)).toContainText('All 128 rows are right: 100 %.');
    await page.getByLabel('Signed by').fill('A. Tester');
    await page.getByRole('button', { name: /^Sign the proof/ }).click();
    await eventually(notebook(page)).toContainText('Signed by A. Tester on');
    await page.getByRole('link', { name: 'Build sheet' }).click();
    await eventually(page.getByText('Proven on the simulated bench on')).toBeVisible();
    await page.getByRole('link', { name: 'Back to the bench' }).click();

    // it is in the plan: a link carries it, and a bench that has changed since says so
    await benchTitle(page).click();
    await page.getByRole('button', { name: 'Copy a link' }).click();
    await eventually(page.getByText(/^Link copied/)).toBeVisible();
    const signed = await planIn(await page.evaluate(() => navigator.clipboard.readText()));
    await openText(page, 'signed.plan.json', JSON.stringify({ ...signed, title: 'Signed' }));
    await eventually(benchTitle(page)).toHaveText('Signed');
    await page.getByRole('link', { name: 'Proof', exact: true }).click();
    await eventually(notebook(page)).toContainText('Signed by A. Tester on');
    await openText(page, 'since.plan.json', JSON.stringify({ ...signed, title: 'Changed since', wires: signed.wires.slice(1) }));
    await eventually(benchTitle(page)).toHaveText('Changed since');
    await eventually(notebook(page).getByRole('heading', { level: 2 })).toHaveText('Proven before the last change. Prove again.');
    await page.getByRole('link', { name: 'Build sheet' }).click();
    await eventually(page.getByText('Proven before the last change. Prove again.')).toBeVisible();
    await page.getByRole('link', { name: 'Back to the bench' }).click();

    const plan = await (await page.request.get('/api/plans/ferry-ramp')).json();
    plan.title = 'Ferry ramp with a wrong byte';
    plan.memories.U1['000'] = `B8${plan.memories.U1['000'].slice(2)}`;
    await openText(page, 'wrong.plan.json', JSON.stringify(plan));
    await eventually(benchTitle(page)).toHaveText(plan.title);
    await page.getByRole('link', { name: 'Proof', exact: true }).click();
    await page.getByRole('button', { name: 'Prove all rows' }).click();
    await eventually(notebook(page)).toContainText('127 of 128 rows are right: 99.2 %.');
    await eventually(notebook(page)).toContainText('Row 0 (no input): green should be dark and is lit.');
    await page.getByRole('button', { name: 'Set row 0 and ask why' }).click();
    await eventually(page.getByRole('tabpanel', { name: 'Why' }).getByRole('heading', { level: 2 })).toContainText(/green.*lit/);
  });
});

test('a proof asked for while /OE stands for writing says so, sets it in one act, and belongs to the switches that it was signed with', async ({
  page,
}) => {
  const blank = await (await page.request.get('/api/plans/greenhouse-blank')).json();
  const { memories } = await (await page.request.get('/api/plans/greenhouse')).json();
  await page.goto('/#build/proof');
  await openText(
    page,
    'written.plan.json',
    JSON.stringify({ ...blank, title: 'Written', memories, switches: { ...blank.switches, S3: [true] } }),
  );
  await eventually(benchTitle(page)).toHaveText('Written');
  const heading = notebook(page).locator('.headline');
  await page.getByRole('button', { name: 'Prove all rows' }).click();
  await eventually(heading).toHaveText(
    '0 of 32 rows are right: switch /OE (S3 pole 1) is closed, so the outputs of U1 are high-impedance (Z).',
  );
  await page.getByRole('button', { name: 'Open it, and prove again' }).click();
  await eventually(heading).toHaveText('All 32 rows are right: 100 %.');
  await page.getByRole('button', { name: /^Sign the proof/ }).click();
  await eventually(notebook(page)).toContainText('Signed on');
  const enable = page.getByRole('switch', { name: /^\/OE high to write/ });
  await enable.click();
  await eventually(heading).toHaveText('Proven with a switch the other way. Set it back, or prove again.');
  await eventually(notebook(page)).toContainText('Switch /OE (S3 pole 1) was open and is now closed.');
  await page.getByRole('button', { name: 'Set it back' }).click();
  await eventually(enable).toHaveAttribute('aria-checked', 'false');
  await eventually(notebook(page)).toContainText('Signed on');
});

test('beside a failed proof the edit that makes every row right is found, can be left, and is applied', async ({ page }) => {
  await page.goto('/?plan=greenhouse-dark-mister#build/proof');
  const heading = notebook(page).locator('.headline');
  await page.getByRole('button', { name: 'Prove all rows' }).click();
  await eventually(heading).toContainText('of 32 rows are right');
  await page.getByRole('button', { name: 'Find a repair' }).click();
  const repairs = page.getByRole('region', { name: 'Repairs' });
  await eventually(repairs).toContainText(/Reverse LED\d\./);
  await repairs.getByRole('button', { name: 'Apply' }).first().click();
  await eventually(heading).toHaveText('Not proven yet.');
  await page.getByRole('button', { name: 'Prove all rows' }).click();
  await eventually(heading).toHaveText('All 32 rows are right: 100 %.');
  await eventually(page.getByRole('button', { name: 'Find a repair' })).toHaveCount(0);
});

describe('a wide bench', () => {
  test('is proven in 65 536 rows by all workers together, one of whose shares holds the byte that is wrong', async ({ page }) => {
    const plan = wideBuild({ buffered: false, show: 'bar' });
    const rows = plan.memories.U2!;
    plan.memories.U2 = { ...rows, '8000': `${'00'}${rows['8000']!.slice(2)}` };
    await page.goto('/?plan=greenhouse#build/proof');
    await openText(page, 'wide.plan.json', JSON.stringify(plan));
    await eventually(benchTitle(page)).toHaveText(plan.title);
    await page.getByRole('button', { name: 'Prove all rows' }).click();
    await eventually(notebook(page)).toContainText('65\u202f535 of 65\u202f536 rows are right');
    await eventually(notebook(page)).toContainText(/Row 32768 \(in 15\)/);
  });
});

describe('the build sheet', () => {
  test('prints on both papers, with nothing clipped', async ({ page }) => {
    await openSheet(page, 'wind-vane');
    for (const paper of PAPERS) {
      await page.getByLabel(paper.name, { exact: true }).check();
      const pages = pagesOf(await page.pdf({ preferCSSPageSize: true }));
      expect(pages.length).toBeGreaterThan(3);
      expect(pages.length).toBeLessThan(16);
      // a picture that is wider than the paper is on its side
      const upright = [paper.width, paper.height];
      for (const size of pages) expect([upright, upright.toReversed()]).toContainEqual(size);
      expect(pages.filter(([width, height]) => width > height).length).toBeLessThan(3);
      await onPaper(page, paper, async () => expect(await clipped(page), paper.name).toEqual([]));
    }
  });

  test('has each row of a wide table on one line', async ({ page }) => {
    await openSheet(page, 'ticket-counter');
    const broken = () =>
      page.locator('.truth li').evaluateAll((rows) =>
        rows.flatMap((row) => {
          const [inputs, outputs] = [...row.querySelectorAll('code')].map((c) => c.getBoundingClientRect().top);
          return inputs === outputs ? [] : [row.textContent];
        }),
      );
    for (const paper of PAPERS) {
      await page.getByLabel(paper.name, { exact: true }).check();
      await onPaper(page, paper, async () => {
        expect(await clipped(page), paper.name).toEqual([]);
        expect(await broken(), paper.name).toEqual([]);
      });
    }
  });

  test('says what is on the bench, with a box for each wire', async ({ page }) => {
    await openSheet(page, 'wind-vane');
    // a picture a stage, outputs in two: every new wire has its number at both ends
    await eventually(page.locator('.stage-picture')).toHaveCount(7);
    const inputs = page.getByRole('img', { name: /^3\. Inputs, picture 1 of 1/ });
    await eventually(inputs.locator('.number-disc')).toHaveCount(16);
    const row = page.getByRole('row').filter({ hasText: 'S1, pole 4 (G0) to U1, pin 8 (A0)' });
    await eventually(row.locator('.box')).toHaveCount(1);
    await eventually(page.getByRole('row', { name: /10 kΩ.*brown black orange gold/ }).first()).toBeVisible();
    await eventually(page.getByRole('table', { name: /^Wire W1 back in, supply on/ }).first()).toContainText('4.45 V to 5.55 V');
    await page.getByRole('link', { name: 'Back to the bench' }).click();
    await eventually(page.locator('build-sheet')).toHaveCount(0);
  });
});

test('building along goes step by step on a telephone, keeps what is done, and names usual causes of a check that fails', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('/?plan=adding-machine#along');
  const along = page.getByRole('region', { name: 'Build along' });
  const heading = along.getByRole('heading', { level: 1 });
  await eventually(heading).toHaveText('PS1, bench supply 5 V');
  await page.keyboard.press('ArrowRight');
  await eventually(heading).toHaveText('Wire 1, red: PS1.+ to +j1');
  await eventually(along.locator('.hole-ring')).toHaveCount(1);
  await along.getByRole('button', { name: 'Done, next' }).click();
  await eventually(heading).toBeFocused();
  await page.keyboard.press('ArrowLeft');
  await eventually(along).toContainText('step 2 of 11 done');

  await along.getByRole('combobox', { name: 'Stage' }).selectOption({ label: '3. Inputs' });
  await eventually(along).toContainText('Inputs: step 1 of');
  const skip = along.getByRole('button', { name: /^(Done, next|Skip)$/ });
  for (let k = 0; k < 60 && !(await heading.textContent())?.startsWith('Close S5 pole 8'); k++) await skip.click();
  await along.getByLabel('Reading').fill('open');
  await page.keyboard.press('Enter');
  await eventually(along).toContainText('open is outside the band.');
  const causes = along.getByRole('region', { name: 'Usual causes' });
  await eventually(causes.getByRole('listitem').first()).toContainText(/ With this mistake: open, as you read\.$/);
  for (const theme of ['light', 'dark']) {
    await page.evaluate((t) => {
      document.documentElement.dataset.theme = t;
    }, theme);
    const { violations } = await new AxeBuilder({ page }).include('build-along').setLegacyMode().analyze();
    expect(violations.flatMap((v) => v.nodes.map((n) => `${theme}: ${v.id} at ${n.target.join(' ')}`))).toEqual([]);
  }
  await along.getByLabel('Reading').fill('0.3');
  await page.keyboard.press('Enter');
  await eventually(causes).toHaveCount(0);

  // what is not done comes first when the page is opened again
  await page.reload();
  await eventually(heading).toHaveText('PS1, bench supply 5 V');
  await eventually(along.getByRole('progressbar')).toHaveAttribute('value', /^[1-9]/);
});

describe('axe', () => {
  const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const found = async (page: Page, where: string) =>
    (await new AxeBuilder({ page }).include(where).withTags(RULES).setLegacyMode().analyze()).violations.flatMap((v) =>
      v.nodes.map((n) => `${v.id} at ${n.target.join(' ')}`),
    );

  test('finds nothing on the page Build, in both themes, nor on the sheet', async ({ page }) => {
    await page.goto('/?plan=wind-vane#build');
    await eventually(page.getByRole('button', { name: 'Build the bench' })).toBeVisible();
    expect(await found(page, 'aside')).toEqual([]);
    await page.getByRole('link', { name: 'Programming card' }).click();
    await page.getByRole('button', { name: 'Insert an erased memory' }).click();
    await page.getByRole('button', { name: 'Follow the card' }).click();
    await eventually(page.getByRole('checkbox')).toHaveCount(16);
    expect(await found(page, 'aside')).toEqual([]);
    await page.getByRole('button', { name: 'Dark theme' }).click();
    expect(await found(page, 'aside')).toEqual([]);
    await page.getByRole('link', { name: 'Proof', exact: true }).click();
    expect(await found(page, 'aside')).toEqual([]);
    await page.getByRole('link', { name: 'New bench' }).click();
    expect(await found(page, 'aside')).toEqual([]);
    await page.getByRole('link', { name: 'Build sheet' }).click();
    await eventually(page.getByRole('heading', { name: 'Parts' })).toBeVisible();
    expect(await found(page, 'build-sheet')).toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await found(page, 'build-sheet')).toEqual([]);
  });
});
