/** The whole act in a browser: a byte is written by hand, read back on LEDs, and a pulse that is too short says how short. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';

const NAMES = ['vent', 'fan', 'mister', 'heater', 'blind', 'grow light', 'alarm', 'all well'];
const SENSORS = ['hot', 'damp', 'dark', 'windy', 'raining'];
const blank = JSON.parse(readFileSync('shared/demos/greenhouse-blank.plan.json', 'utf8')) as Plan;

const led = (page: Page, name: string) =>
  page.getByRole('group', { name: /^Bench/ }).getByRole('button', { name: new RegExp(`^${name}, `) });
const pole = (page: Page, group: string, name: string) =>
  page.getByRole('group', { name: group, exact: true }).getByRole('switch', { name: new RegExp(`\\b${name}`) });

async function set(page: Page, group: string, name: string, closed: boolean) {
  const s = pole(page, group, name);
  if (((await s.getAttribute('aria-checked')) === 'true') !== closed) await s.click();
  await eventually(s).toHaveAttribute('aria-checked', String(closed));
}
/** Waits until the eight LEDs show this byte, vent being bit 0. */
async function showsByte(page: Page, byte: number) {
  for (const [bit, name] of NAMES.entries())
    await eventually(led(page, name)).toHaveAccessibleName(new RegExp(`^${name}, ${(byte >> bit) & 1 ? 'lit' : 'dark'}`));
}
async function setByte(page: Page, byte: number) {
  for (const [bit, name] of NAMES.entries()) await set(page, 'data', name, ((byte >> bit) & 1) === 1);
}
async function setAddress(page: Page, address: number) {
  for (const [bit, name] of SENSORS.entries()) await set(page, 'sensors', name, ((address >> bit) & 1) === 1);
}
const outputEnable = (page: Page, high: boolean) => set(page, '/OE high to write', 'pole 1', high);

describe('a byte written by hand', () => {
  test('is read back on the LEDs, and the next address still holds FF', async ({ page }) => {
    await page.goto('/?plan=greenhouse-blank');
    await page.getByRole('switch', { name: /^Bench supply/ }).click();
    await showsByte(page, 0xff);
    await outputEnable(page, true);
    await setAddress(page, 0b00101);
    await setByte(page, 0x5a);
    await page.getByRole('button', { name: 'write', exact: true }).click();
    await setByte(page, 0x00);
    await showsByte(page, 0x00);
    await outputEnable(page, false);
    await showsByte(page, 0x5a);
    await setAddress(page, 0b00110);
    await showsByte(page, 0xff);
    await setAddress(page, 0b00101);
    await showsByte(page, 0x5a);
  });

  test('with a smaller capacitor the pulse is too short: the finding says how short, and the byte is not silently stored', async ({
    page,
  }) => {
    const short = { ...blank, parts: blank.parts.map((p) => (p.params?.farads === 4.7e-9 ? { ...p, params: { farads: 820e-12 } } : p)) };
    expect(short.parts).not.toEqual(blank.parts);
    await page.goto('/');
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'short.plan.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(short)) });
    await page.getByRole('switch', { name: /^Bench supply/ }).click();
    await showsByte(page, 0xff);
    await outputEnable(page, true);
    await setAddress(page, 3);
    await setByte(page, 0xa5);
    await page.getByRole('button', { name: 'write', exact: true }).click();
    await page.getByRole('tab', { name: /^Findings/ }).click();
    const panel = page.getByRole('tabpanel', { name: /^Findings/ });
    await eventually(panel).toContainText(/pulse/i);
    await eventually(panel).toContainText(/3\d\.?\d* ns/);
    await eventually(panel).toContainText('100 ns');
    await setByte(page, 0);
    await outputEnable(page, false);
    // nobody can tell what the cell holds now, and the LEDs say so
    await eventually(led(page, 'fan')).toHaveAccessibleName(/^fan, undefined \(X\)/);
  });

  test('asking why at a dark LED names what to touch, and the proof says what happens then', async ({ page }) => {
    await page.goto('/?plan=greenhouse-nothing-lights');
    await eventually(led(page, 'all well')).toHaveAccessibleName(/^all well, dark/);
    await led(page, 'all well').click();
    const why = page.getByRole('tabpanel', { name: 'Why' });
    await eventually(why.getByRole('heading', { level: 2 })).toContainText(
      'U2 pin 3 (2Y4) is high-impedance (Z) because U2 pin 19 (/2G) is high; that input has to be low',
    );
    await eventually(why).toContainText(/Move the end of wire W\d+/);
  });
});
