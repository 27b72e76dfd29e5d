/** What the browser tests do and look for on the bench, as a person would: LEDs and switches by the names they go by. */
import type { Page } from 'playwright';
import { eventually } from '../support/e2e.ts';

const LEDS = ['vent', 'fan', 'mister', 'heater', 'blind', 'grow light', 'alarm', 'all well'] as const;
export const SENSORS = ['hot', 'damp', 'dark', 'windy', 'raining'] as const;

const bench = (page: Page) => page.getByRole('group', { name: /^Bench/ });
export const supply = (page: Page) => bench(page).getByRole('switch', { name: /^Bench supply/ });
export const led = (page: Page, name: string) => bench(page).getByRole('button', { name: new RegExp(`^${name}, `) });
export const sensor = (page: Page, name: string) =>
  page.getByRole('group', { name: 'sensors', exact: true }).getByRole('switch', { name: new RegExp(`\\b${name}\\b`) });

/** Waits until the eight LEDs show this byte, vent being bit 0. */
export async function showsByte(page: Page, byte: number): Promise<void> {
  for (const [bit, name] of LEDS.entries())
    await eventually(led(page, name)).toHaveAccessibleName(new RegExp(`^${name}, ${(byte >> bit) & 1 ? 'lit' : 'dark'}`));
}

export async function openText(page: Page, name: string, text: string): Promise<void> {
  await page.locator('plan-chooser input[type=file]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
}

/** Presses Tab until the focus is on something with this name. */
export async function tabTo(page: Page, name: RegExp, most = 30): Promise<void> {
  const passed: string[] = [];
  for (let i = 0; i < most; i++) {
    await page.keyboard.press('Tab');
    const here = await page.evaluate(
      () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent?.trim() ?? '',
    );
    if (name.test(here)) return;
    passed.push(here);
  }
  throw new Error(`Tab did not come to ${name} in ${most} steps, but past: ${passed.join(' | ')}`);
}

/** Waits until this browser keeps a bench of this name, with its switches as said, if anything is said of them. */
export async function isKept(page: Page, title: string, switches?: Record<string, boolean[]>): Promise<void> {
  const read = () =>
    page.evaluate(async (name) => {
      const asked = indexedDB.open('lampwright');
      const db = await new Promise<IDBDatabase>((done) => {
        asked.onsuccess = () => done(asked.result);
      });
      const all = db.transaction('benches').objectStore('benches').getAll();
      const benches = await new Promise<Array<{ plan: string }>>((done) => {
        all.onsuccess = () => done(all.result);
      });
      db.close();
      const plans = benches.map((b) => JSON.parse(b.plan) as { title: string; switches: Record<string, boolean[]> });
      return plans.find((p) => p.title === name)?.switches;
    }, title);
  if (switches) await eventually.poll(read).toMatchObject(switches);
  else await eventually.poll(read).toBeDefined();
}

/** The title of the bench; a printed page over it has one of its own. */
export const benchTitle = (page: Page) => page.locator('main').getByRole('heading', { level: 1 });
