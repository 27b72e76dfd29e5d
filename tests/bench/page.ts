/** Speed of the page in headless Chromium: opening; from a switch flip to the repainted LED, read from the browser's own trace; from an edit to its paint; dragging; and the size of the first load. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { type CDPSession, chromium, type Page } from 'playwright';
import type { Plan } from '../../shared/plan.ts';
import { findBrowser } from '../support/browser.ts';
import { contents, crowdedBench, manyMemories } from './benches.ts';
import { benchEdits } from './edits.ts';
import { middle, ms, printTable, share } from './measure.ts';
import { PAINTED, type Painted } from './painted.ts';
import { benchWideTable } from './wide-table.ts';

interface TraceEvent {
  readonly name: string;
  readonly cat: string;
  /** microseconds */
  readonly ts: number;
  readonly dur?: number;
}

/** Marks the moment of each flip and of each answer in the LEDs, for the trace. */
const MARKS = `
  addEventListener('pointerdown', () => performance.mark('lampwright-flip'), true);
  new MutationObserver((changes) => {
    if (changes.some((c) => c.attributeName === 'data-brightness')) performance.mark('lampwright-answer');
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ['data-brightness'] });`;

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
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.addInitScript(PAINTED);
    const loaded: number[] = [];
    page.on('response', async (r) => {
      if (/\.js$/.test(new URL(r.url()).pathname)) loaded.push((await r.request().sizes()).responseBodySize);
    });
    const openings: string[][] = [['opening, by the clock of the page', 'first paint', 'can be worked']];
    for (const visit of ['first visit', 'again']) {
      await page.goto(new URL('/?plan=greenhouse', url).href);
      const { paint, ready } = await opened(page);
      openings.push([visit, `${ms(paint)} ms`, `${ms(ready)} ms`]);
      if (visit === 'again') continue;
      printTable('Size', [
        ['JavaScript of the page over the wire, workers not included', `${(loaded.reduce((a, b) => a + b, 0) / 1000).toFixed(0)} kB`],
      ]);
    }
    await page.getByRole('switch', { name: /^Bench supply/ }).click();
    await page.getByRole('button', { name: /^all well, lit/ }).waitFor();
    await page.waitForTimeout(500);
    printTable('Opening', openings);
    await page.evaluate(MARKS);
    // hot alone changes four LEDs, whichever way it goes
    const one = await flips(page, /\bhot/);
    const oneEdit = await editsToPaint(page);
    await openPlan(page, manyMemories(8, contents));
    const eight = await flips(page, /pole 1\b/);
    await openPlan(page, crowdedBench());
    const crowded = await flips(page, /pole 1\b/);
    const crowdedEdit = await editsToPaint(page);
    const row = (name: string, times: readonly number[]) => [name, `${times.length}`, ms(middle(times)), ms(share(times, 0.95))];
    printTable('From a hand to the frame that paints it', [
      ['', 'times', 'median ms', '95 % ms'],
      row('a flip on the greenhouse', one.painted),
      row('a flip on eight memories', eight.painted),
      row('a flip on eight memories, 300 parts, 600 wires', crowded.painted),
      row('an edit on the greenhouse', oneEdit),
      row('an edit on 300 parts, 600 wires', crowdedEdit),
    ]);
    const fps = await dragging(page);
    printTable('Dragging a 24-pin chip with its wires', [
      ['', 'frames a second'],
      ['on 300 parts, 600 wires', fps.toFixed(0)],
    ]);
    await page.goto(new URL('/?plan=greenhouse', url).href);
    await opened(page);
    await page.getByRole('switch', { name: /^Bench supply/ }).click();
    await benchEdits(page);
    await benchWideTable(page);
  } finally {
    await browser.close();
    server.kill('SIGTERM');
    await once(server, 'exit');
  }
}

/** When something was first painted, and when the LEDs had been read so that hands can work the bench [ms since the page was asked for]. */
async function opened(page: Page): Promise<{ readonly paint: number; readonly ready: number }> {
  const ready = await page.waitForFunction(() => {
    const app = document.querySelector('lampwright-app') as unknown as { session?: { readings?: object } } | null;
    return app?.session?.readings && document.querySelector('.led') ? performance.now() : false;
  });
  const paint = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN);
  return { paint, ready: Number(await ready.jsonValue()) };
}

async function openPlan(page: Page, plan: Plan): Promise<void> {
  await page.evaluate(async (text) => {
    const app = document.querySelector('lampwright-app') as unknown as { session: { open(text: string): Promise<boolean> } };
    await app.session.open(text);
  }, JSON.stringify(plan));
  await page.waitForTimeout(1500);
}

async function flips(page: Page, name: RegExp): Promise<{ answered: number[]; painted: number[] }> {
  const cdp = await page.context().newCDPSession(page);
  const pole = page.getByRole('switch', { name }).first();
  const box = await pole.boundingBox();
  if (!box) throw new Error(`No switch ${name} is in sight.`);
  const trace = await traced(cdp, async () => {
    for (let i = 0; i < 60; i++) {
      await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
      await page.waitForTimeout(60);
    }
  });
  await cdp.detach();
  return flipsIn(trace);
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

/** Frames that were shown a second while a memory is dragged to and fro by its body. */
async function dragging(page: Page): Promise<number> {
  const chip = await page.locator('.bodies [data-part="U4"]').boundingBox();
  if (!chip) throw new Error('The fourth memory is not in sight.');
  const [x, y] = [chip.x + chip.width / 2, chip.y + chip.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 8, y, { steps: 3 });
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

async function traced(cdp: CDPSession, work: () => Promise<void>): Promise<TraceEvent[]> {
  const events: TraceEvent[] = [];
  cdp.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  await cdp.send('Tracing.start', {
    traceConfig: { includedCategories: ['blink.user_timing', 'devtools.timeline'] },
    transferMode: 'ReportEvents',
  });
  await work();
  const over = new Promise((done) => cdp.once('Tracing.tracingComplete', done));
  await cdp.send('Tracing.end');
  await over;
  return events.sort((a, b) => a.ts - b.ts);
}

/** Milliseconds from each flip to the first answer after it, and to the end of the first paint after that. */
function flipsIn(trace: readonly TraceEvent[]): { answered: number[]; painted: number[] } {
  const answered: number[] = [];
  const painted: number[] = [];
  const flips = trace.filter((e) => e.name === 'lampwright-flip');
  for (const [i, flip] of flips.entries()) {
    const until = flips[i + 1]?.ts ?? Number.POSITIVE_INFINITY;
    const answer = trace.find((e) => e.name === 'lampwright-answer' && e.ts > flip.ts && e.ts < until);
    const paint = answer && trace.find((e) => e.name === 'Paint' && e.ts > answer.ts && e.ts < until);
    if (!answer || !paint) continue;
    answered.push((answer.ts - flip.ts) / 1000);
    painted.push((paint.ts + (paint.dur ?? 0) - flip.ts) / 1000);
  }
  return { answered, painted };
}
