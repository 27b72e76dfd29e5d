/** Flips of a switch in the page by its pointer: each must have moved the switch, and the browser's own trace says when an LED answered and when that was painted. */
import type { CDPSession, Locator, Page } from 'playwright';

interface TraceEvent {
  readonly name: string;
  /** microseconds */
  readonly ts: number;
  readonly dur?: number;
}

const FLIPS = 60;
/** Between two flips [ms]; a paint that comes later is not found. */
const APART = 120;
/** Of all flips, those that have to be found in the trace. */
const ENOUGH = 0.9 * FLIPS;

/** Marks the moment of each flip and of each answer in the LEDs, for the trace. */
const MARKS = `
  if (!window.flipsAreMarked) {
    window.flipsAreMarked = true;
    addEventListener('pointerdown', () => performance.mark('lampwright-flip'), true);
    new MutationObserver((changes) => {
      if (changes.some((c) => c.attributeName === 'data-brightness')) performance.mark('lampwright-answer');
    }).observe(document, { subtree: true, attributes: true, attributeFilter: ['data-brightness'] });
  }`;

/** Where a thing takes a click: near its middle, past the wires that run over it [px]. */
export async function openSpot(thing: Locator): Promise<{ readonly x: number; readonly y: number }> {
  const spot = await thing.evaluate((el) => {
    const { left, top, width, height } = el.getBoundingClientRect();
    const parts = Array.from({ length: 19 }, (_, i) => (i + 1) / 20);
    const spots = parts.flatMap((px) =>
      parts.map((py) => ({ x: left + px * width, y: top + py * height, off: Math.hypot(px - 0.5, py - 0.5) })),
    );
    return spots.sort((a, b) => a.off - b.off).find(({ x, y }) => el.contains(document.elementFromPoint(x, y)));
  });
  if (!spot) throw new Error(`Something lies over the whole of ${thing}.`);
  return spot;
}

/** Milliseconds from each flip of this switch to the end of the paint that shows the first LED's answer. */
export async function flips(page: Page, name: RegExp): Promise<readonly number[]> {
  await page.evaluate(MARKS);
  const cdp = await page.context().newCDPSession(page);
  const pole = page.getByRole('switch', { name }).first();
  const { x, y } = await openSpot(pole);
  const state = () => pole.getAttribute('aria-checked');
  const trace = await traced(cdp, async () => {
    for (let i = 0; i < FLIPS; i++) {
      const before = await state();
      await page.mouse.click(x, y);
      await page.waitForTimeout(APART);
      if ((await state()) === before) throw new Error(`A click on the switch ${name} did not move it.`);
    }
  });
  await cdp.detach();
  const painted = paintsIn(trace);
  if (painted.length < ENOUGH) throw new Error(`Of ${FLIPS} flips of ${name} only ${painted.length} were answered by an LED and painted.`);
  return painted;
}

async function traced(cdp: CDPSession, work: () => Promise<void>): Promise<TraceEvent[]> {
  const events: TraceEvent[] = [];
  cdp.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  await cdp.send('Tracing.start', {
    traceConfig: { includedCategories: ['blink.user_timing', 'devtools.timeline'] },
    transferMode: 'ReportEvents',
  });
  const over = new Promise((done) => cdp.once('Tracing.tracingComplete', done));
  try {
    await work();
  } finally {
    await cdp.send('Tracing.end');
    await over;
  }
  return events.sort((a, b) => a.ts - b.ts);
}

function paintsIn(trace: readonly TraceEvent[]): number[] {
  const marked = trace.filter((e) => e.name === 'lampwright-flip');
  return marked.flatMap((flip, i) => {
    const until = marked[i + 1]?.ts ?? Number.POSITIVE_INFINITY;
    const answer = trace.find((e) => e.name === 'lampwright-answer' && e.ts > flip.ts && e.ts < until);
    const paint = answer && trace.find((e) => e.name === 'Paint' && e.ts > answer.ts && e.ts < until);
    return paint ? [(paint.ts + (paint.dur ?? 0) - flip.ts) / 1000] : [];
  });
}
