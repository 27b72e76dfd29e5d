/** What happens on a bench while nobody touches it: an overload kills an LED, which says by what and can be replaced; a clock makes an LED blink. */
import type { Locator, Page } from 'playwright';
import { readBenchText } from '../../sim-core/index.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { benchTitle, led, openText, supply } from './hands.ts';

async function openBench(page: Page, text: string) {
  const plan = readBenchText(text);
  if (!plan.ok) throw new Error(plan.failure.says);
  await eventually(supply(page)).toBeVisible();
  await openText(page, 'bench.plan.json', JSON.stringify(plan.value));
  await eventually(benchTitle(page)).toHaveText(plan.value.title);
}

/** All names that this goes by from now on. */
async function namesOf(thing: Locator): Promise<() => Promise<string[]>> {
  const seen = await thing.evaluateHandle((e) => {
    const names = [e.getAttribute('aria-label') ?? ''];
    new MutationObserver(() => names.push(e.getAttribute('aria-label') ?? '')).observe(e, { attributeFilter: ['aria-label'] });
    return names;
  });
  return () => seen.jsonValue();
}

/** An LED with a good resistor, and a switch that lays a far too small one beside it: (5 V − 2.2 V) / 27 Ω is over 90 mA. */
const PORCH = `
  title Porch
  board-30 B1
  bench-supply PS1
  led LED1 from b1 to b5 called "porch"
  resistor R1 330 from c5 to c9
  dip-switch S1 at e5 with poles 1 called "boost"
  resistor R2 27 from i5 to i9
  wire W1 red from PS1.+ to a1
  wire W2 black from PS1.- to a9
  wire W3 green from g9 to d9
  switch S1 set 1`;

test('an overloaded LED goes dark after a while, says what killed it, and is replaced through Why', async ({ page }) => {
  await page.goto('/');
  await openBench(page, PORCH);
  const boost = page.getByRole('switch', { name: /^boost pole 1/ });
  const names = await namesOf(led(page, 'porch'));
  await supply(page).click();
  await eventually(led(page, 'porch')).toHaveAccessibleName(/^porch, damaged: carried \d+(\.\d+)? mA, limit 30 mA$/);
  // it has been lit too brightly before, however short that was
  expect(await names()).toContainEqual(expect.stringMatching(/^porch, overdriven, \d+ mA$/));
  await eventually(page.getByRole('status').filter({ hasText: 'porch' })).toContainText(/porch is damaged: carried .* limit 30 mA/);
  await eventually(page.locator('.damage')).toHaveCount(1);
  await eventually(page.locator('.damaged-name')).toHaveText('porch damaged');
  // it stays dark when the cause is gone
  await boost.click();
  await led(page, 'porch').click();
  const why = page.getByRole('tabpanel', { name: 'Why' });
  await eventually(why.getByRole('heading', { level: 2 })).toContainText(/porch.* is damaged/);
  await eventually(why).toContainText('limit 30 mA');
  await why.getByRole('button', { name: /^(Apply|Replace it)$/ }).click();
  await eventually(led(page, 'porch')).toHaveAccessibleName(/^porch, lit, [\d.]+ mA$/);
  await eventually(why.getByRole('heading', { level: 2 })).toContainText(/porch.* is lit/);
  await eventually(page.locator('.damage')).toHaveCount(0);
  await eventually(page.getByRole('status').filter({ hasText: 'porch' })).toContainText('porch is replaced');
});

/** 15 V on A9 of a memory, which bears 13.5 V there: two seconds. */
const PIERCED = `
  title Pierced
  board-63 B1
  bench-supply PS1
  bench-supply PS2 15
  eeprom-2kx8 U1 at d12 called "table"
  wire W1 red from PS1.+ to j12
  wire W2 black from PS1.- to a23
  wire W3 black from PS2.- to b23
  wire W4 red from PS2.+ to j14
  switch PS1 set 1
  switch PS2 set 1`;

test('a memory with too much voltage at one pin is marked there, goes on with the others, and says so', async ({ page }) => {
  await page.goto('/');
  await openBench(page, PIERCED);
  const mark = page.locator('.damage');
  await eventually(mark).toHaveCount(1);
  await eventually(mark).toHaveAccessibleName('table, damaged at A9: was at 15 V, limit 13.5 V');
  await eventually(page.getByRole('status').filter({ hasText: 'table' })).toContainText(
    /table is damaged at A9: was at 15 V, limit 13\.5 V/,
  );
  await eventually(page.locator('.damaged-name')).toHaveText('table damaged');
});

const BEAT = `
  title Beat
  board-30 B1
  bench-supply PS1
  clock-generator G1 4
  led LED1 from b3 to b7 called "beat"
  resistor R1 330 from c7 to c12
  wire W1 red from G1.+ to PS1.+
  wire W2 black from G1.- to PS1.-
  wire W3 green from G1.out to a3
  wire W4 black from a12 to PS1.-
  switch PS1 set 1`;

test('an LED that a clock drives blinks for the eye, and is spoken of a few times only', async ({ page }) => {
  await page.goto('/');
  await openBench(page, BEAT);
  const count = await page.evaluateHandle(() => {
    const seen = { blinks: 0, spoken: 0, headline: '' };
    const led = document.querySelector('[data-led="LED1"]');
    const status = document.querySelector('[role="status"]');
    if (led) new MutationObserver((m) => (seen.blinks += m.length)).observe(led, { attributeFilter: ['data-brightness'] });
    if (status) new MutationObserver(() => (seen.spoken += 1)).observe(status, { subtree: true, childList: true, characterData: true });
    return seen;
  });
  await led(page, 'beat').click();
  await eventually(page.getByRole('status').filter({ hasText: 'beat' })).toContainText('beat keeps changing');
  // the answer goes with the LED, but is not read out each time
  await eventually(page.getByRole('tabpanel', { name: 'Why' }).getByRole('heading', { level: 2 })).toHaveAttribute('aria-live', 'off');
  await eventually.poll(async () => (await count.jsonValue()).blinks).toBeGreaterThan(8);
  expect((await count.jsonValue()).spoken).toBeLessThanOrEqual(4);
});

/** A digit that shows 1, of which segment b hangs on plus without a resistor. */
const HASTY = `
  title Hasty
  board-30 B1
  bench-supply PS1
  seven-segment-common-cathode DS1 at d10 called "units"
  wire W1 red from PS1.+ to +j1
  wire W2 black from PS1.- to -a1
  wire W3 black from a12 to -a10
  wire W4 red from +j12 to j14
  resistor R1 330 from a13 to a20
  wire W5 yellow from e20 to f20
  wire W6 red from +j20 to j20`;

test('an overloaded segment goes dark alone, and the digit goes on with the others', async ({ page }) => {
  await page.goto('/');
  await openBench(page, HASTY);
  const segment = (name: string) => page.getByRole('button', { name: new RegExp(`^units segment ${name},`) });
  await supply(page).click();
  await eventually(segment('b')).toHaveAccessibleName(/^units segment b, damaged: carried \d+ mA, limit 30 mA$/);
  await eventually(segment('c')).toHaveAccessibleName(/^units segment c, lit, [\d.]+ mA$/);
  await eventually(page.locator('.damage')).toHaveCount(1);
  await segment('b').click();
  const why = page.getByRole('tabpanel', { name: 'Why' });
  await eventually(why.getByRole('heading', { level: 2 })).toContainText(/^Segment b of .*units.* is dark: it is damaged/);
});
