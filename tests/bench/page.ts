/** Speed of the page in headless Chromium: from a switch flip to the repainted lamp, read from the browser's own trace; and the size of the first load. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { type CDPSession, chromium } from 'playwright';
import { findBrowser } from '../support/browser.ts';
import { benchEdits } from './edits.ts';
import { middle, ms, printTable, share } from './measure.ts';

interface TraceEvent {
  readonly name: string;
  readonly cat: string;
  /** microseconds */
  readonly ts: number;
  readonly dur?: number;
}

/** Marks the moment of each flip and of each answer in the lamps, for the trace. */
const MARKS = `
  addEventListener('pointerdown', () => performance.mark('lampwright-flip'), true);
  new MutationObserver((changes) => {
    if (changes.some((c) => c.attributeName === 'data-glow')) performance.mark('lampwright-answer');
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ['data-glow'] });`;

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
    const loaded: number[] = [];
    page.on('response', async (r) => {
      if (/\.js$/.test(new URL(r.url()).pathname)) loaded.push((await r.request().sizes()).responseBodySize);
    });
    const t = performance.now();
    await page.goto(new URL('/?plan=greenhouse', url).href);
    await page.getByRole('switch', { name: /^Bench supply/ }).click();
    await page.getByRole('button', { name: /^all well, lit/ }).waitFor();
    const open = performance.now() - t;
    await page.waitForTimeout(500);
    await page.evaluate(MARKS);

    const cdp = await page.context().newCDPSession(page);
    const trace = await traced(cdp, async () => {
      // hot alone changes four lamps, whichever way it goes
      const pole = page.getByRole('switch', { name: /\bhot/ });
      for (let i = 0; i < 60; i++) {
        await pole.click();
        await page.waitForTimeout(40);
      }
    });
    const { answered, painted } = flipsIn(trace);
    printTable('The page: one switch flip of the greenhouse, chatter included', [
      [`${painted.length} flips`, 'median ms', '95 % ms'],
      ['flip to the new lamps in the document', ms(middle(answered)), ms(share(answered, 0.95))],
      ['flip to the frame that paints them', ms(middle(painted)), ms(share(painted, 0.95))],
    ]);
    printTable('First visit', [
      ['opening, supply on, first lamp lit', `${ms(open)} ms`],
      ['JavaScript over the wire, worker included', `${(loaded.reduce((a, b) => a + b, 0) / 1000).toFixed(0)} kB`],
    ]);
    await benchEdits(page);
  } finally {
    await browser.close();
    server.kill('SIGTERM');
    await once(server, 'exit');
  }
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
