/** Files that are no plan: one alert that says what and where, and the bench that stood before still stands and still answers. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { HOSTILE_DOCUMENTS } from '../support/hostile-texts.ts';
import { benchTitle, openText, sensor, showsByte, supply } from './hands.ts';

const good = readFileSync('shared/demos/greenhouse.plan.json', 'utf8');
const plan = JSON.parse(good) as Plan;
const wanted = (row: number) => plan.wanted!.rows[row]!;

const HOSTILE = [
  '2.4 million escapes in a string that is not closed',
  'lists in lists as the format',
  'objects in objects as the version',
  '100 000 parts',
];

const BAD: ReadonlyArray<readonly [what: string, text: string, says: RegExp]> = [
  ['cut off', good.slice(0, 900), /^The plan is cut off: it ends at line \d+, column \d+/],
  [
    'two ends in one hole',
    JSON.stringify({ ...plan, wires: [...plan.wires, { id: 'W99', from: 'a3', to: 'a30', colour: 'red' }] }),
    /^a3 is taken by R11 pin 1, so wire W99 cannot go there\./,
  ],
  ...HOSTILE_DOCUMENTS.filter(([what]) => HOSTILE.includes(what)).map(([what, text]) => [what, text, /^[^\n]{20,600}\.$/] as const),
  ['far too large', ' '.repeat(7_000_000), /^too-large.* has 7 MB; a plan has at most 5 MB\./],
];

/** The LEDs follow a switch, there and back. */
async function isLive(page: Page) {
  await sensor(page, 'hot').click();
  await showsByte(page, wanted(1));
  await sensor(page, 'hot').click();
  await showsByte(page, wanted(0));
}

test('the list of hostile documents has those that are opened here', () => {
  expect(BAD).toHaveLength(3 + HOSTILE.length);
});

describe('a file that is no plan', () => {
  test('is refused in words, and the bench is still there and live', async ({ page }) => {
    await page.goto('/');
    await supply(page).click();
    await showsByte(page, wanted(0));
    for (const [what, text, says] of BAD) {
      await openText(page, `${what.replaceAll(' ', '-')}.json`.replace('far-', ''), text);
      const alert = page.getByRole('alert');
      await eventually(alert.getByRole('paragraph'), what).toHaveText(says);
      expect(await alert.count(), what).toBe(1);
      await eventually(benchTitle(page)).toHaveText('Greenhouse watch');
      await isLive(page);
      await alert.getByRole('button', { name: 'Close' }).click();
      await eventually(alert).toHaveCount(0);
    }
  });

  test('dropped on the bench it is refused too, and a plan dropped there is opened', async ({ page }) => {
    await page.goto('/');
    const drop = async (text: string) => {
      const data = await page.evaluateHandle((t) => {
        const d = new DataTransfer();
        d.items.add(new File([t], 'dropped.plan.json', { type: 'application/json' }));
        return d;
      }, text);
      await page.dispatchEvent('main', 'drop', { dataTransfer: data });
    };
    await eventually(supply(page)).toBeVisible();
    await drop(good.slice(0, 200));
    await eventually(page.getByRole('alert')).toContainText('cut off');
    await drop(JSON.stringify({ ...plan, title: 'A bench that was dropped' }));
    await eventually(benchTitle(page)).toHaveText('A bench that was dropped');
    await eventually(page.getByRole('alert')).toHaveCount(0);
  });
});
