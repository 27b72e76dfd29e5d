/** The page for people who do not use a mouse or do not see it: keys alone, and what a hover or the focus picks out. */
import { readFileSync } from 'node:fs';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { led, sensor, showsByte, supply, tabTo } from './hands.ts';
import { atRest, away } from './pointing.ts';

const plan = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;
const wanted = (row: number) => plan.wanted!.rows[row]!;

test('with keys alone: the supply, a switch, an LED, and why it is as it is', async ({ page }) => {
  await page.goto('/');
  await eventually(led(page, 'all well')).toBeVisible();
  await tabTo(page, /^Bench supply PS1, off/);
  await page.keyboard.press('Space');
  await showsByte(page, wanted(0));
  await tabTo(page, /^sensors pole 4 windy/);
  await page.keyboard.press('Space');
  await eventually(sensor(page, 'windy')).toHaveAttribute('aria-checked', 'true');
  await showsByte(page, wanted(8));
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Enter');
  await eventually(sensor(page, 'hot')).toHaveAttribute('aria-checked', 'true');
  await showsByte(page, wanted(9));
  await tabTo(page, /^fan, lit/);
  await page.keyboard.press('Enter');
  const why = page.getByRole('tabpanel', { name: 'Why' });
  await eventually(why.getByRole('heading', { level: 2 })).toContainText(/fan.* is lit/);
  await eventually(page.getByRole('button', { name: /^fan/, pressed: true })).toBeVisible();
});

describe('picking out', () => {
  /** The nets of which anything is picked out, and whether all that is drawn of them is. */
  const picked = () => ({
    nets: [...new Set([...document.querySelectorAll<SVGElement>('.picked')].map((e) => e.dataset.net))],
    rings: document.querySelectorAll('.hole-ring').length,
    leftOut: [...document.querySelectorAll<SVGElement>('[data-net]')].filter(
      (e) => !e.classList.contains('picked') && document.querySelector(`.picked[data-net="${e.dataset.net}"]`),
    ).length,
  });

  test('resting on a wire picks out its net and says its volts; going away lets it go', async ({ page }) => {
    await page.goto('/');
    await supply(page).click();
    await showsByte(page, wanted(0));
    const wire = plan.wires.find((l) => l.colour === 'white')!;
    await atRest(page);
    const spot = await page.evaluate((id) => {
      const path = document.querySelector<SVGPathElement>(`[data-wire="${id}"] .wire-hit`)!;
      const screen = path.getScreenCTM()!;
      for (let at = 0.1; at < 0.9; at += 0.02) {
        const { x, y } = path.getPointAtLength(path.getTotalLength() * at).matrixTransform(screen);
        if (document.elementFromPoint(x, y)?.closest<SVGElement>('[data-wire]')?.dataset.wire === id) return { x, y };
      }
      throw new Error(`nowhere is wire ${id} on top`);
    }, wire.id);
    await page.mouse.move(spot.x, spot.y);
    await eventually(page.locator('.under')).toHaveText(new RegExp(`^${wire.id}: 5 V, driven$`));
    const net = await page.locator(`[data-wire="${wire.id}"]`).getAttribute('data-net');
    const now = await page.evaluate(picked);
    expect(now.nets).toEqual([net]);
    expect(now.leftOut).toBe(0);
    // a ring round each of the five holes of its two strips
    expect(now.rings).toBe(10);
    await away(page);
    await eventually(page.locator('.picked')).toHaveCount(0);
    await eventually(page.locator('.hole-ring')).toHaveCount(0);
  });

  test('a button and a switch pole name their two sides by the holes they are in', async ({ page }) => {
    await page.goto('/?plan=greenhouse-blank');
    await supply(page).click();
    await page.getByRole('button', { name: 'write', exact: true }).hover();
    await eventually(page.locator('.under')).toHaveText(/^write: B2:[a-j]\d+ at [\d.]+ V, [^;]+; B2:[a-j]\d+ at [\d.]+ V, [^;]+$/);
    await sensor(page, 'hot').hover();
    await eventually(page.locator('.under')).toHaveText(/^sensors pole 1 hot: [a-j]\d+ at [^;]+; [a-j]\d+ at [^;]+$/);
  });

  test('with the supply off every place says so, and its terminals go by their colours', async ({ page }) => {
    await page.goto('/');
    await page.locator('[data-part="PS1"] [data-pin="+"]').first().hover({ force: true });
    await eventually(page.locator('.under')).toHaveText('red terminal (+) of PS1: 0 V, the supply is off');
    await supply(page).click();
    await page.locator('[data-part="PS1"] [data-pin="-"]').first().hover({ force: true });
    await eventually(page.locator('.under')).toHaveText('black terminal (−) of PS1: 0 V, driven');
  });

  test('the focus on an LED picks out the nets of its two legs', async ({ page }) => {
    await page.goto('/');
    await eventually(led(page, 'vent')).toBeVisible();
    await tabTo(page, /^vent, dark/);
    await eventually(page.locator('.under')).toHaveText('vent: 0 V, the supply is off');
    const now = await page.evaluate(picked);
    expect(now.nets).toHaveLength(1);
    expect(now.leftOut).toBe(0);
    // five holes in each of three strips
    expect(now.rings).toBe(15);
    await page.keyboard.press('Tab');
    expect((await page.evaluate(picked)).nets).not.toEqual(now.nets);
  });
});

/** Each is in the text after the one before it. */
function inOrder(text: string, ...parts: readonly string[]): void {
  let at = 0;
  for (const part of parts) {
    const found = text.indexOf(part, at);
    expect(found >= 0 ? part : `not found after ${text.slice(at, at + 200)} …: ${part}`).toBe(part);
    at = found + part.length;
  }
}

test('read from the top, the accessibility tree tells the bench, why an LED is dark with its fix, what was found, and the table', async ({
  page,
}) => {
  await page.goto('/?plan=greenhouse-dark-vent#why/LED1');
  const panel = page.getByRole('complementary', { name: 'Panel' });
  await eventually(panel.getByRole('region', { name: 'Tested fix' })).toContainText('All 32 rows');
  inOrder(
    await page.locator('body').ariaSnapshot(),
    'group "Bench: Greenhouse watch, the vent LED stays dark"',
    'img "R1, Resistor 470 Ω, a40 to -a32"',
    'img "48 wires; the Wires list reads them one by one"',
    'switch "Bench supply PS1, on" [checked]',
    'group "sensors"',
    'switch "sensors pole 1 hot, closed" [checked]',
    'switch "sensors pole 2 damp, open"',
    'button "U1, EEPROM 2K × 8, 24-pin, reading 0x001 → 15"',
    'button "vent, dark, 0 mA"',
    'group "Findings on the bench"',
    'Fault: The right half of rail −a on board B1 is in use but not connected to a supply',
    'heading "Greenhouse watch, the vent LED stays dark" [level=1]',
    'complementary "Panel"',
    'tab "Why" [selected]',
    'tabpanel "Why"',
    'is dark: board B1, bottom − rail, right half, is not connected to the supply’s −.',
    'region "Tested fix"',
    'Add a wire from',
    'button "-a26"',
    'button "-a6"',
    'is then lit',
    'button "Apply"',
  );
  await page.getByRole('tab', { name: /^Findings/ }).click();
  await eventually(panel.getByRole('heading', { level: 2 })).toContainText('finding');
  inOrder(
    await panel.ariaSnapshot(),
    'tab "Findings 2" [selected]',
    'heading "2 findings" [level=2]',
    'region "Fault"',
    'The right half of rail −a on',
    'button "board B1"',
    'button "Connect -a26 and -a25 with a wire"',
    'rows of the table are wrong',
  );
  await page.getByRole('tab', { name: 'Table' }).click();
  await eventually(panel.getByRole('heading', { level: 2 })).toContainText('none is shown as wanted');
  inOrder(
    await panel.ariaSnapshot(),
    'heading "All 32 rows are stored as wanted, none is shown as wanted." [level=2]',
    'grid "Truth table"',
    'columnheader "inputs raining, windy, dark, damp, hot"',
    'columnheader "vent"',
    'columnheader "stored"',
    'columnheader "shown"',
    'rowheader "Set the switches to row 1"',
    'gridcell "hot"',
    'gridcell "00010101"',
    'gridcell "00000000"',
  );
});
