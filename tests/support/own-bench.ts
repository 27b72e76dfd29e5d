/** A bench of one's own in a tab of a browser that is none, and the smallest edit of it. */
import { expect } from 'vitest';
import { partLookup, setLabel } from '../../sim-core/index.ts';
import type { FakeBrowser, Tab } from './fake-browser.ts';
import { ledPlan } from './plans.ts';

/** The id of its first LED. */
export const firstLed = (tab: Tab) => tab.session.model!.leds[0]!.led;
/** What that LED is called. */
export const labelOf = (tab: Tab) => tab.session.plan?.parts.find((p) => p.id === firstLed(tab))?.label;
/** One edit of the bench as it stands: its first LED is called so. */
export function call(tab: Tab, name: string): void {
  const change = setLabel({ plan: tab.session.plan!, layout: tab.session.model!.layout, kinds: partLookup }, firstLed(tab), name);
  if (!change.ok) throw new Error(change.failure.says);
  expect(tab.session.edit(change.value)).toBeUndefined();
}

/** A bench of one's own in a tab, kept. */
export async function ownBench(browser: FakeBrowser, title = 'Porch'): Promise<Tab> {
  const tab = await browser.visit();
  await tab.until(tab.benches.openMade(JSON.stringify({ ...ledPlan(330), title })));
  await tab.settle();
  return tab;
}
