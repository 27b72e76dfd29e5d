/** What happens on a bench while nobody touches it: an overload kills an LED, which says by what and can be replaced; a clock makes an LED blink. */
import type { Locator, Page } from 'playwright';
import { readBenchText } from '../../sim-core/index.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { led, openText, supply } from './hands.ts';

async function openBench(page: Page, text: string) {
  const plan = readBenchText(text);
  if (!plan.ok) throw new Error(plan.failure.says);
  await eventually(supply(page)).toBeVisible();
  await openText(page, 'bench.plan.json', JSON.stringify(plan.value));
  await eventually(page.getByRole('heading', { level: 1 })).toHaveText(plan.value.title);
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
  B1 board-30
  PS1 bench-supply
  D1 led b1 b5 "porch"
  R1 resistor c5 c9 ohms=330
  S1 dip-switch e5 poles=1 "boost"
  R2 resistor i5 i9 ohms=27
  W1 wire PS1.+ a1 red
  W2 wire PS1.- a9 black
  W3 wire g9 d9 green
  S1 hands 1`;

test('an overloaded LED goes dark after a while, says what killed it, and is replaced through Why', async ({ page }) => {
  await page.goto('/');
  await openBench(page, PORCH);
  const boost = page.getByRole('switch', { name: /^boost pole 1/ });
  const names = await namesOf(led(page, 'porch'));
  await supply(page).click();
  await eventually(led(page, 'porch')).toHaveAccessibleName(/^porch, damaged: carried \d+(\.\d+)? mA, limit 30 mA$/);
  // it has been lit too brightly before, however short that was
  expect(await names()).toContainEqual(expect.stringMatching(/^porch, overdriven, \d+ mA$/));
  await eventually(page.getByRole('status')).toContainText(/porch is damaged: carried .* limit 30 mA/);
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
  await eventually(page.getByRole('status')).toContainText('porch is replaced');
});

/** 15 V on A9 of a memory, which bears 13.5 V there: two seconds. */
const PIERCED = `
  title Pierced
  B1 board-63
  PS1 bench-supply
  PS2 bench-supply volts=15
  U1 eeprom-2kx8 d12 "table"
  W1 wire PS1.+ j12 red
  W2 wire PS1.- a23 black
  W3 wire PS2.- b23 black
  W4 wire PS2.+ j14 red
  PS1 hands 1
  PS2 hands 1`;

test('a memory with too much voltage at one pin is marked there, goes on with the others, and says so', async ({ page }) => {
  await page.goto('/');
  await openBench(page, PIERCED);
  const mark = page.locator('.damage');
  await eventually(mark).toHaveCount(1);
  await eventually(mark).toHaveAccessibleName('table, damaged at A9: was at 15 V, limit 13.5 V');
  await eventually(page.getByRole('status')).toContainText(/table is damaged at A9: was at 15 V, limit 13\.5 V/);
  await eventually(page.locator('.damaged-name')).toHaveText('table damaged');
});

const BEAT = `
  title Beat
  B1 board-30
  PS1 bench-supply
  G1 clock-generator hertz=4
  D1 led b3 b7 "beat"
  R1 resistor c7 c12 ohms=330
  W1 wire G1.+ PS1.+ red
  W2 wire G1.- PS1.- black
  W3 wire G1.out a3 green
  W4 wire a12 PS1.- black
  PS1 hands 1`;

test('an LED that a clock drives blinks for the eye, and is spoken of a few times only', async ({ page }) => {
  await page.goto('/');
  await openBench(page, BEAT);
  const count = await page.evaluateHandle(() => {
    const seen = { blinks: 0, spoken: 0, headline: '' };
    const led = document.querySelector('[data-led="D1"]');
    const status = document.querySelector('[role="status"]');
    if (led) new MutationObserver((m) => (seen.blinks += m.length)).observe(led, { attributeFilter: ['data-brightness'] });
    if (status) new MutationObserver(() => (seen.spoken += 1)).observe(status, { subtree: true, childList: true, characterData: true });
    return seen;
  });
  await led(page, 'beat').click();
  await eventually(page.getByRole('status')).toContainText('beat keeps changing');
  // the answer goes with the LED, but is not read out each time
  await eventually(page.getByRole('tabpanel', { name: 'Why' }).getByRole('heading', { level: 2 })).toHaveAttribute('aria-live', 'off');
  await eventually.poll(async () => (await count.jsonValue()).blinks).toBeGreaterThan(8);
  expect((await count.jsonValue()).spoken).toBeLessThanOrEqual(4);
});

/** A digit that shows 1, of which segment b hangs on plus without a resistor. */
const HASTY = `
  title Hasty
  B1 board-30
  PS1 bench-supply
  DS1 seven-segment-common-cathode d10 "units"
  W1 wire PS1.+ +j1 red
  W2 wire PS1.- -a1 black
  W3 wire a12 -a10 black
  W4 wire +j12 j14 red
  R1 resistor a13 a20 ohms=330
  W5 wire e20 f20 yellow
  W6 wire +j20 j20 red`;

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
