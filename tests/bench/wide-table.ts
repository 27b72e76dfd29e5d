/** The page Table on 65 536 rows and 16 outputs: opening, scrolling, editing, and images of 64 KB; what keeps the page from answering is counted. */
import type { Page } from 'playwright';
import { wideBuild, wideWord } from '../support/wide-build.ts';
import { middle, ms, printTable, share } from './measure.ts';
import type { Painted } from './painted.ts';
import { keep } from './report.ts';

/** Frames on a screen of 60 Hz come every 16.7 ms; one that took longer than this was late [ms]. */
const LATE = 20;

interface Frames {
  readonly took: readonly number[];
}

/** A wanted plan of this size as text, opened as if it had been built here; the notebook turned to its table. */
async function openTable(page: Page, text: string): Promise<number> {
  return page.evaluate(async (text) => {
    const chooser = document.querySelector('plan-chooser') as unknown as { made(text: string, next: string): Promise<void> };
    const t = performance.now();
    await chooser.made(text, '#table/wide');
    while (!document.querySelector('row-grid td.want')) await new Promise(requestAnimationFrame);
    return performance.now() - t;
  }, text);
}

/** Longest time in which the page could not answer while this was going on, and until it has rested for a while [ms]. */
async function longest(page: Page, work: () => Promise<unknown>, rest = 2500): Promise<number> {
  await page.evaluate(() => {
    const held = window as unknown as { longTasks: number[]; watcher: PerformanceObserver };
    held.longTasks = [];
    held.watcher = new PerformanceObserver((list) => held.longTasks.push(...list.getEntries().map((e) => e.duration)));
    held.watcher.observe({ type: 'longtask' });
  });
  await work();
  await page.waitForTimeout(rest);
  return page.evaluate(() => {
    const held = window as unknown as { longTasks: number[]; watcher: PerformanceObserver };
    held.watcher.disconnect();
    return Math.max(0, ...held.longTasks);
  });
}

/** The table taken past the window from its first row to its last, so many pixels a frame; by: how far a frame goes, of the whole. */
const scrolled = (page: Page, frames: number, part: number): Promise<Frames> =>
  page.evaluate(
    async ([frames, part]) => {
      const grid = document.querySelector('.grid-scroll') as HTMLElement;
      const took: number[] = [];
      const frame = () => new Promise<number>(requestAnimationFrame);
      const all = (grid.scrollHeight - grid.clientHeight) * (part as number);
      let before = await frame();
      for (let i = 0; i <= (frames as number); i++) {
        grid.scrollTop = (all * i) / (frames as number);
        const now = await frame();
        took.push(now - before);
        before = now;
      }
      return { took };
    },
    [frames, part],
  );

/** A selected wanted cell set to its other value, or the undo of that, to the end of the frame that shows it changed [ms]; throws if none does within seconds. */
const edited = (page: Page, times: number, act: 'set' | 'undo'): Promise<number[]> =>
  page.evaluate(
    async ([times, act]) => {
      const FIRST = 40;
      const cellOf = (i: number) => document.querySelectorAll<HTMLElement>('row-grid td.want')[FIRST + i] as HTMLElement;
      const took: number[] = [];
      for (let i = 0; i < (times as number); i++) {
        // the last is undone first
        const place = act === 'set' ? i : (times as number) - 1 - i;
        const before = cellOf(place).dataset.cell;
        cellOf(place).click();
        await (window as unknown as Painted).painted();
        const setter = [...document.querySelectorAll<HTMLElement>('row-grid .cell-setter button')].find(
          (b) => b.textContent?.trim() === (before === '1' ? '0' : '1'),
        );
        if (!setter) throw new Error('There is no button that sets a selected cell.');
        const t = performance.now();
        if (act === 'set') setter.click();
        else (document.querySelector('lampwright-app') as unknown as { session: { undo(): void } }).session.undo();
        do {
          await (window as unknown as Painted).painted();
          if (performance.now() - t > 5000) throw new Error(`Five seconds after its ${act} a cell has not changed.`);
        } while (cellOf(place).dataset.cell === before);
        took.push(performance.now() - t);
        await new Promise((done) => setTimeout(done, 900));
      }
      return took;
    },
    [times, act] as const,
  );

/** From the file to the sentence that says how it differs [ms]. */
async function compared(page: Page, bytes: Buffer): Promise<number> {
  const verdict = page.locator('bytes-panel .verdict p');
  const before = await verdict.allTextContents();
  const t = performance.now();
  await page
    .locator('bytes-panel input[type=file]')
    .setInputFiles({ name: 'read-out.bin', mimeType: 'application/octet-stream', buffer: bytes });
  await page.waitForFunction(
    (before) => {
      const now = [...document.querySelectorAll('bytes-panel .verdict p')].map((p) => p.textContent ?? '');
      return now.length > 0 && now.join() !== before.join();
    },
    before,
    { timeout: 30_000 },
  );
  return performance.now() - t;
}

/** Waits for this headline of a page of the panel; throws with what it says instead. */
async function says(page: Page, panel: 'Table' | 'Build', sentence: RegExp): Promise<void> {
  const headlines = page.getByRole('tabpanel', { name: panel }).locator('h2');
  await headlines
    .filter({ hasText: sentence })
    .first()
    .waitFor({ timeout: 120_000 })
    .catch(async () => {
      throw new Error(`The page ${panel} does not say ${sentence}, but: ${(await headlines.allTextContents()).join(' | ')}`);
    });
}

/** With the supply off, what is shown was seen on a copy of the bench; with every row gone through, all three columns are there. */
const ALL_SHOWN = /^All 65\u202f536 rows are stored (as wanted, )?and shown as wanted( with the supply on)?\.$/;

/** From asking for the proof of all rows to its answer [ms]; the table is in sight again afterwards. */
async function proven(page: Page): Promise<number> {
  const turn = (to: string) =>
    page.evaluate((to) => {
      location.hash = to;
    }, to);
  await turn('#build/proof');
  const ask = page.getByRole('button', { name: 'Prove all rows' });
  await ask.waitFor();
  const t = performance.now();
  await ask.click();
  await says(page, 'Build', /^All 65\u202f536 rows are right/);
  const took = performance.now() - t;
  await turn('#table/wide');
  await says(page, 'Table', ALL_SHOWN);
  return took;
}

export async function benchWideTable(page: Page): Promise<void> {
  const text = JSON.stringify(wideBuild());
  let opened = 0;
  const opening = await longest(page, async () => {
    opened = await openTable(page, text);
  });
  await says(page, 'Table', ALL_SHOWN);
  const rolls: string[][] = [['scrolling 65 536 rows × 16 outputs, three columns', 'frames', 'median ms', '95 % ms', `over ${LATE} ms`]];
  for (const [what, frames, part] of [
    ['no row moved: what this machine does meanwhile', 250, 0],
    ['through all rows, 164 rows a frame', 400, 1],
    ['through a thousand rows, 4 rows a frame', 250, 1000 / 65536],
  ] as const) {
    const { took } = await scrolled(page, frames, part);
    keep(`table: ${what}`, middle(took));
    rolls.push([what, `${took.length}`, ms(middle(took)), ms(share(took, 0.95)), `${took.filter((t) => t > LATE).length}`]);
  }
  printTable('Table', rolls);
  await page.evaluate(() => document.querySelector('.grid-scroll')?.scrollTo(0, 0));
  await page.waitForTimeout(300);
  const rows: string[][] = [['65 536 rows × 16 outputs', 'times', 'median ms', '95 % ms', 'page held up longest, ms']];
  for (const [what, act] of [
    ['a cell edit to its paint', 'set'],
    ['its undo to its paint', 'undo'],
  ] as const) {
    let took: number[] = [];
    const held = await longest(page, async () => {
      took = await edited(page, 20, act);
    });
    keep(`table: ${what}`, middle(took));
    rows.push([what, `${took.length}`, ms(middle(took)), ms(share(took, 0.95)), ms(held)]);
  }
  let took = 0;
  const proving = await longest(page, async () => {
    took = await proven(page);
  });
  keep('page: proof of 65 536 rows', took);
  const cores = await page.evaluate(() => navigator.hardwareConcurrency);
  rows.push([`the proof of all rows, two buffers, from asking to answer, ${cores} cores`, '1', ms(took), '', ms(proving)]);
  const low = Buffer.from(Uint8Array.from({ length: 65536 }, (_, row) => wideWord(row)));
  const turned = low.map((b) => Number.parseInt([...b.toString(2).padStart(8, '0')].toReversed().join(''), 2));
  await page.evaluate(() => document.querySelector('bytes-panel details')?.setAttribute('open', ''));
  for (const [what, bytes] of [
    ['an image of 64 KB compared: the same', low],
    ['an image of 64 KB compared: bits reversed', Buffer.from(turned)],
  ] as const) {
    let took = 0;
    const held = await longest(page, async () => {
      took = await compared(page, bytes);
    });
    keep(`page: ${what}`, took);
    rows.push([what, '1', ms(took), '', ms(held)]);
  }
  const put = await longest(page, () => page.getByRole('button', { name: 'Put it into U1' }).click());
  rows.push(['that image put into its memory', '1', '', '', ms(put)]);
  // beside the choice of bytes there is a button of the same name
  const readOut = page.getByRole('region', { name: /^Read-out/ });
  const wants = await longest(page, () => readOut.getByRole('button', { name: 'Take as wanted' }).click());
  rows.push(['that image taken as wanted', '1', '', '', ms(wants)]);
  rows.push(['opening the plan until its table is there', '1', ms(opened), '', ms(opening)]);
  printTable('Editing', rows);
}
