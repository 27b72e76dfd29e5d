/** Speed of the page in headless Chromium: opening; from a switch flip to the repainted LED, read from the browser's own trace; from an edit to its paint; dragging; and the size of the first load. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { type Browser, chromium, type Page } from 'playwright';
import type { Plan } from '../../shared/plan.ts';
import { findBrowser } from '../support/browser.ts';
import { contents, crowdedBench, manyMemories } from './benches.ts';
import { benchEdits } from './edits.ts';
import { flips, openSpot } from './flips.ts';
import { middle, ms, printTable, share } from './measure.ts';
import { PAINTED, type Painted } from './painted.ts';
import { keep, measured } from './report.ts';
import { benchWideTable } from './wide-table.ts';

export async function benchPage(): Promise<void> {
  const server = spawn(process.execPath, ['dist/server/main.js'], {
    env: { ...process.env, PORT: '0' },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const url = await new Promise<string>((found) => {
    createInterface(server.stdout).on('line', (line) => {
      const m = /(http:\S+)/.exec(line);
      if (m?.[1]) found(m[1]);
    });
  });
  const { executablePath } = await findBrowser();
  // memory is measured when it is asked for, not when the browser finds time
  const args = ['--enable-blink-features=ForceEagerMeasureMemory'];
  const browser = await chromium.launch({ args, ...(executablePath ? { executablePath } : {}) });
  try {
    await measured('page: opening', () => opening(browser, url));
    await measured('page: from a hand to the paint', () => handToPaint(browser, url));
    await measured('page: edits', async () => benchEdits(await greenhouse(browser, url)));
    await measured('page: wide table', async () => benchWideTable(await greenhouse(browser, url)));
  } finally {
    await browser.close();
    server.kill('SIGTERM');
    await once(server, 'exit');
  }
}

/** On a machine that does much else a page takes its time [ms]. */
const PATIENCE = 180_000;

const newPage = async (browser: Browser): Promise<Page> => {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.setDefaultTimeout(PATIENCE);
  await page.addInitScript(PAINTED);
  return page;
};

/** The greenhouse in a page of its own, with its supply on. */
async function greenhouse(browser: Browser, url: string): Promise<Page> {
  const page = await newPage(browser);
  await page.goto(new URL('/?plan=greenhouse', url).href);
  await opened(page);
  await page.getByRole('switch', { name: /^Bench supply/ }).click();
  await page.getByRole('button', { name: /^all well, lit/ }).waitFor();
  await page.waitForTimeout(500);
  return page;
}

async function opening(browser: Browser, url: string): Promise<void> {
  const page = await newPage(browser);
  const loaded: number[] = [];
  page.on('response', async (r) => {
    if (/\.js$/.test(new URL(r.url()).pathname)) loaded.push((await r.request().sizes()).responseBodySize);
  });
  const openings: string[][] = [['opening, by the clock of the page', 'first paint', 'can be worked']];
  for (const visit of ['first visit', 'again']) {
    await page.goto(new URL('/?plan=greenhouse', url).href);
    const { paint, ready } = await opened(page);
    openings.push([visit, `${ms(paint)} ms`, `${ms(ready)} ms`]);
    keep(`opening, ${visit}, can be worked`, ready);
    if (visit === 'again') continue;
    const kilobytes = loaded.reduce((a, b) => a + b, 0) / 1000;
    keep('JavaScript of the page over the wire', kilobytes, 'kB');
    printTable('Size', [['JavaScript of the page over the wire, workers not included', `${kilobytes.toFixed(0)} kB`]]);
  }
  printTable('Opening', openings);
  await page.close();
}

async function handToPaint(browser: Browser, url: string): Promise<void> {
  const page = await greenhouse(browser, url);
  const rows: string[][] = [['', 'times', 'median ms', '95 % ms']];
  const row = (name: string, times: readonly number[]) => {
    rows.push([name, `${times.length}`, ms(middle(times)), ms(share(times, 0.95))]);
    keep(name, middle(times));
  };
  // hot alone changes four LEDs, whichever way it goes
  row('a flip on the greenhouse', await flips(page, /\bhot/));
  row('an edit on the greenhouse', await editsToPaint(page));
  await openPlan(page, manyMemories(8, contents));
  row('a flip on eight memories', await flips(page, /pole 1\b/));
  await openPlan(page, crowdedBench());
  row('a flip on eight memories, 300 parts, 600 wires', await flips(page, /pole 1\b/));
  row('an edit on 300 parts, 600 wires', await editsToPaint(page));
  printTable('From a hand to the frame that paints it', rows);
  const fps = await dragging(page);
  keep('frames while a chip is dragged', fps, 'frames/s');
  printTable('Dragging a 24-pin chip with its wires', [
    ['', 'frames a second'],
    ['on 300 parts, 600 wires', fps.toFixed(0)],
  ]);
  await page.close();
}

/** When something was first painted, and when the LEDs had been read so that hands can work the bench [ms since the page was asked for]. */
async function opened(page: Page): Promise<{ readonly paint: number; readonly ready: number }> {
  const ready = await page.waitForFunction(() => {
    const app = document.querySelector('lampwright-app') as unknown as { session?: { readings?: object } } | null;
    return app?.session?.readings && document.querySelector('.led') ? performance.now() : false;
  });
  const painted = await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime);
  const paint = Number(await painted.jsonValue());
  return { paint, ready: Number(await ready.jsonValue()) };
}

async function openPlan(page: Page, plan: Plan): Promise<void> {
  await page.evaluate(async (text) => {
    const app = document.querySelector('lampwright-app') as unknown as { session: { open(text: string): Promise<boolean> } };
    if (!(await app.session.open(text))) throw new Error('The plan was not opened.');
  }, JSON.stringify(plan));
  await page.waitForTimeout(1500);
}

/** One end of a wire to the hole beside it and back: from the edit to the end of the frame that shows it [ms]. */
const editsToPaint = (page: Page): Promise<number[]> =>
  page.evaluate(async () => {
    interface Wire {
      to: string;
    }
    const { session } = document.querySelector('lampwright-app') as unknown as {
      session: { model: { plan: { wires: Wire[] } }; edit(change: object): void };
    };
    const took: number[] = [];
    for (let i = 0; i < 40; i++) {
      const before = session.model.plan.wires.at(-1) as Wire;
      const other = before.to.endsWith('a62') ? 'a63' : 'a62';
      const t = performance.now();
      session.edit({ op: 'replace', list: 'wires', before, after: { ...before, to: before.to.replace(/[a-j][0-9]+$/, other) } });
      await (window as unknown as Painted).painted();
      took.push(performance.now() - t);
      await new Promise((done) => setTimeout(done, 300));
    }
    return took;
  });

/** Frames that were shown a second while a memory is dragged to and fro by its body; throws if it was not taken up. */
async function dragging(page: Page): Promise<number> {
  const chip = page.locator('.bodies [data-part="U4"]').first();
  const { x, y } = await openSpot(chip);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 8, y, { steps: 3 });
  // what is dragged is lifted off the other bodies
  if ((await chip.count()) > 0) throw new Error('The fourth memory was not taken up.');
  const counted = page.evaluate(
    () =>
      new Promise<number>((done) => {
        const begun = performance.now();
        let frames = 0;
        const count = () => {
          frames += 1;
          const past = performance.now() - begun;
          if (past > 2000) done((1000 * frames) / past);
          else requestAnimationFrame(count);
        };
        requestAnimationFrame(count);
      }),
  );
  const until = Date.now() + 2200;
  for (let i = 0; Date.now() < until; i++) await page.mouse.move(x + 40 * Math.sin(i / 12), y);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  return counted;
}
