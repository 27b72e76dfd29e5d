/** A test function with a fresh page that is already on the bench. */
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright';
import { expect as withinPage } from 'playwright/test';
import { afterAll, test as base, beforeAll, inject } from 'vitest';

let browser: Browser;
beforeAll(async () => {
  const p = inject('executablePath');
  browser = await chromium.launch(p ? { executablePath: p } : {});
});
afterAll(async () => {
  await browser?.close();
});

/** test() with a fresh page already on the app. */
export const test = base.extend<{ context: BrowserContext; page: Page }>({
  context: async ({}, use) => {
    const c = await browser.newContext({ baseURL: inject('url'), hasTouch: true, permissions: ['clipboard-read', 'clipboard-write'] });
    await use(c);
    await c.close();
  },
  page: async ({ context }, use) => {
    const p = await context.newPage();
    await p.goto('/');
    await use(p);
  },
});
/** Waits for what a page shows; so long only on a machine that has much else to do. */
export const eventually = withinPage.configure({ timeout: 15_000 });
export { expect } from 'vitest';
