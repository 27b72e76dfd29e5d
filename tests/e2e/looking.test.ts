/** Looking at a bench in a browser: every part has a face, names and levels are as large as there is room, and the bench leaves as a picture. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import { LINE_Y } from '../../sim-core/board/boards.ts';
import { PARTS } from '../../sim-core/index.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { everyPart } from '../support/every-part.ts';
import { openText, supply } from './hands.ts';
import { atRest, onScreen, type Spot } from './pointing.ts';

/** The size of the letters of /WE on the memory, on the screen [px]; nothing while they are not shown. */
const letters = (page: Page): Promise<number[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<SVGTextElement>('.memory-chip .pin-name text')]
      .filter((t) => t.textContent === 'WE' && t.getBoundingClientRect().width > 0)
      .map(
        (t) =>
          Number.parseFloat(getComputedStyle(t).fontSize) * (t.getScreenCTM() ? Math.hypot(t.getScreenCTM()!.a, t.getScreenCTM()!.b) : 0),
      ),
  );

/** The hole nearest to the middle of what is in sight of the first board. */
async function holeInSight(page: Page): Promise<Spot> {
  await atRest(page);
  const [x, y] = await page.evaluate(() => {
    const surface = document.querySelector<SVGSVGElement>('bench-scene svg.bench')!;
    const world = [...surface.children].find((c) => c.tagName === 'g') as SVGGElement;
    const box = surface.getBoundingClientRect();
    const middle = new DOMPoint(box.x + box.width / 2, box.y + box.height / 2).matrixTransform(world.getScreenCTM()!.inverse());
    return [middle.x / 20, middle.y / 20] as const;
  });
  const lines = Object.entries(LINE_Y).flatMap(([line, at]) => (/^[a-j]$/.test(line) ? [at] : []));
  const line = lines.reduce((best, at) => (Math.abs(at - y) < Math.abs(best - y) ? at : best));
  return onScreen(page, Math.min(63, Math.max(1, Math.round(x))), line);
}

test('every part of the catalogue has a face of its own', async ({ page }) => {
  await page.goto('/');
  const plan = everyPart();
  expect(new Set(plan.parts.map((p) => p.kind))).toEqual(new Set(PARTS.map((p) => p.id)));
  await openText(page, 'every.plan.json', JSON.stringify(plan));
  await eventually(page.getByRole('group', { name: 'Bench: Every part' })).toBeVisible();
  const drawn = await page.evaluate(() => [...document.querySelectorAll('.bodies > g')].map((g) => g.getAttribute('class')?.split(' ')[0]));
  expect(drawn).toHaveLength(plan.parts.length);
  expect(drawn.filter((name) => name === 'plain' || name === undefined)).toEqual([]);
  // what names nothing would be a chip without its mark
  expect(await page.locator('.logic-chip:not(:has(.function-mark))').count()).toBe(0);
});

describe('names of pins', () => {
  test.for([
    [1440, 900],
    [820, 1180],
    [390, 844],
  ] as const)('at %i × %i are readable or not there', async ([width, height], { page }) => {
    await page.setViewportSize({ width, height });
    await page.goto('/?plan=greenhouse-blank');
    await eventually(page.locator('.level[data-level]').first()).toBeAttached();
    for (const size of await letters(page)) expect(size).toBeGreaterThan(7.5);
  });

  test('and levels grow for a projector, by key and by button', async ({ page }) => {
    await page.setViewportSize({ width: 1920, height: 1080 });
    await page.goto('/?plan=greenhouse');
    await eventually(page.locator('.level[data-level]').first()).toBeAttached();
    // the panel makes room for the bench
    const headline = page.locator('main').getByRole('heading', { level: 1 });
    await eventually(headline).toBeVisible();
    const sizes = async () => ({
      pin: Math.max(...(await letters(page))),
      headline: await headline.evaluate((h) => Number.parseFloat(getComputedStyle(h).fontSize)),
    });
    const usual = await sizes();
    await page.keyboard.press('p');
    await eventually(page.getByRole('button', { name: 'Presentation mode' })).toHaveAttribute('aria-pressed', 'true');
    await eventually.poll(async () => (await sizes()).pin).toBeGreaterThan(1.3 * usual.pin);
    expect((await sizes()).headline).toBeGreaterThan(1.3 * usual.headline);
    await page.getByRole('button', { name: 'Presentation mode' }).click();
    await eventually.poll(async () => (await sizes()).pin).toBe(usual.pin);
  });
});

for (const [width, height] of [
  [1280, 720],
  [1440, 900],
] as const)
  test(`at presentation size a row of eight LEDs stands in sight to its last figure, ${width} pixels wide too`, async ({ page }) => {
    await page.setViewportSize({ width, height });
    await page.goto('/?plan=greenhouse#table');
    await page.getByRole('button', { name: 'Presentation mode' }).click();
    await page.getByRole('button', { name: 'Show panel' }).click();
    const grid = page.locator('.grid-scroll');
    await eventually.poll(() => grid.evaluate((g) => g.scrollWidth - g.clientWidth)).toBe(0);
  });

test('on a narrow window the way to the LEDs covers no name: it stands in the bar of tools, and what is under the pointer above it', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('/?plan=greenhouse');
  for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Zoom in' }).click();
  const way = page.getByRole('button', { name: '8 LEDs →' });
  await eventually(way).toBeVisible();
  const covered = () =>
    way.evaluate((button) => {
      const [at, bar] = [button.getBoundingClientRect(), document.querySelector('view-tools')!.getBoundingClientRect()];
      // the bar is opaque: what its ground hides is not the way's doing
      return Math.max(0, bar.top - at.top) + Math.max(0, at.right - bar.left);
    });
  await eventually.poll(covered).toBe(0);
  const { x, y } = await holeInSight(page);
  await page.mouse.move(x, y);
  await eventually(page.locator('.under')).not.toHaveText('');
  expect(await covered()).toBe(0);
  // nothing is wider than the page, which would slide when the focus goes there
  expect(await page.evaluate(() => document.body.scrollWidth - document.body.clientWidth)).toBe(0);
  await way.click();
  await eventually(way).toHaveCount(0);
});

describe('a picture of the bench', () => {
  async function saved(page: Page, name: string): Promise<Buffer> {
    await page.getByRole('button', { name: 'Picture of the bench' }).click();
    const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name }).click()]);
    return readFileSync(await file.path());
  }

  test('as SVG stands alone: fonts inside, nothing fetched, the lit LED lit, light paper also from the dark look', async ({
    page,
    context,
  }) => {
    await page.goto('/?plan=greenhouse');
    await page.getByRole('button', { name: 'Dark theme' }).click();
    await supply(page).click();
    await eventually(page.getByRole('button', { name: /^all well, lit/ })).toBeAttached();
    const svg = (await saved(page, 'Save as SVG')).toString();
    const alone = await context.newPage();
    const asked: string[] = [];
    alone.on('request', (r) => void (r.url().startsWith('data:') || asked.push(r.url())));
    await alone.setContent(`<body style="margin:0">${svg}</body>`);
    await alone.evaluate(() => document.fonts.ready);
    const seen = await alone.evaluate(() => ({
      fonts: [...document.fonts].filter((f) => f.status === 'loaded').length,
      board: getComputedStyle(document.querySelector('.board-case')!).fill,
      lit: [...document.querySelectorAll('.led-lit')].filter((l) => Number(l.getAttribute('opacity')) > 0.5).length,
      title: document.querySelector('svg > title')?.textContent,
      focusable: document.querySelectorAll('[tabindex]').length,
    }));
    expect(asked).toEqual([]);
    expect(seen).toMatchObject({ board: 'rgb(252, 250, 244)', title: 'Greenhouse watch', focusable: 0 });
    expect(seen.fonts).toBeGreaterThan(1);
    expect(seen.lit).toBeGreaterThan(0);
    // the page itself is as it was
    await eventually(page.locator('html')).toHaveAttribute('data-theme', 'dark');
  });

  test('as PNG has the proportions of the bench', async ({ page }) => {
    await page.goto('/?plan=greenhouse');
    await eventually(page.locator('.level[data-level]').first()).toBeAttached();
    const png = await saved(page, 'Save as PNG');
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
    expect(width).toBeGreaterThan(2000);
    expect(height).toBeGreaterThan(500);
    expect(width).toBeGreaterThan(height);
  });

  test('in print is one landscape page', async ({ page }) => {
    await page.goto('/?plan=greenhouse');
    await eventually(page.locator('.level[data-level]').first()).toBeAttached();
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    const [, width, height] = /\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)/.exec(pdf) ?? [];
    expect(Number(width)).toBeGreaterThan(Number(height));
  });
});
